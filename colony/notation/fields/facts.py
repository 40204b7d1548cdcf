"""What is said of something: facts by the names of the catalogue."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any, ClassVar

from colony.notation.fields.animals import ANIMAL_FACTS
from colony.notation.fields.field import Field
from colony.notation.fields.foods import FOOD_FACTS
from colony.notation.fields.litters import LITTER_FACTS
from colony.notation.fields.pairings import PAIRING_FACTS
from colony.notation.fields.tanks import SYSTEM_FACTS, TANK_FACTS


class Facts(Mapping[str, Any]):
    """Facts by the names of `FIELDS`; an empty text clears a fact.

    None, or no sires at all, says nothing and leaves a fact as it is.

    Raises
    ------
    TypeError
        There is no such fact.
    """

    FIELDS: ClassVar[Sequence[Field]] = ()

    def __init__(self, **facts: Any) -> None:  # noqa: ANN401 - each field has its own type
        if unknown := facts.keys() - {field.name for field in self.FIELDS}:
            raise TypeError(f"{type(self).__name__} has no {', '.join(sorted(unknown))}")
        self._facts = {name: fact for name, fact in facts.items() if fact not in (None, ())}

    def __getitem__(self, name: str) -> Any:  # noqa: ANN401 - the same
        return self._facts[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._facts)

    def __len__(self) -> int:
        return len(self._facts)

    def columns(self, **ids: int | None) -> dict[str, Any]:
        """The columns of the record for what is said.

        Parameters
        ----------
        ids
            The rows that are referred to, by field; a reference that is not among them is left out.
        """
        columns: dict[str, Any] = {}
        for field in self.FIELDS:
            if field.name in ids:
                columns |= field.columns(ids[field.name])
            elif field.name in self and field.is_column and not field.refers:
                columns |= field.columns(self[field.name])
        return columns


class AnimalFacts(Facts):
    """What is said of an animal."""

    FIELDS = ANIMAL_FACTS


class FoodFacts(Facts):
    """What is said of a food, beside its name."""

    FIELDS = FOOD_FACTS


class LitterFacts(Facts):
    """What is said of a litter."""

    FIELDS = LITTER_FACTS


class PairingFacts(Facts):
    """What is said of a pairing, beside who is with whom and since when."""

    FIELDS = PAIRING_FACTS


class SystemFacts(Facts):
    """What is said of a system of shared water, beside its name."""

    FIELDS = SYSTEM_FACTS


class TankFacts(Facts):
    """What is said of a tank; lengths in mm, its volume in L."""

    FIELDS = TANK_FACTS
