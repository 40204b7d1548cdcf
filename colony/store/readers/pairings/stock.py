"""The breeding stock and the breeding tanks as the pairing planner sees them."""

from collections.abc import Sequence
from datetime import date, timedelta

import numpy as np
from sqlmodel import Session

from colony.pedigree.doubt.range import kinship_range
from colony.pedigree.graph.descent import passed_down, traced_up
from colony.pedigree.graph.graph import FloatArray
from colony.planning.pairings.request import BreedingTank, Stock, rare_share
from colony.planning.tanks.limits import Limits
from colony.planning.tanks.load import disc_mm2
from colony.store.readers.animals.herd import read_places
from colony.store.readers.animals.lives import read_lives
from colony.store.readers.pairings.candidates import read_candidates
from colony.store.readers.pedigree import Lineage, read_lineage
from colony.store.readers.tanks.house import read_house
from colony.store.settings import read_settings


def read_stock(  # noqa: PLR0913 - what a plan asks of the book, each by its name
    session: Session,
    *,
    species: str | None = None,
    named: frozenset[str] = frozenset(),
    at_worst: bool = False,
    founders: bool = False,
    today: date,
) -> Stock:
    """Read everybody present, of one species or of all, with their kinship.

    Parameters
    ----------
    species
        The short name of the only species to read.
    named
        Tags to read even if they are gone, so that the plan can say so.
    at_worst, founders
        Whether to read the greatest kinship that doubt allows, and the share of rare founders.
    """
    lineage = read_lineage(session)
    places = read_places(session, today)
    living = [
        row.id
        for row in lineage.herd.rows
        if (row.status == "present" or row.tag in named) and species in {None, row.species}
    ]
    candidates = read_candidates(session, lineage.herd, today, of=frozenset(living))
    return Stock(
        animals=tuple(candidates[animal_id] for animal_id in living),
        kinship=lineage.kinship(living, living),
        homes=tuple(places.get(animal_id) for animal_id in living),
        worst_kinship=_worst(lineage, living) if at_worst else None,
        rare=_rare(lineage, living) if founders else None,
    )


def _rare(lineage: Lineage, living: Sequence[int]) -> FloatArray:
    """Share of each of the living that comes from under-represented founders, (k,)."""
    nodes, places = lineage.pedigree.nodes, lineage.places(living)
    colony = traced_up(nodes, np.bincount(places, minlength=len(nodes)) / len(places))
    founders = lineage.pedigree.founders[colony[lineage.pedigree.founders] > 0]
    from_each = np.zeros((len(founders), len(places)))
    for row, founder in enumerate(founders):
        alone = np.zeros(len(nodes))
        alone[founder] = 1.0
        from_each[row] = passed_down(nodes, alone)[places]
    return rare_share(from_each.T, colony[founders])


def read_breeding_tanks(session: Session, stock: Stock, today: date) -> tuple[BreedingTank, ...]:
    """Read the breeding tanks in use: their room beside the young that stay in them.

    One in which a dam is near her term is not offered: she would have to make room.
    """
    settings = read_settings(session)
    house = read_house(session, read_lives(session), settings, today)
    grown = {
        animal.tag
        for animal in stock.animals
        if animal.width_mm is None
        or animal.mature_width_mm is None
        or animal.width_mm >= animal.mature_width_mm
    }
    soon = today + timedelta(days=settings.near_term_days)
    near_term = {animal.tag for animal in stock.animals if animal.due and animal.due <= soon}
    limits = Limits(load=settings.load_limit)
    return tuple(
        BreedingTank(
            code=tank.plan.code,
            room_mm2=limits.load * (tank.plan.floor_mm2 or 0.0)
            - sum(
                disc_mm2(occupant.disc_width_mm or 0.0)
                for occupant in house.in_tank(tank.id)
                if occupant.tag not in grown
            ),
            widest_mm=min(
                (tank.plan.short_side_mm or 0.0) / limits.widths_across,
                (tank.plan.long_side_mm or 0.0) / limits.widths_along,
            ),
        )
        for tank in house.tanks.values()
        if tank.retired_on is None
        and tank.plan.role == "breeding"
        and near_term.isdisjoint(occupant.tag for occupant in house.in_tank(tank.id))
    )


def _worst(lineage: Lineage, living: list[int]) -> FloatArray:
    """The greatest kinship that doubt about sires allows, or a bound above it; shape (n, n)."""
    places = np.array([lineage.herd.position[animal_id] for animal_id in living], dtype=np.int64)
    first, second = np.triu_indices(len(living))
    greatest = kinship_range(lineage.pedigree, places[first], places[second]).greatest
    worst = np.zeros((len(living), len(living)))
    worst[first, second] = worst[second, first] = greatest
    return worst
