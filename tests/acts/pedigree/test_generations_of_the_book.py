"""The generation of a litter of a wild dam: by when it was conceived, held to when she came.

A pup of a female that was taken pregnant is no F1: it was conceived in the wild, and the codes
that can apply are W or R (CITES Notification 1998/14).
"""

import pytest
from farm import TODAY, Farm

from colony.acts.pedigree.founders import founder_page


def generation(farm: Farm, tag: str) -> tuple[str, str]:
    """The generation of an animal, and the codes that its record supports."""
    page = farm.ask(founder_page, today=TODAY)
    return next((b.generation, b.source_codes) for b in page.breeders if b.tag == tag)


@pytest.mark.parametrize(
    ("arrived", "told"),
    [
        ("60d ago", ("wild", "W or R")),
        ("89d ago", ("wild", "W or R")),
        ("120d ago", ("undetermined", "")),
        ("181d ago", ("F1", "")),
        ("500d ago", ("F1", "")),
    ],
)
def test_a_litter_is_of_where_it_was_conceived(
    farm: Farm, arrived: str, told: tuple[str, str]
) -> None:
    """P. leopoldi carries 90 to 180 days: born today, conceived between those days ago."""
    farm.female("Rio", origin="wild", arrived=arrived)
    farm.male("Bruno", origin="wild", arrived="900d ago")
    farm.litter("Rio", "1F", sires="Bruno")
    assert generation(farm, "26-01-1") == told


def test_of_a_dam_that_another_keeper_had_nothing_is_sure(farm: Farm) -> None:
    """Wild, but from a dealer: the mating may have been in his tank."""
    farm.female("Rio", origin="wild", arrived="60d ago", arrived_from="a dealer")
    farm.litter("Rio", "1F", sires="unknown")
    assert generation(farm, "26-01-1") == ("undetermined", "")


def test_a_dam_bought_pregnant_from_a_breeder_leaves_it_open(farm: Farm) -> None:
    """Nobody here knows who sired them, nor what he was."""
    farm.female("Gala", origin="bred elsewhere", arrived="60d ago")
    farm.litter("Gala", "1F", sires="unknown")
    assert generation(farm, "26-01-1") == ("undetermined", "")
