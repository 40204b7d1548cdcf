"""A food that was mistyped is asked about before it counts as another."""

import pytest
from farm import Farm

from colony.acts.care.foods import set_food
from colony.refusals.care import FoodNearAnother


@pytest.mark.parametrize("typed", ["worm", "Wroms", "earth worms", "earthworm"])
def test_a_food_written_nearly_as_another_is_asked_about(farm: Farm, typed: str) -> None:
    """Two ways to write one food would open the gate of two; on the list it is another food."""
    farm.female("Alma")
    farm.feed("Alma", "worms")
    farm.feed("Alma", "earthworms")
    before = farm.written()
    with pytest.raises(FoodNearAnother, match="was never given here, "):
        farm.feed("Alma", typed)
    assert farm.written() == before
    farm.do(set_food, name=typed)
    farm.feed("Alma", typed)


def test_a_food_like_no_other_is_simply_written(farm: Farm) -> None:
    """Short names may differ by a letter and be two foods."""
    farm.female("Alma")
    for food in ("cod", "cob", "prawn"):
        farm.feed("Alma", food)
