"""The species that a new book begins with: numbers that hold together, each with its source."""

import pytest
from farm import Farm

from colony.acts.animals.species import list_species
from colony.store.readers.animals.lives import read_lives


def test_no_new_born_pup_passes_the_width_gate_of_its_species(farm: Farm) -> None:
    """A gate that pups pass on the day of their birth is no gate."""
    lives = farm.ask(read_lives)
    for name, life in lives.by_species.items():
        assert life.traits["ready_width_mm"] > life.traits["birth_width_mm"], name


@pytest.mark.parametrize(
    ("trait", "word"),
    [
        ("gestation_likely_days", "common practice, no source"),
        ("birth_width_mm", "no source"),
        ("mature_width_female_mm", "common practice, no source"),
        ("asymptotic_width_female_mm", "Charvet et al. 2018"),
    ],
)
def test_a_figure_of_leopoldi_says_truly_where_it_is_from(
    farm: Farm, trait: str, word: str
) -> None:
    """Charvet et al. 2018 gives growth, and neither gestation, litter nor maturity."""
    rows = farm.rows(
        "SELECT l.source FROM life_history l JOIN species s ON s.id = l.species_id "
        "WHERE s.name = 'leopoldi' AND l.trait = ?",
        trait,
    )
    assert word in rows[0][0]
    assert farm.ask(list_species)
