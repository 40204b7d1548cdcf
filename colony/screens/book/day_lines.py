"""The lines of today, written from the state of the day."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from colony.acts.book.backups import BackupState
from colony.acts.book.day import State, Unmeasured
from colony.acts.care.work import WorkLine
from colony.acts.litters.due import DueLitter
from colony.acts.pairings.to_check import Unchecked
from colony.acts.tanks.loads import TankLine
from colony.acts.tanks.moves import MoveLine
from colony.notation.days import show_span
from colony.planning.alarms.alarms import Alarm
from colony.planning.orders.work import OrderWork
from colony.planning.pups.growth_flags import OffCurve
from colony.planning.pups.readiness import GATES, Readiness
from colony.planning.tanks.overflow import Overflow
from colony.screens.frame.about import About
from colony.screens.frame.dates import in_days, in_window, short_day
from colony.screens.frame.outcome import words_of
from colony.screens.frame.session import BookSession
from colony.screens.widgets.columns import Column
from colony.screens.widgets.entry_list import Entry, Heading, Line

MOST = {0: 3, 30: 5, 40: 8, 60: 14}
"""By the rows of the screen: lines of one kind before the rest is one line to its place."""

COLUMNS = (
    Column("Who", 14),
    Column("What", 30, grows=True),
    Column("When", 16),
    Column("Tank", 8),
)

NOTHING = "Nothing asks for a hand today."


@dataclass(frozen=True)
class WhatNow:
    """What asks for a hand."""

    state: State
    moves: Sequence[MoveLine]
    unchecked: Sequence[Unchecked]
    backup: BackupState


@dataclass(frozen=True)
class DayLines:
    """Everything that asks for a hand, in lines."""

    book_session: BookSession
    now: WhatNow
    rows: int

    @property
    def today(self) -> date:
        """The day it is."""
        return self.book_session.today

    def entries(self) -> list[Entry]:
        """Each kind under its heading, the most urgent kind first."""
        now, state = self.now, self.now.state
        due = sorted(state.due, key=lambda due: (due.state != "overdue", due.likely))
        kinds: tuple[tuple[str, str, Callable[[Any], Line], Sequence[Any]], ...] = (
            ("Tanks over their limit", "tanks", self._overfull, state.overfull),
            ("Moves to make", "tanks", self._move, now.moves),
            ("Births expected", "litters", self._due, due),
            ("Orders", "orders", self._order, state.orders),
            ("Ready for sale", "pups", self._ready, state.ready),
            ("Tanks over their limit in two weeks", "tanks", self._soon, state.overflowing),
            ("Isolation", "tanks", self._isolated, state.isolated),
            ("Work overdue", "round", self._work, state.overdue),
            ("Pairings to look at", "pairings", self._unchecked, now.unchecked),
            ("Off their curve", "pups", self._off_curve, state.off_curve),
            ("To measure", "pups", self._unmeasured, state.unmeasured),
        )
        most = max(lines for rows, lines in MOST.items() if rows <= self.rows)
        danger = _group("Danger", "round", self._alarm, state.alarms, len(state.alarms))
        groups = (entry for kind in kinds for entry in _group(*kind, most))
        asking = [*danger, *groups] or [Heading(NOTHING)]
        return [*asking, Heading(now.backup.sentence)]

    def _alarm(self, alarm: Alarm) -> Line:
        about = {
            "tank": About("tank", alarm.where),
            "animal": About("animal", alarm.where),
            "system": About("place", "round"),
        }
        do = words_of(alarm.remedy)
        return Line(
            about[alarm.kind],
            (alarm.where, f"{alarm.what}: {alarm.evidence}", short_day(alarm.since), ""),
            "!",
            "wrong",
            more=f"! {alarm.sentence}.\n\n{do}\n\ny keeps what you did about it.",
            initial={"place": alarm.where, "alarm": alarm.what},
        )

    def _overfull(self, tank: TankLine) -> Line:
        return Line(
            About("tank", tank.tank),
            (tank.tank, tank.breaks[0]),
            "!",
            "wrong",
            more="\n\n".join(f"! {reason}." for reason in tank.breaks),
        )

    def _order(self, work: OrderWork) -> Line:
        who = f"{work.order} {work.buyer}"
        when = in_days(work.on, self.today)
        return Line(
            About("order", work.order),
            (who, work.what, when, ""),
            "!" if work.on < self.today else "◄",
            "wrong" if work.on < self.today else "due",
            more=f"Order {work.order} of {work.buyer}\n\n{work.what}",
        )

    def _soon(self, over: Overflow) -> Line:
        return Line(About("tank", over.tank), (over.tank, over.why), "!", "due", more=over.why)

    def _work(self, work: WorkLine) -> Line:
        what = f"{work.task}, {work.overdue_days} d overdue"
        last = f"last {short_day(work.last_done)}" if work.last_done else "never done"
        return Line(About("place", "round"), (work.place, what, last, work.place), "!", "wrong")

    def _off_curve(self, pup: OffCurve) -> Line:
        return Line(
            About("animal", pup.tag), (pup.tag, pup.sentence), "!", "due", more=pup.sentence
        )

    def _move(self, move: MoveLine) -> Line:
        what = (
            f"{move.from_tank or 'nowhere'} to {move.to_tank} by {short_day(move.by)}: {move.why}"
        )
        return Line(
            About("animal", move.tag),
            (move.tag, what),
            "!" if move.overdue else "→",
            "wrong" if move.overdue else "due",
            more=f"{move.tag}\n\n{what}\n\nm begins the move. Rigid container, not a net.",
            initial={"tags": move.tag, "tank": move.to_tank},
        )

    def _due(self, due: DueLitter) -> Line:
        late = due.state == "overdue"
        sires = ", ".join(due.sires) or "sire unknown"
        what = f"{due.state}, by {sires}"
        when = due_when(due, self.today)
        return Line(
            About("animal", due.dam, "F"),
            (due.dam, what, when, due.tank or "-"),
            "!" if late else "◄",
            "wrong" if late else "due",
            more=due_in_words(due),
        )

    def _ready(self, pup: Readiness) -> Line:
        sex = {"F": "female", "M": "male"}.get(pup.sex, "not sexed")
        what = f"{sex} {pup.species}, {self.book_session.length(pup.disc_width_mm)}"
        age = "" if pup.age_days is None else f"{show_span(pup.age_days)} old"
        return Line(
            About("animal", pup.tag, pup.sex),
            (pup.tag, what, age, pup.tank or "-"),
            "●",
            "ready",
            more=f"{pup.tag}, litter {pup.litter}\n\npassed every gate:\n" + gates_in_words(pup),
        )

    def _isolated(self, tank: TankLine) -> Line:
        assert tank.isolated_until is not None  # noqa: S101 - that is why it is listed
        animals = ", ".join(tank.animals)
        return Line(
            About("tank", tank.tank),
            (
                tank.tank,
                f"isolates {animals}",
                in_days(tank.isolated_until, self.today),
                tank.tank,
            ),
            "○",
            "water",
            more=f"Isolation ends on {short_day(tank.isolated_until)}; a new arrival restarts it.",
        )

    def _unchecked(self, pairing: Unchecked) -> Line:
        what = f"with {', '.join(pairing.sires)} since {short_day(pairing.started)}, nothing seen since"
        return Line(
            About("animal", pairing.dam, "F"),
            (pairing.dam, what, short_day(pairing.last_look), pairing.tank or "-"),
            "?",
            "water",
            more='Nothing seen is never "not pregnant".',
        )

    def _unmeasured(self, pup: Unmeasured) -> Line:
        last = f"last {short_day(pup.last)}" if pup.last else "never measured"
        return Line(About("animal", pup.tag), (pup.tag, "measure", last, pup.tank or "-"), "·", "")


def _group(
    title: str, place: str, write: Callable[[Any], Line], found: Sequence[Any], most: int
) -> Iterator[Entry]:
    """One kind: its heading, so many lines, and a line that leads to the rest."""
    if not found:
        return
    yield Heading(f"{title} ({len(found)})")
    shown = found if len(found) <= most + 1 else found[:most]
    yield from (write(item) for item in shown)
    if len(found) > len(shown):
        more = f"and {len(found) - len(shown)} more"
        yield Line(About("place", place), ("…", more), "", "quiet")


def gates_in_words(pup: Readiness) -> str:
    """Each gate of a pup with its mark: passed, or still closed."""
    return "\n".join(
        f"■ {gate.asks}" if pup.gates.get(gate.name, True) else f"○ waits on {gate.lacks}"
        for gate in GATES
    )


def due_when(due: DueLitter, today: date) -> str:
    """The likely day; for one that is overdue the days that are left: none is likely any more."""
    if due.state == "overdue":
        return in_window(due.earliest, due.latest, today)
    return in_days(due.likely, today)


def due_in_words(due: DueLitter) -> str:
    """The window of a birth, when its nursery has to stand, and what it is known from."""
    return (
        f"{due.dam} by {', '.join(due.sires) or 'sire unknown'}\n\n"
        f"earliest  {short_day(due.earliest)}\nlikely    {short_day(due.likely)}\n"
        f"latest    {short_day(due.latest)}\n\n"
        f"nursery {due.nursery_tank or ''}".rstrip()
        + f", set up by {short_day(due.nursery)}\n\nknown from: {due.basis}"
        + "".join(f"\n\n! {warning}" for warning in due.warnings)
    )
