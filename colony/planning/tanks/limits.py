"""Why animals may not share a tank: the limits as a table of named rules.

Every limit is common practice, no source, and a setting of the breeder.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date

from colony.notation.house import say_length
from colony.planning.tanks.load import Occupant, TankFloor, load


@dataclass(frozen=True)
class Limits:
    """The limits of housing; common practice, no source."""

    load: float = 0.30
    widths_across: float = 2.0
    widths_along: float = 4.0
    size_spread: float = 2.0


DEFAULT_LIMITS = Limits()


@dataclass(frozen=True)
class LimitBroken:
    """Why an arrangement breaks a limit, and by which rule."""

    rule: str
    sentence: str


Rule = Callable[[TankFloor, Sequence[Occupant], Limits], str | None]


def breaks(
    tank: TankFloor, occupants: Sequence[Occupant], limits: Limits = DEFAULT_LIMITS
) -> tuple[LimitBroken, ...]:
    """Name every limit of size that these animals break in this tank."""
    found = ((name, rule(tank, occupants, limits)) for name, rule in SIZE_RULES.items())
    return tuple(LimitBroken(name, sentence) for name, sentence in found if sentence)


def why_not(
    tank: TankFloor,
    residents: Sequence[Occupant],
    newcomers: Sequence[Occupant],
    limits: Limits = DEFAULT_LIMITS,
    *,
    today: date,
) -> tuple[LimitBroken, ...]:
    """Say why the newcomers may not join the residents; empty when they may.

    A limit the residents break by themselves is a reason too: that tank is no place to go.
    """
    isolation = (
        why_isolation_breaks(tank, newcomers, today),
        _why_isolation_spreads(tank, residents, newcomers, today),
    )
    return breaks(tank, [*residents, *newcomers], limits) + tuple(r for r in isolation if r)


def _too_full(tank: TankFloor, occupants: Sequence[Occupant], limits: Limits) -> str | None:
    current = load(tank, occupants)
    if current is None or current <= limits.load:
        return None
    shown, limit = (f"{share:.0%}" for share in (current, limits.load))
    if shown == limit:
        shown, limit = (f"{share:.1%}" for share in (current, limits.load))
    return f"{tank.code} would be loaded {shown}; the limit is {limit} of its floor"


def _too_narrow(tank: TankFloor, occupants: Sequence[Occupant], limits: Limits) -> str | None:
    return _too_small(tank.code, "wide", tank.short_side_mm, occupants, limits.widths_across)


def _too_short(tank: TankFloor, occupants: Sequence[Occupant], limits: Limits) -> str | None:
    return _too_small(tank.code, "long", tank.long_side_mm, occupants, limits.widths_along)


def _too_small(
    code: str, way: str, side_mm: float | None, occupants: Sequence[Occupant], times: float
) -> str | None:
    widest = max(((o.disc_width_mm, o.tag) for o in occupants if o.disc_width_mm), default=None)
    if side_mm is None or widest is None or widest[0] * times <= side_mm:
        return None
    width_mm, tag = widest
    return (
        f"{code} is {say_length(side_mm)} {way}; {tag} of {say_length(width_mm)} disc width "
        f"needs {say_length(width_mm * times)}"
    )


def _too_uneven(tank: TankFloor, occupants: Sequence[Occupant], limits: Limits) -> str | None:
    sized = sorted(
        ((o.disc_width_mm, o.tag, o.family) for o in occupants if o.disc_width_mm), reverse=True
    )
    for large, big_tag, big_family in sized:
        for small, small_tag, family in reversed(sized):
            if large <= limits.size_spread * small:
                break
            if not family or family != big_family:
                return (
                    f"{big_tag} is {large / small:.1f} times as wide as {small_tag} in "
                    f"{tank.code}; the limit is {limits.size_spread:g} times"
                )
    return None


SIZE_RULES: dict[str, Rule] = {
    "load": _too_full,
    "tank_width": _too_narrow,
    "tank_length": _too_short,
    "size_spread": _too_uneven,
}
"""The limits of size, by name; isolation is the other one."""


def why_isolation_breaks(
    tank: TankFloor, occupants: Sequence[Occupant], today: date
) -> LimitBroken | None:
    """Name an animal whose isolation lasts, in a tank that shares water with others."""
    fresh = next((o for o in occupants if is_isolated(o, today)), None)
    if fresh is None or tank.isolates:
        return None
    return LimitBroken(
        "isolation",
        f"{fresh.tag} is isolated until {fresh.isolated_until}; {tank.code} shares water with "
        "animals outside isolation",
    )


def _why_isolation_spreads(
    tank: TankFloor, residents: Sequence[Occupant], newcomers: Sequence[Occupant], today: date
) -> LimitBroken | None:
    inside = next((o for o in residents if is_isolated(o, today)), None)
    clean = next((o for o in newcomers if not is_isolated(o, today)), None)
    if inside is None or clean is None:
        return None
    return LimitBroken(
        "isolation",
        f"{tank.code} isolates {inside.tag} until {inside.isolated_until}; {clean.tag} would "
        "have to be isolated too",
    )


def is_isolated(occupant: Occupant, today: date) -> bool:
    """Tell whether the isolation of the animal still lasts on this day."""
    return occupant.isolated_until is not None and occupant.isolated_until > today
