"""Fields for days, measures and pups, as the breeder writes them."""

from dataclasses import dataclass

from colony.notation.days import parse_day, parse_day_as_known
from colony.notation.house import say_mass, say_volume
from colony.notation.measures import parse_length_mm, parse_mass_g, parse_volume_l
from colony.notation.pups import PupCount, parse_pups
from colony.notation.tags import parse_tag
from colony.notation.transponders import parse_transponder
from colony.refusals.animals import NotYet
from colony.screens.forms.fields.fields import FormField, Understood
from colony.screens.frame.session import BookSession


@dataclass(frozen=True)
class DayField(FormField):
    """One exact day: ``today``, ``3d ago``, ``2026-03-09``; up to today, unless it may lie `ahead`.

    `what` happened then.
    """

    first: str = "today"
    what: str = "What happened"
    ahead: bool = False

    def understand(self, text: str, book_session: BookSession) -> Understood:
        """Read the day."""
        day = parse_day(text, book_session.today, book_session.settings.date_order)
        if day > book_session.today and not self.ahead:
            raise NotYet(self.what, day, book_session.today)
        return Understood(day, f"{day:%a} {day.day} {day:%b %Y}")


@dataclass(frozen=True)
class KnownDayField(FormField):
    """A day as well as it is known: a month or a year will do."""

    def understand(self, text: str, book_session: BookSession) -> Understood:
        """Read the day, month or year."""
        day = parse_day_as_known(text, book_session.today, book_session.settings.date_order)
        return Understood(day, f"{day} ({day.precision})")


@dataclass(frozen=True)
class LengthField(FormField):
    """A length: ``12.5cm``, ``5in``; a bare number is in the book's unit."""

    def understand(self, text: str, book_session: BookSession) -> Understood:
        """Read the length in mm."""
        length_mm = parse_length_mm(text, book_session.settings.length_unit)
        return Understood(length_mm, book_session.length(length_mm))


@dataclass(frozen=True)
class MassField(FormField):
    """A mass: ``450g``, ``1.2kg``."""

    def understand(self, text: str, book_session: BookSession) -> Understood:
        """Read the mass in g."""
        mass_g = parse_mass_g(text, book_session.settings.mass_unit)
        return Understood(mass_g, say_mass(mass_g))


@dataclass(frozen=True)
class VolumeField(FormField):
    """A volume: ``800L``, ``200gal``."""

    def understand(self, text: str, book_session: BookSession) -> Understood:
        """Read the volume in L."""
        volume_l = parse_volume_l(text, book_session.settings.volume_unit)
        return Understood(volume_l, say_volume(volume_l))


@dataclass(frozen=True)
class PupsField(FormField):
    """Live pups by sex: ``2F3M1U``."""

    def understand(self, text: str, book_session: BookSession) -> Understood:  # noqa: ARG002 - as the base
        """Read the pups."""
        pups = parse_pups(text)
        return Understood(pups, _in_words(pups))


@dataclass(frozen=True)
class NewTagField(FormField):
    """A tag that is to be written on a tank for the first time."""

    def understand(self, text: str, book_session: BookSession) -> Understood:  # noqa: ARG002 - as the base
        """Read the tag; whether it is free is seen when the form is written."""
        return Understood(parse_tag(text))


@dataclass(frozen=True)
class TransponderField(FormField):
    """An ISO 11784 transponder number."""

    def understand(self, text: str, book_session: BookSession) -> Understood:  # noqa: ARG002 - as the base
        """Read the 15 digits."""
        return Understood(parse_transponder(text))


def _in_words(pups: PupCount) -> str:
    parts = (
        (pups.females, "female", "females"),
        (pups.males, "male", "males"),
        (pups.unknown, "not sexed", "not sexed"),
    )
    counts = ", ".join(f"{n} {one if n == 1 else many}" for n, one, many in parts if n)
    return f"{pups.total} live: {counts}" if counts else "none born alive"
