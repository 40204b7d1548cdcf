"""One animal as every list shows it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from colony.notation.days import Day
from colony.store.readers.animals.herd import read_places, read_widths_of
from colony.store.readers.litters.parents import Parents, read_parents_of


@dataclass(frozen=True)
class ListedAnimal:
    """One animal of a list; `sires` are as typed, and `inbreeding` is None where nobody asked."""

    tag: str
    name: str | None
    sex: str
    species: str | None
    line: str | None
    born: str | None
    age_days: int | None
    dam: str | None
    sires: list[str]
    status: str
    tank: str | None
    disc_width_mm: int | None
    inbreeding: float | None = None

    @property
    def sire(self) -> str | None:
        """The sire beyond doubt, if there is one."""
        return self.sires[0] if len(self.sires) == 1 else None


@dataclass(frozen=True)
class Lister:
    """What was read of everybody on a list, by animal id."""

    parents: Parents
    places: Mapping[int, str]
    widths_mm: Mapping[int, tuple[date, int]]
    """The day of the last width, and the disc width in mm."""
    today: date

    def listed(self, animal_id: int, inbreeding: float | None = None) -> ListedAnimal:
        """One animal of the list."""
        row = self.parents.herd.by_id(animal_id)
        return ListedAnimal(
            tag=row.tag,
            name=row.name,
            sex=row.sex,
            species=row.species,
            line=row.line,
            born=str(row.birthday) if row.birthday else None,
            age_days=age_days(row.birthday, row.ended_on or self.today),
            dam=self.parents.tag(self.parents.dam_id(row)),
            sires=self.parents.written(self.parents.sires(row)),
            status=row.status,
            tank=self.places.get(row.id),
            disc_width_mm=self.widths_mm[row.id][1] if row.id in self.widths_mm else None,
            inbreeding=inbreeding,
        )


def read_listed(session: Session, ids: Sequence[int], today: date) -> list[ListedAnimal]:
    """Some animals as a list shows them, in their order; for a page, not for a whole herd."""
    lister = Lister(
        read_parents_of(session, ids),
        read_places(session, today, ids),
        read_widths_of(session, ids),
        today,
    )
    return [lister.listed(animal_id) for animal_id in ids]


def age_days(born: Day | None, on: date) -> int | None:
    """Age on a day; where only month or year is known, the least it can be."""
    return None if born is None else max((on - min(born.last, on)).days, 0)
