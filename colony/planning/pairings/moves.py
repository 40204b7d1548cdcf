"""The work list of a plan: who is moved where, from where everybody is today."""

from collections.abc import Iterator, Sequence

from colony.planning.pairings.open_pairs import kept_partners
from colony.planning.pairings.plan import PairingMove, PlannedPair
from colony.planning.pairings.request import Stock


def planned_moves(
    stock: Stock, planned: Sequence[PlannedPair], overridden: frozenset[str]
) -> tuple[PairingMove, ...]:
    """List the moves of a plan, by tag.

    Where no tanks were offered, a female goes to her male, if it is known where he is. Where
    they were, everybody of a group goes to its tank, and who is in that tank and not of the
    group makes room.
    """
    homes = {animal.tag: stock.home(row) for row, animal in enumerate(stock.animals)}
    goes: dict[str, str | None] = {}
    for pair in planned:
        goes[pair.dam] = pair.tank or homes[pair.sire]
        if pair.tank:
            goes[pair.sire] = pair.tank
    moves = [
        PairingMove(tag, homes[tag], tank)
        for tag, tank in goes.items()
        if tank is not None and tank != homes[tag]
    ]
    moves += _making_room(stock, planned, goes, overridden)
    return tuple(sorted(moves, key=lambda move: move.tag))


def _making_room(
    stock: Stock,
    planned: Sequence[PlannedPair],
    goes: dict[str, str | None],
    overridden: frozenset[str],
) -> Iterator[PairingMove]:
    sires = {pair.tank: pair.sire for pair in planned if pair.tank}
    for row, animal in enumerate(stock.animals):
        home = stock.home(row)
        if animal.status != "present" or home not in sires or animal.tag in goes:
            continue
        if sires[home] not in kept_partners(animal, overridden):
            yield PairingMove(animal.tag, home, None)
