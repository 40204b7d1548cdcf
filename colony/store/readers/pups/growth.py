"""The growth of the colony: everybody whose widths tell how its pups grow."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cached_property

from sqlalchemy import select
from sqlmodel import Session, col

from colony.planning.pups.growth_check import calibrated
from colony.planning.pups.growth_data import Grower
from colony.planning.pups.growth_fit import ColonyGrowth
from colony.planning.pups.growth_flags import (
    GrowthRecord,
    OffCurve,
    TrustedWidths,
    colony_rate,
    off_curve,
    trusted_widths,
)
from colony.records import Animal, Litter
from colony.store.readers.animals.herd import Herd
from colony.store.readers.animals.lives import Lives
from colony.store.readers.pups.growing import read_widths
from colony.store.readers.rows import read_rows

REMEMBERED_DAYS = 1100
"""Animals born within the last three years tell how the colony grows now; common practice, no source."""


@dataclass(frozen=True)
class Growth:
    """Everybody that grows or grew lately, by tag, and the colony's curves fitted to them."""

    growers: Mapping[str, Grower]
    trusted: Mapping[str, TrustedWidths]

    @cached_property
    def colony(self) -> ColonyGrowth:
        """A curve for everybody, its intervals widened to what held-out widths showed."""
        return calibrated(list(self.growers.values()))[0]

    def off_curve(self, today: date) -> tuple[OffCurve, ...]:
        """Who shrank, stands still or lags behind its litter."""
        return off_curve([self._record(grower) for grower in self.growers.values()], today)

    def _record(self, grower: Grower) -> GrowthRecord:
        deviation = self.colony.colony.get(grower.species, (0.0, 0.0))[0]
        return GrowthRecord(
            tag=grower.tag,
            litter=grower.litter,
            widths=self.trusted[grower.tag],
            curve=self.colony.curves[grower.tag],
            asymptotic_mm=grower.prior.asymptotic_mm,
            rate_per_year=colony_rate(grower.prior.rate_per_year, deviation),
            error_mm=self.colony.spreads.error_mm,
        )


def read_growth(session: Session, herd: Herd, lives: Lives, today: date) -> Growth:
    """Read everybody born lately, or measured and still here."""
    since = today - timedelta(days=REMEMBERED_DAYS)
    widths = read_widths(session, (col(Animal.status) == "present") | (col(Animal.born) >= since))
    codes = dict(read_rows(session, select(col(Litter.id), col(Litter.code))))
    growers, trusted = {}, {}
    for row in herd.rows:
        here, young = row.status == "present", row.born is not None and row.born >= since
        if not (here and young) and (row.id not in widths or not (here or young)):
            continue
        trusted[row.tag] = trusted_widths(widths.get(row.id, ()))
        growers[row.tag] = Grower(
            tag=row.tag,
            species=row.species or "",
            sex=row.sex,
            litter=codes.get(row.litter_id) or "",
            born=row.born,
            widths=trusted[row.tag].kept,
            prior=lives.of(row.species).growth(row.sex),
        )
    return Growth(growers, trusted)
