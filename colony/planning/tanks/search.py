"""How a housing question is answered: quickly first, exactly where it is small enough.

A packed answer with no more moves than must be needs no proof. Otherwise, and to keep
litter-mates together as well as can be, the question is solved exactly if it is small, and
narrowed to the roomiest tanks if it is not; what is then lost is shown as the gap.
"""

from dataclasses import dataclass, replace

import numpy as np

from colony.planning.tanks.packing import pack
from colony.planning.tanks.placement import Answer, SolverEffort, place
from colony.planning.tanks.placement_rows import PlacementProblem
from colony.planning.tanks.week import Array, Index, further

SETTLED_DAYS = 28
"""How long a tank that takes animals in should stay in order, if that costs no more moves."""

MOST_PAIRS = 5_000
"""Most pairs of animal and tank that are solved at once."""

MOST_FREE = 400
"""Most animals that are solved at once."""


@dataclass(frozen=True)
class BestMoves:
    """An answer, the question it answers, and what is proved for the whole house.

    `bound` is the fewest moves (or sales) that any answer has, `impossible` the proof that
    there is none.
    """

    question: PlacementProblem
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
        return exact and (self.answer.moves == self.question.least or _is_whole(self.question))


def fewest_moves(question: PlacementProblem, effort: SolverEffort, *, thorough: bool) -> BestMoves:
    """Answer with the fewest moves that can be found.

    The animals of tanks in order are set free too when those of the broken tanks alone find
    no answer, or, if `thorough`, none that is proved the least.
    """
    soon = _of_whole(question, _best(question, effort, exact=thorough), question.least)
    if not soon.answer.tank or (thorough and soon.answer.moves > soon.bound):
        soon = _wider(soon, effort)
    if not soon.answer.tank:
        return soon
    ahead = replace(soon.question, ahead=further(question.scene, SETTLED_DAYS))
    lasting = _best(ahead, effort, exact=thorough)
    if _cost(lasting) > _cost(soon.answer):
        return soon
    return replace(soon, answer=replace(lasting, status=soon.answer.status))


def fewest_sales(question: PlacementProblem, effort: SolverEffort) -> BestMoves:
    """Answer with the fewest sales that can be found."""
    asked = replace(question, wish="sell", least=0, ahead=None)
    every = replace(asked, free=np.flatnonzero(~asked.scene.pinned))
    whole = every if _size(every) <= MOST_PAIRS else asked
    solved = _solved(whole, effort) if _size(whole) <= MOST_PAIRS else Answer("unknown")
    proved = _of_whole(whole, solved, 0)
    tried = [proved, BestMoves(asked, pack(asked), 0), BestMoves(every, pack(every), 0)]
    best = min(tried, key=lambda found: _cost(found.answer))
    return replace(best, bound=proved.bound)


def _of_whole(question: PlacementProblem, answer: Answer, least: int) -> BestMoves:
    """Keep of an answer's proof what holds for the whole house, every animal free."""
    if not _is_whole(question):
        return BestMoves(question, answer, least)
    return BestMoves(
        question, answer, max(least, int(answer.bound)), impossible=answer.status == "impossible"
    )


def _best(question: PlacementProblem, effort: SolverEffort, *, exact: bool) -> Answer:
    packed = pack(question)
    enough = bool(packed.tank) and packed.moves <= question.least
    if enough and (not exact or _size(question) > MOST_PAIRS):
        return packed
    solved = _solved(question, effort)
    if not solved.tank and not packed.tank:
        return solved
    return replace(min(solved, packed, key=_cost), bound=solved.bound)


def _solved(question: PlacementProblem, effort: SolverEffort) -> Answer:
    if len(question.free) > MOST_FREE:
        return Answer("unknown")
    asked = _narrowed(question)
    answer = place(asked, effort)
    if not asked.closed_tanks:
        return answer
    return replace(answer, status="found" if answer.tank else "unknown", bound=0.0)


def _narrowed(question: PlacementProblem) -> PlacementProblem:
    """Close all but the roomiest tanks to newcomers when the question is too large."""
    if _size(question) <= MOST_PAIRS:
        return question
    keep = max(MOST_PAIRS // len(question.free), 2)
    closed = np.argsort(-_room(question), kind="stable")[keep:]
    return replace(question, closed_tanks=tuple(closed.tolist()))


def _wider(narrow: BestMoves, effort: SolverEffort) -> BestMoves:
    """Free the animals of tanks that are in order too, as many as can be solved at once."""
    question = narrow.question
    every = replace(question, free=np.flatnonzero(~question.scene.pinned))
    if len(every.free) == len(question.free):
        return narrow
    some = replace(question, free=_nearest(question, MOST_PAIRS // len(question.scene.tanks)))
    more = len(some.free) > len(question.free)
    solved = _of_whole(some, _solved(some, effort) if more else Answer("unknown"), narrow.bound)
    packed = Answer("unknown") if narrow.answer.tank else pack(every)
    tried = [solved, narrow, BestMoves(every, packed, narrow.bound)]
    best = min(tried, key=lambda found: _cost(found.answer)[:3])
    return replace(best, bound=solved.bound, impossible=solved.impossible)


def _nearest(question: PlacementProblem, most: int) -> Index:
    """Add animals of tanks in order to the free ones, those of the roomiest tanks first."""
    week = question.scene
    others = np.setdiff1d(np.flatnonzero(~week.pinned), question.free)
    roomiest = others[np.argsort(-_room(question)[week.home[others]], kind="stable")]
    more = roomiest[: max(most - len(question.free), 0)]
    return np.sort(np.concatenate([question.free, more]))


def _room(question: PlacementProblem) -> Array:
    week = question.scene
    room: Array = week.capacity_mm2 - np.bincount(week.home, week.disc_mm2, len(week.tanks))
    return room


def _size(question: PlacementProblem) -> int:
    return len(question.free) * len(question.scene.tanks)


def _is_whole(question: PlacementProblem) -> bool:
    return len(question.free) == int((~question.scene.pinned).sum())


def _cost(answer: Answer) -> tuple[bool, int, int, int]:
    return not answer.tank, answer.sold, answer.moves, answer.splits
