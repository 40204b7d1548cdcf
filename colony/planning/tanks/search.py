"""How a housing problem is answered: quickly first, exactly where it is small enough.

A packed answer with no more moves than must be needs no proof. Otherwise, and to keep
litter-mates together as well as can be, the problem is solved exactly if it is small, and
narrowed to the roomiest tanks if it is not; what is then lost is shown as the gap.
"""

from dataclasses import dataclass, replace

import numpy as np

from colony.planning.arrays import Floats, Index
from colony.planning.tanks.packing import pack
from colony.planning.tanks.placement import Answer, SolverEffort, place
from colony.planning.tanks.placement_problem import PlacementProblem
from colony.planning.tanks.week import further

LASTING_DAYS = 28
"""How long a tank that takes animals in should stay in order, if that costs no more moves."""

MOST_PAIRS = 5_000
"""Most pairs of animal and tank that are solved at once."""

MOST_FREE = 400
"""Most animals that are solved at once."""


@dataclass(frozen=True)
class BestMoves:
    """An answer, the problem it answers, and what is proved for the whole house.

    `bound` is the fewest moves (or sales) that any answer has, `impossible` the proof that
    there is none.
    """

    problem: PlacementProblem
    answer: Answer
    bound: int
    impossible: bool = False

    @property
    def mates_proved(self) -> bool:
        """Whether no answer with so few moves keeps litter-mates better together.

        An answer with the least moves takes animals of broken tanks only; one with more is
        compared with all others only when every animal was free.
        """
        exact = self.answer.status == "best"
        return exact and (self.answer.moves == self.problem.least or _is_whole(self.problem))


def fewest_moves(problem: PlacementProblem, effort: SolverEffort, *, thorough: bool) -> BestMoves:
    """Answer with the fewest moves that can be found.

    The animals of tanks in order are set free too when those of the broken tanks alone find
    no answer, or, if `thorough`, none that is proved the least.
    """
    soon = _of_whole(problem, _best(problem, effort, exact=thorough), problem.least)
    if not soon.answer.tank or (thorough and soon.answer.moves > soon.bound):
        soon = _wider(soon, effort)
    if not soon.answer.tank:
        return soon
    ahead = replace(soon.problem, ahead=further(problem.week, LASTING_DAYS))
    lasting = _best(ahead, effort, exact=thorough)
    if _cost(lasting) > _cost(soon.answer):
        return soon
    return replace(soon, answer=replace(lasting, status=soon.answer.status))


def fewest_sales(problem: PlacementProblem, effort: SolverEffort) -> BestMoves:
    """Answer with the fewest sales that can be found."""
    asked = replace(problem, means="sell", least=0, ahead=None)
    every = replace(asked, free=np.flatnonzero(~asked.week.pinned))
    whole = every if _size(every) <= MOST_PAIRS else asked
    solved = _solved(whole, effort) if _size(whole) <= MOST_PAIRS else Answer("unknown")
    proved = _of_whole(whole, solved, 0)
    tried = [proved, BestMoves(asked, pack(asked), 0), BestMoves(every, pack(every), 0)]
    best = min(tried, key=lambda found: _cost(found.answer))
    return replace(best, bound=proved.bound)


def _of_whole(problem: PlacementProblem, answer: Answer, least: int) -> BestMoves:
    """Keep of an answer's proof what holds for the whole house, every animal free."""
    if not _is_whole(problem):
        return BestMoves(problem, answer, least)
    return BestMoves(
        problem, answer, max(least, int(answer.bound)), impossible=answer.status == "impossible"
    )


def _best(problem: PlacementProblem, effort: SolverEffort, *, exact: bool) -> Answer:
    packed = pack(problem)
    enough = bool(packed.tank) and packed.moves <= problem.least
    if enough and (not exact or _size(problem) > MOST_PAIRS):
        return packed
    solved = _solved(problem, effort)
    if not solved.tank and not packed.tank:
        return solved
    return replace(min(solved, packed, key=_cost), bound=solved.bound)


def _solved(problem: PlacementProblem, effort: SolverEffort) -> Answer:
    if len(problem.free) > MOST_FREE:
        return Answer("unknown")
    asked = _narrowed(problem)
    answer = place(asked, effort)
    if not asked.closed_tanks:
        return answer
    return replace(answer, status="found" if answer.tank else "unknown", bound=0.0)


def _narrowed(problem: PlacementProblem) -> PlacementProblem:
    """Close all but the roomiest tanks to newcomers when the problem is too large."""
    if _size(problem) <= MOST_PAIRS:
        return problem
    keep = max(MOST_PAIRS // len(problem.free), 2)
    closed = np.argsort(-_room(problem), kind="stable")[keep:]
    return replace(problem, closed_tanks=tuple(closed.tolist()))


def _wider(narrow: BestMoves, effort: SolverEffort) -> BestMoves:
    """Free the animals of tanks that are in order too, as many as can be solved at once."""
    problem = narrow.problem
    every = replace(problem, free=np.flatnonzero(~problem.week.pinned))
    if len(every.free) == len(problem.free):
        return narrow
    some = replace(problem, free=_nearest(problem, MOST_PAIRS // len(problem.week.tanks)))
    more = len(some.free) > len(problem.free)
    solved = _of_whole(some, _solved(some, effort) if more else Answer("unknown"), narrow.bound)
    packed = Answer("unknown") if narrow.answer.tank else pack(every)
    tried = [solved, narrow, BestMoves(every, packed, narrow.bound)]
    best = min(tried, key=lambda found: _cost(found.answer)[:3])
    return replace(best, bound=solved.bound, impossible=solved.impossible)


def _nearest(problem: PlacementProblem, most: int) -> Index:
    """Add animals of tanks in order to the free ones, those of the roomiest tanks first."""
    week = problem.week
    others = np.setdiff1d(np.flatnonzero(~week.pinned), problem.free)
    roomiest = others[np.argsort(-_room(problem)[week.home[others]], kind="stable")]
    more = roomiest[: max(most - len(problem.free), 0)]
    return np.sort(np.concatenate([problem.free, more]))


def _room(problem: PlacementProblem) -> Floats:
    week = problem.week
    room: Floats = week.capacity_mm2 - np.bincount(week.home, week.disc_mm2, len(week.tanks))
    return room


def _size(problem: PlacementProblem) -> int:
    return len(problem.free) * len(problem.week.tanks)


def _is_whole(problem: PlacementProblem) -> bool:
    return len(problem.free) == int((~problem.week.pinned).sum())


def _cost(answer: Answer) -> tuple[bool, int, int, int]:
    return not answer.tank, answer.sold, answer.moves, answer.splits
