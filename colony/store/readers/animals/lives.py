"""The life history of each species, the family's numbers standing in where one has none."""

from dataclasses import dataclass

from sqlalchemy import select
from sqlmodel import Session, col

from colony.planning.litters.gestation import GestationPrior
from colony.planning.pups.gates import ReadyRules
from colony.planning.pups.growth import GrowthPrior
from colony.records import LifeHistory, Species
from colony.records.species import FAMILY

_SEX_WORDS = {"F": ("female",), "M": ("male",), "U": ("female", "male")}


@dataclass(frozen=True)
class Life:
    """The life-history numbers of one species, by trait."""

    traits: dict[str, float]

    def gestation(self) -> GestationPrior:
        """Days of gestation before any birth of the colony is known."""
        low, high = self.traits["gestation_low_days"], self.traits["gestation_high_days"]
        likely = self.traits["gestation_likely_days"]
        # A likely value taken from the family may lie outside a species' own range.
        return GestationPrior(low, likely if low < likely < high else (low + high) / 2, high)

    def growth(self, sex: str) -> GrowthPrior:
        """Growth of a sex; of the mean of both where it is not known."""
        return GrowthPrior(
            asymptotic_mm=self._of_sex("asymptotic_width_{}_mm", sex),
            rate_per_year=self._of_sex("growth_rate_{}_per_year", sex),
            birth_mm=self.traits["birth_width_mm"],
        )

    def mature_width_mm(self, sex: str) -> float:
        """Disc width from which a sex is mature."""
        return self._of_sex("mature_width_{}_mm", sex)

    def mature_age_days(self, sex: str) -> int:
        """Age from which a sex is mature."""
        return round(self._of_sex("mature_age_{}_days", sex))

    def ready_rules(self) -> ReadyRules:
        """What a pup must have done before it is offered."""
        return ReadyRules(
            min_age_days=int(self.traits["ready_age_days"]),
            min_width_mm=self.traits["ready_width_mm"],
            min_foods=int(self.traits["ready_foods"]),
            feeding_days=int(self.traits["ready_feeding_days"]),
        )

    def _of_sex(self, trait: str, sex: str) -> float:
        numbers = [self.traits[trait.format(word)] for word in _SEX_WORDS[sex]]
        return sum(numbers) / len(numbers)


@dataclass(frozen=True)
class Lives:
    """The life of every species by its short name; None is an animal of unknown species."""

    by_species: dict[str, Life]

    def of(self, species: str | None) -> Life:
        """The life of a species, or of the family."""
        return self.by_species.get(species or FAMILY) or self.by_species[FAMILY]


def read_lives(session: Session) -> Lives:
    """Read the life history of all species of the book."""
    query = select(col(Species.name), col(LifeHistory.trait), col(LifeHistory.number)).join(
        LifeHistory, col(LifeHistory.species_id) == col(Species.id), isouter=True
    )
    written: dict[str, dict[str, float]] = {}
    for name, trait, number in session.execute(query):
        own = written.setdefault(name, {})
        if trait:
            own[trait] = number
    family = written[FAMILY]
    return Lives({name: Life(family | own) for name, own in written.items()})
