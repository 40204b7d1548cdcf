"""How full a tank is, and why an animal may not go into it."""

from datetime import date
from math import pi

from colony.planning.tanks.limits import Limits, breaks, why_not
from colony.planning.tanks.load import Occupant, TankFloor

TODAY = date(2024, 6, 1)


DEFAULT = Limits()


BOX = TankFloor("A1", length_mm=1000, width_mm=500)


def rules(
    tank: TankFloor, residents: list[Occupant], newcomers: list[Occupant], limits: Limits = DEFAULT
) -> list[str]:
    """Name the rules that keep the newcomers out."""
    return [reason.rule for reason in why_not(tank, residents, newcomers, limits, today=TODAY)]


def rays(*widths: float, **facts: object) -> list[Occupant]:
    """Make occupants of these disc widths."""
    return [Occupant(f"r{n}", w, **facts) for n, w in enumerate(widths)]  # type: ignore[arg-type]


def test_a_tank_takes_what_keeps_every_limit() -> None:
    """Nothing speaks against a small pup in a wide, empty tank."""
    assert rules(BOX, [], rays(150)) == []


def test_each_limit_has_its_reason() -> None:
    """Load, width, length and spread are each named, with tank and animal in the sentence."""
    assert rules(BOX, rays(*[150] * 8), rays(150)) == ["load"]
    assert rules(TankFloor("A2", 2000, 500), [], rays(260)) == ["tank_width"]
    assert rules(TankFloor("A3", 1000, 600), [], rays(260)) == ["tank_length"]
    assert rules(BOX, rays(100), rays(210)) == ["size_spread"]
    (reason,) = breaks(TankFloor("A2", 2000, 500), [Occupant("Alma", 260)])
    assert "A2" in reason.sentence
    assert "Alma" in reason.sentence
    assert "52 cm" in reason.sentence


def test_limits_are_reached_before_they_are_broken() -> None:
    """Exactly twice as wide and four times as long, and exactly the load, is still right."""
    full = Limits(load=2 * pi / 4 * 250**2 / 500_000)
    assert rules(BOX, rays(250), rays(250), full) == []
    assert rules(BOX, rays(125), rays(250)) == []


def test_a_dam_may_lie_with_her_own_litter() -> None:
    """The size spread is not held against a dam and her pups, but against strangers."""
    big = TankFloor("N1", 3000, 1500, role="nursery")
    dam = [Occupant("Alma", 500, family="L1")]
    assert rules(big, dam, [Occupant("p1", 150, family="L1")]) == []
    assert rules(big, dam, [Occupant("p2", 150, family="L2")]) == ["size_spread"]


def test_nothing_leaves_isolation_for_shared_water() -> None:
    """An isolated animal goes only into isolating water; a clean one not in with it."""
    fresh = Occupant("new", 150, isolated_until=date(2024, 6, 2))
    free = Occupant("old", 150, isolated_until=TODAY)
    intake = TankFloor("I1", 1000, 500, role="intake", isolates=True)
    assert rules(BOX, [], [fresh]) == ["isolation"]
    assert rules(intake, [], [fresh]) == []
    assert rules(BOX, [], [free]) == []
    assert rules(intake, [fresh], [free]) == ["isolation"]
