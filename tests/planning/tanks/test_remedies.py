"""What would be enough where no arrangement is."""

from collections.abc import Sequence
from itertools import product

from hypothesis import given, settings
from plain_house import TODAY, arrangements, box, crowded, house, kept, still

from colony.planning.tanks.limits import DEFAULT_LIMITS
from colony.planning.tanks.load import TankFloor
from colony.planning.tanks.moves import week_plan
from colony.planning.tanks.occupancy import Swimmer
from colony.planning.tanks.week import house_week, moved


@settings(max_examples=40, deadline=None)
@given(crowded)
def test_what_is_said_to_be_enough_is_enough(
    drawn: tuple[list[tuple[int, int, int]], list[tuple[int, int]]],
) -> None:
    """With the named animals sold the limits are kept; so they are with the extra tank."""
    tanks, swimmers = house(drawn)
    plan = week_plan(house_week(tanks, swimmers, DEFAULT_LIMITS, begins=TODAY))
    if plan.remedy is None:
        return
    left = [s for s in swimmers if s.tag not in plan.remedy.sell]
    assert kept(tanks, moved(left, {m.tag: m.to_tank for m in plan.moves}), TODAY)
    assert plan.optimal
    fewer = range(plan.remedy.at_least)
    assert all(not _enough_without(tanks, swimmers, n) for n in fewer)
    if plan.remedy.tank:
        extra = box("new", plan.remedy.tank.length_mm, plan.remedy.tank.width_mm)
        again = week_plan(house_week([*tanks, extra], swimmers, DEFAULT_LIMITS, begins=TODAY))
        assert again.remedy is None


def _enough_without(tanks: Sequence[TankFloor], swimmers: Sequence[Swimmer], sold: int) -> bool:
    """Try every way of selling so many and arranging the rest."""
    choices = product([True, False], repeat=len(swimmers))
    return any(
        next(arrangements(tanks, [s for s, stay in zip(swimmers, c, strict=True) if stay]), None)
        for c in choices
        if c.count(False) == sold
    )


def test_selling_never_names_the_unborn_nor_those_kept() -> None:
    """What would be enough counts only born animals that are for sale."""
    tanks = [box("A", 800, 500)]
    animals = [
        *(still(f"kept{n}", "A", 170, for_sale=False) for n in range(3)),
        *(still(f"sale{n}", "A", 170) for n in range(5)),
    ]
    plan = week_plan(house_week(tanks, animals, DEFAULT_LIMITS, begins=TODAY))
    assert plan.impossible
    assert plan.remedy is not None
    assert len(plan.remedy.sell) == plan.remedy.at_least == 3
    assert all(tag.startswith("sale") for tag in plan.remedy.sell)
    assert plan.remedy.tank is not None
