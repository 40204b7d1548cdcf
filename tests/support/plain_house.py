"""Small houses of tanks and animals, and every arrangement of them tried one by one."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date
from itertools import product
from math import log

from hypothesis import strategies as st

from colony.planning.pups.growth import Curve
from colony.planning.tanks.limits import breaks, is_isolated
from colony.planning.tanks.load import ISOLATING_ROLES, Occupant, TankFloor
from colony.planning.tanks.occupancy import Swimmer, widths_on

TODAY = date(2024, 6, 1)


def box(code: str, length: int = 1000, width: int = 500, **facts: object) -> TankFloor:
    """Make a rectangular tank."""
    return replace(TankFloor(code, length_mm=length, width_mm=width), **facts)  # type: ignore[arg-type]


def still(tag: str, tank: str, width: float, **facts: object) -> Swimmer:
    """Make an animal that does not grow, so that every day of the week is alike."""
    return replace(Swimmer(tag, tank, disc_width_mm=width), **facts)  # type: ignore[arg-type]


def kept(tanks: Sequence[TankFloor], swimmers: Sequence[Swimmer], day: date) -> bool:
    """Judge an arrangement with the plain limits of `limits`, tank by tank."""
    for tank in tanks:
        there = [s for s in swimmers if s.tank == tank.code and (s.leaves or date.max) > day]
        widths = [float(w) for w in widths_on(there, [day])[:, 0]]
        occupants = [
            Occupant(s.tag, w, s.isolated_until, s.kin)
            for s, w in zip(there, widths, strict=True)
            if (s.arrives or day) <= day
        ]
        unsafe = any(is_isolated(o, day) and not tank.isolates for o in occupants)
        if breaks(tank, occupants) or unsafe:
            return False
    return True


def arrangements(
    tanks: Sequence[TankFloor], swimmers: Sequence[Swimmer]
) -> Iterator[tuple[int, int, tuple[Swimmer, ...]]]:
    """Try every arrangement: yield moves, litter parts and animals of each that keeps all."""
    for codes in product([t.code for t in tanks], repeat=len(swimmers)):
        arranged = tuple(replace(s, tank=c) for s, c in zip(swimmers, codes, strict=True))
        changed = [
            (s, next(t for t in tanks if t.code == c))
            for s, c in zip(swimmers, codes, strict=True)
            if s.tank != c
        ]
        allowed = all(
            not s.pinned and t.role in s.roles and t.role not in ISOLATING_ROLES for s, t in changed
        )
        if allowed and kept(tanks, arranged, TODAY):
            parts = {(s.litter, s.tank) for s in arranged if s.litter}
            yield len(changed), len(parts), arranged


houses = st.tuples(
    st.lists(st.tuples(st.integers(0, 2), st.integers(100, 245), st.integers(0, 2)), max_size=5),
    st.lists(st.sampled_from([(600, 400), (800, 500), (1000, 500)]), min_size=3, max_size=3),
)


crowded = st.tuples(
    st.lists(
        st.tuples(st.integers(0, 2), st.integers(150, 245), st.integers(0, 2)),
        min_size=3,
        max_size=5,
    ),
    st.lists(st.sampled_from([(600, 350), (700, 400), (800, 450)]), min_size=3, max_size=3),
)


def house(
    drawn: tuple[list[tuple[int, int, int]], list[tuple[int, int]]],
) -> tuple[list[TankFloor], list[Swimmer]]:
    """Build a small house from what hypothesis drew."""
    animals, sizes = drawn
    tanks = [box(f"T{n}", *size) for n, size in enumerate(sizes)]
    swimmers = [
        still(f"p{n}", f"T{home}", width, litter=("", "L1", "L2")[litter])
        for n, (home, width, litter) in enumerate(animals)
    ]
    return tanks, swimmers


def growing(tag: str, tank: str, width: float, rate: float, **facts: object) -> Swimmer:
    """Make an animal that grows."""
    curve = Curve(TODAY, (width, log(rate), log(600)), (3.0, 0.0, 0.2, 0.0, 0.0, 0.05))
    return replace(Swimmer(tag, tank, curve), **facts)  # type: ignore[arg-type]
