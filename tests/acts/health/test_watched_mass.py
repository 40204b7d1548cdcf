"""A loss of mass is called out while it is news, and never for what a birth took."""

from farm import TODAY, Farm

from colony.acts.health.watch import watch_list
from colony.acts.pups.measure import measure


def weigh(farm: Farm, mass_g: int, on: str) -> None:
    """Alma on the scales."""
    farm.do(measure, tag="Alma", mass_g=mass_g, on=farm.day(on), today=TODAY)


def watched(farm: Farm) -> list[str]:
    """Why Alma is watched."""
    return [line.why for line in farm.ask(watch_list, today=TODAY) if line.tag == "Alma"]


def test_a_loss_of_late_is_called_out(farm: Farm) -> None:
    """Two months apart, the last one this week."""
    farm.female("Alma", mature_since="500d ago")
    weigh(farm, 8000, "65d ago")
    weigh(farm, 7400, "3d ago")
    assert watched(farm) == ["mass -600 g from 2026-01-03 to 2026-03-06"]


def test_a_loss_of_years_ago_is_not(farm: Farm) -> None:
    """Nor one against a mass of more than a year before."""
    farm.female("Alma", mature_since="2000d ago")
    weigh(farm, 8000, "900d ago")
    weigh(farm, 7400, "800d ago")
    assert watched(farm) == []
    weigh(farm, 7300, "1d ago")
    assert watched(farm) == []


def test_what_a_birth_took_is_no_illness(farm: Farm) -> None:
    """She bore between the two; a loss after it counts again."""
    farm.female("Alma", mature_since="500d ago")
    weigh(farm, 9000, "100d ago")
    farm.litter("Alma", "3F", sires="unknown", born="80d ago")
    weigh(farm, 8000, "50d ago")
    assert watched(farm) == []
    weigh(farm, 7800, "2d ago")
    assert watched(farm) == ["mass -200 g from 2026-01-18 to 2026-03-07"]
