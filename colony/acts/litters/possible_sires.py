"""Which males may have sired a litter, as the book has it; and whom its sires pass over."""

from collections.abc import Container, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from functools import cached_property

from sqlmodel import Session

from colony.acts.litters.gestation import Conception, conception_of
from colony.notation.shares import SireShare, show_sires
from colony.planning.litters.company import Company, Span, Together, conception_window, whole
from colony.planning.litters.conception import Evidence
from colony.planning.litters.gestation import Past
from colony.planning.litters.sires import conceived_on, sire_shares
from colony.refusals.base import Advice, AnotherAct
from colony.store.readers.animals.herd import Herd
from colony.store.readers.animals.lives import Lives
from colony.store.readers.litters.company import read_company
from colony.store.readers.litters.dams import DamRecord, read_pairing_sires
from colony.store.readers.litters.due import past_gestations
from colony.store.settings import read_settings


@dataclass(frozen=True)
class PossibleSires:
    """The males who may have sired a litter, the likeliest first, each with when he was there.

    `shares` are what the book proposes; somebody unknown may be among them. `met` are all that
    were with her on a day that counts, however unlikely.
    """

    shares: tuple[SireShare, ...] = ()
    was: Mapping[str, str] = field(default_factory=dict)
    met: frozenset[str] = frozenset()

    def passed_over(self, named: Container[str]) -> dict[str, str]:
        """The males that a breeder did not name, and when each was with her."""
        return {tag: how for tag, how in self.was.items() if tag not in named}

    def as_edit(self, litter: str) -> AnotherAct:
        """The act that would write them down."""
        sires = show_sires(self.shares) if self.shares else [""]
        return AnotherAct("litter edit", (litter,), tuple(("sire", each) for each in sires))

    def warnings(self, dam: str, litter: str, named: Container[str]) -> list[Advice]:
        """Tell of each male that was not named, a sentence each."""
        return [
            Advice(
                f"{passed_over_sentence(dam, tag, how)}: name him too if he may be.",
                (self.as_edit(litter),),
            )
            for tag, how in self.passed_over(named).items()
        ]


def passed_over_sentence(dam: str, tag: str, how: str) -> str:
    """Say that a male may be the sire, and is not named."""
    return f"{tag} was {how}, when {dam} may have conceived, and is not among the sires"


class SireFinder:
    """Finds the possible sires of one litter after another, with all that is needed read once."""

    def __init__(
        self, session: Session, herd: Herd, lives: Lives, dams: Mapping[int, DamRecord]
    ) -> None:
        self._session, self._herd, self._lives, self._dams = session, herd, lives, dams
        self._unknown = read_settings(session).unknown_sire_share

    @cached_property
    def _past(self) -> Mapping[str | None, Past]:
        return past_gestations(self._herd, self._dams, self._lives)

    @cached_property
    def _males(self) -> Mapping[int, Sequence[int]]:
        return read_pairing_sires(self._session)

    def of_litter(
        self,
        dam_id: int,
        sires: Iterable[int | None],
        born: date,
        company: Mapping[int, Sequence[Company]] | None = None,
    ) -> PossibleSires:
        """The same of a litter on record, whose sires say which pairing it is of."""
        prior = self._lives.of(self._herd.by_id(dam_id).species).gestation()
        record, named = self._dams.get(dam_id) or DamRecord(), {sire for sire in sires if sire}
        conception = conception_of(prior, record, named, self._males, born)
        return self.find(dam_id, conception, born, company)

    def find(
        self,
        dam_id: int,
        conception: Conception,
        born: date,
        company: Mapping[int, Sequence[Company]] | None = None,
    ) -> PossibleSires:
        """Weigh every grown male who was with a dam when she may have conceived.

        `company` are the males of every dam over all days, where many litters are asked about.
        """
        row = self._herd.by_id(dam_id)
        record = self._dams.get(dam_id) or DamRecord()
        evidence = record.evidence(row.tag, born - timedelta(days=1))
        spans = _spans(evidence, conception, born)
        if company is None:
            window = (whole(spans)[0], born)
            company = read_company(
                self._session, self._herd, self._lives, days=window, dams={dam_id}
            )
        there = [cut for male in company.get(dam_id, ()) if (cut := male.within(spans)).stays]
        if not there:
            return PossibleSires()
        prior = conception.prior
        belief = (self._past.get(row.species) or Past.weigh(prior, ())).believe(row.tag)
        days = conceived_on(spans, evidence.signs, belief, born)
        shares = sire_shares(days, there, unknown=self._unknown)
        stays = {male.male: male.stays for male in there}
        return PossibleSires(
            tuple(SireShare(self._tag(s.male), s.share) for s in shares),
            {
                self._herd.by_id(s.male).tag: _when(stays.get(s.male, ()))
                for s in shares
                if s.male is not None
            },
            frozenset(self._herd.by_id(male.male).tag for male in there),
        )

    def _tag(self, male: int | None) -> str | None:
        return None if male is None else self._herd.by_id(male).tag


def _spans(evidence: Evidence, conception: Conception, born: date) -> list[Span]:
    """The days of the species, and those of her pairing where its dates lie outside them."""
    spans = [conception_window(evidence, conception.prior, born)]
    pairing, judged = conception.pairing, conception.judged
    if pairing and judged and judged.verdict == "implausible":
        first = max(pairing.started, evidence.last_birth or pairing.started)
        spans.append((first, max(first, min(pairing.ended or born, born))))
    return spans


def _when(stays: Sequence[Together]) -> str:
    """When a male was with a dam; one who was not was seen mating with her all the same."""
    told = [f"{stay.where} with her {_days(stay.span)}" for stay in stays]
    return " and ".join(told) or "seen mating with her"


def _days(span: Span) -> str:
    return f"on {span[0]}" if span[0] == span[1] else f"from {span[0]} to {span[1]}"
