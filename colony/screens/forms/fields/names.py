"""Fields for what the book knows: tags, tanks, species and sires, completed while typing."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from colony.acts.animals.search import (
    ListedAnimal,
    complete_tag,
    complete_tank,
    tags_meant,
    who_is,
)
from colony.acts.animals.species import list_species, show_species
from colony.acts.tanks.page import tank_in_use
from colony.notation.days import show_span
from colony.notation.shares import parse_sires
from colony.notation.words import SEX_WORDS
from colony.refusals.animals import NoSuchTag, WrongSexForParent
from colony.screens.forms.fields.fields import FormField, Understood
from colony.screens.frame.session import BookSession
from colony.store.lookup import LITTER

ROLES = {"F": "dam", "M": "sire"}
"""What an animal of a sex is asked for as."""


@dataclass(frozen=True)
class TagField(FormField):
    """The tag of an animal of the book; completed among those of a sex and status."""

    sex: str | None = None
    status: str | None = "present"

    def understand(self, text: str, book_session: BookSession) -> Understood:
        """Find the animal."""
        hit = self.find(text.strip(), book_session)
        return Understood(hit.tag, describe(hit, book_session))

    def find(self, tag: str, book_session: BookSession) -> ListedAnimal:
        """The animal of that tag, if its sex is the one that is asked for."""
        hit = book_session.read(who_is, tag=tag, today=book_session.today)
        if self.sex and hit.sex != self.sex:
            raise WrongSexForParent(hit.tag, hit.sex, ROLES[self.sex])
        return hit

    def complete(self, text: str, book_session: BookSession) -> Sequence[str]:
        """Tags that begin so."""
        return book_session.read(complete_tag, text=text.strip(), sex=self.sex, status=self.status)


@dataclass(frozen=True)
class TagsField(TagField):
    """Several tags, with spaces or commas between them; one that holds a space stays whole."""

    SEPARATOR: ClassVar[str] = ","

    def understand(self, text: str, book_session: BookSession) -> Understood:
        """Find each animal."""
        tags = self.split(text, book_session)
        if any(tag.casefold() == LITTER for tag in tags):
            pups = book_session.read(tags_meant, tags=tags)
            return Understood(pups, f"{len(pups)} animals")
        hits = [self.find(tag, book_session) for tag in tags]
        words = describe(hits[0], book_session) if len(hits) == 1 else f"{len(hits)} animals"
        return Understood(tuple(hit.tag for hit in hits), words)

    def split(self, text: str, book_session: BookSession) -> list[str]:
        """Part what is typed into tags."""
        chunks = [chunk.strip() for chunk in re.split(self.SEPARATOR, text) if chunk.strip()]
        return [
            tag
            for chunk in chunks
            for tag in ([chunk] if self._is_one(chunk, book_session) else chunk.split())
        ]

    def _is_one(self, chunk: str, book_session: BookSession) -> bool:
        if len(chunk.split()) == 1:
            return True
        try:
            book_session.read(who_is, tag=chunk.rsplit("=", 1)[0].strip(), today=book_session.today)
        except NoSuchTag:
            return False
        return True

    def spoken(self, text: str) -> str:
        """The last tag is the one that is being typed."""
        return re.split(r"[\s,]+", text)[-1]


@dataclass(frozen=True)
class SiresField(TagsField):
    """Possible sires: ``Bruno``, or ``Bruno=0.7 Caro=0.3``."""

    SEPARATOR: ClassVar[str] = r",(?!\d)"
    """A comma before a digit is that of a share: ``Bruno=0,7``."""

    sex: str | None = "M"

    def understand(self, text: str, book_session: BookSession) -> Understood:
        """Read the sires and their shares."""
        sires = parse_sires(self.split(text, book_session))
        for sire in sires:
            if sire.tag is not None:
                self.find(sire.tag, book_session)
        return Understood(sires, f"{len(sires)} possible sires" if len(sires) > 1 else "")


@dataclass(frozen=True)
class TankField(FormField):
    """The code of a tank in use."""

    def understand(self, text: str, book_session: BookSession) -> Understood:
        """Find the tank."""
        tank = book_session.read(tank_in_use, code=text.strip(), today=book_session.today)
        inside = ", ".join(tank.animals[:3]) + (" …" if len(tank.animals) > 3 else "")  # noqa: PLR2004 - half a line
        full = "" if tank.load is None else f", {tank.load:.0%} of its floor"
        return Understood(tank.tank, f"{tank.role}, {inside or 'empty'}{full}")

    def complete(self, text: str, book_session: BookSession) -> Sequence[str]:
        """Codes that begin so."""
        return book_session.read(complete_tank, text=text.strip())


@dataclass(frozen=True)
class SpeciesField(FormField):
    """A species of the book."""

    def understand(self, text: str, book_session: BookSession) -> Understood:
        """Find the species."""
        page = book_session.read(show_species, name=text)
        return Understood(page.species, page.scientific_name)

    def complete(self, text: str, book_session: BookSession) -> Sequence[str]:
        """Species that begin so."""
        known = [page.species for page in book_session.read(list_species)]
        return [name for name in known if name.startswith(text.strip().lower())]


def describe(hit: ListedAnimal, book_session: BookSession) -> str:
    """Who an animal is, in half a line."""
    facts = (
        hit.name,
        SEX_WORDS[hit.sex],
        hit.species,
        None if hit.age_days is None else show_span(hit.age_days),
        None if hit.disc_width_mm is None else book_session.length(hit.disc_width_mm),
        f"in {hit.tank}" if hit.tank else None,
        hit.status if hit.status != "present" else None,
    )
    return ", ".join(fact for fact in facts if fact)
