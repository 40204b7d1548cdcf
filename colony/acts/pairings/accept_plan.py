"""Accept a plan: end the pairings that it breaks, start its own, list its moves."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from sqlmodel import Session

from colony.acts.pairings.listing import list_pairings
from colony.acts.pairings.pairings import begin_pairing, end_pairing
from colony.acts.tanks.moves import PlannedMove, accept_moves
from colony.planning.pairings.plan import ProposedPlan
from colony.refusals.pairings import NothingToAccept
from colony.store.journal.journal import tell
from colony.store.readers.animals.herd import read_herd, read_places

MOVE_DAYS = 7
"""By when the moves of an accepted plan should be done; common practice, no source."""

WHY = "pairing plan"


@dataclass(frozen=True)
class Accepted:
    """What accepting a plan changed, by tag.

    `kept` are dams who stay in the pairing that they were in already; `listed` stand on the
    work list; `homeless` are to make room, and the plan does not say where they go.
    """

    started: tuple[str, ...]
    ended: tuple[str, ...]
    kept: tuple[str, ...]
    listed: tuple[str, ...]
    homeless: tuple[str, ...]


def accept_plan(session: Session, *, plan: ProposedPlan, on: date, today: date) -> Accepted:
    """Start the pairings of a plan, and put its moves on the work list.

    A pairing that the plan breaks, or whose animals it carries apart, is ended first.

    Raises
    ------
    NothingToAccept
        The plan has no pair.
    NotYet, EndsBeforeStart, and what else `begin_pairing` refuses
    """
    if not plan.pairs:
        raise NothingToAccept(plan.notes)
    tell(session, f"a plan of {len(plan.pairs)} pairings was accepted")
    running = {pairing.dam: tuple(pairing.sires) for pairing in list_pairings(session, today=today)}
    kept = [pair.dam for pair in plan.pairs if running.get(pair.dam) == (pair.sire,)]
    begun = [pair for pair in plan.pairs if pair.dam not in kept]
    ended = [pair.dam for pair in begun if pair.dam in running]
    ended += _moved_apart(session, plan, running, today)
    for dam in ended:
        end_pairing(session, dam=dam, on=on, today=today)
    for pair in begun:
        begin_pairing(session, dam=pair.dam, sires=[pair.sire], on=on, tank=pair.tank, today=today)
    return Accepted(
        started=tuple(pair.dam for pair in begun),
        ended=tuple(ended),
        kept=tuple(kept),
        listed=_list_moves(session, plan, today),
        homeless=tuple(move.tag for move in plan.moves if move.to_tank is None),
    )


def _moved_apart(
    session: Session, plan: ProposedPlan, running: Mapping[str, Sequence[str]], today: date
) -> list[str]:
    """Dams who are not in the plan, and whom its moves leave with none of their sires."""
    goes = {move.tag: move.to_tank for move in plan.moves}
    planned = {pair.dam for pair in plan.pairs}
    affected = [
        dam
        for dam, sires in running.items()
        if dam not in planned and not goes.keys().isdisjoint({dam, *sires})
    ]
    if not affected:
        return []
    places = read_places(session, today)
    at = {row.tag: places.get(row.id) for row in read_herd(session).rows} | goes
    return [dam for dam in affected if at[dam] not in {at[sire] for sire in running[dam]} - {None}]


def _list_moves(session: Session, plan: ProposedPlan, today: date) -> tuple[str, ...]:
    by = today + timedelta(days=MOVE_DAYS)
    moves = [
        PlannedMove(move.tag, move.to_tank, by, WHY)
        for move in plan.moves
        if move.to_tank is not None
    ]
    accept_moves(session, moves=moves, today=today)
    return tuple(move.tag for move in moves)
