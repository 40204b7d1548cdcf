"""The best pairings for the whole colony, and what-if: leave an animal out, forbid a pair."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from threading import Event
from typing import Any, ClassVar

from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.widget import Widget
from textual.widgets import Static

from colony.acts.pairings.accept_plan import accept_plan
from colony.acts.pairings.plan import propose_plan
from colony.planning.pairings.partners import LeftOut
from colony.planning.pairings.plan import PlannedPair, ProposedPlan
from colony.planning.pairings.request import PairingRequest, Watch
from colony.screens.frame.about import About
from colony.screens.frame.outcome import attempt
from colony.screens.frame.page import Page
from colony.screens.widgets.bars import bar
from colony.screens.widgets.columns import Column
from colony.screens.widgets.detail_pane import DetailPane
from colony.screens.widgets.entry_list import Entry, EntryList, Heading, Line

SECONDS = 20.0
"""How long a plan is searched for before the best one so far is shown."""

FULL = 0.25
"""The F of full sibs' pups fills the bar."""

COLUMNS = (
    Column("Dam", 12),
    Column("Sire", 12),
    Column("F of pups", 9, right=True),
    Column("to full sibs", 22, style="$secondary"),
    Column("", 10, grows=True),
)


class PairingPlan(Page):
    """A plan that changes nothing until it is accepted."""

    HERE = "pairings"
    HELP: ClassVar[str | None] = (
        "What if: Space forbids the pair under the highlight, o leaves its dam out, O its sire; "
        "the same keys on what was left out by you take it back. y accepts: pairings start, and "
        "moves go on the work list. Esc takes the best plan so far."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("space", "forbid", "Not these two"),
        Binding("o", "leave_out('dam')", "Without dam"),
        Binding("O", "leave_out('sire')", "Without sire"),
        Binding("y", "accept", "Accept"),
    ]

    def __init__(self, subject: About) -> None:
        super().__init__(subject)
        self._plan: ProposedPlan | None = None
        self._plain: ProposedPlan | None = None
        self._without: frozenset[str] = frozenset()
        self._forbidden: frozenset[tuple[str, str]] = frozenset()
        self._stop = Event()

    def body(self) -> Iterable[Widget]:
        """A line on the plan, its pairs, and who is left out."""
        yield Static("", id="page-head", markup=False)
        with Horizontal(classes="beside"):
            yield EntryList(COLUMNS)
            yield DetailPane()

    def on_mount(self) -> None:
        """The list takes the keys."""
        self.query_one(EntryList).focus()

    def load(self) -> None:
        """Plan with what was left out."""
        self._stop.set()
        stop = self._stop = Event()
        self._say_near(None)
        request = PairingRequest(
            excluded=self._without, forbidden_pairs=self._forbidden, seconds=SECONDS
        )
        watch = Watch(stop.is_set, lambda gap: self._tell(stop, gap))
        today = self.app.book_session.today
        self.ask(_plan, self._show, request=request, watch=watch, today=today)

    def action_back(self) -> None:
        """Take the best plan so far; with nothing being planned, go back."""
        if self._asked and not self._stop.is_set():
            self._stop.set()
        else:
            super().action_back()

    def _tell(self, stop: Event, gap: float) -> None:
        if not stop.is_set():
            self.app.call_later(self._say_near, gap)

    def _say_near(self, gap: float | None) -> None:
        if self._asked or gap is None:
            near = "" if gap is None else f": within {max(gap, 0.0):.2%} of the best"
            head = f"Planning the pairings{near}; Esc takes the best so far."
            self.query_one("#page-head", Static).update(head)

    def on_entry_list_highlighted(self, event: EntryList.Highlighted) -> None:
        """Give the reasons."""
        self.query_one(DetailPane).show(str((event.line and event.line.more) or ""))

    def action_forbid(self) -> None:
        """Forbid a pair, or allow it again."""
        pair = self._pair()
        if pair is not None:
            self._forbidden ^= {pair}
            self.load()

    def action_leave_out(self, role: str) -> None:
        """Leave the dam or the sire out, or take an animal in again."""
        line, pair = self.query_one(EntryList).line, self._pair()
        if pair is not None:
            self._without ^= {pair[role == "sire"]}
        elif line is not None and line.about.tag in self._without:
            self._without -= {line.about.tag}
        else:
            return
        self.load()

    def action_accept(self) -> None:
        """Start the pairings of the plan."""
        if self._plan is None:
            return
        book_session = self.app.book_session
        facts: dict[str, Any] = {
            "plan": self._plan,
            "on": book_session.today,
            "today": book_session.today,
        }
        done = attempt(lambda: book_session.act("pairing plan", accept_plan, **facts))
        if done.answer is None:
            self.app.say(done.problem, "refused")
            return
        began, moves = len(done.answer.started), len(done.answer.listed)
        self.app.show_written(f"{began} pairings began, {moves} moves are on the work list.")

    def _pair(self) -> tuple[str, str] | None:
        line = self.query_one(EntryList).line
        if line is None or "sires" not in line.initial:
            return None
        return line.initial["dam"], line.initial["sires"]

    def _show(self, plan: ProposedPlan) -> None:
        self._plan, self._plain = plan, self._plain or plan
        self.query_one("#page-head", Static).update(self._head(plan, self._plain))
        entries: list[Entry] = [_line(pair) for pair in plan.pairs]
        if self._without or self._forbidden:
            entries.append(Heading("Left out by you"))
            entries += [_by_you(tag) for tag in sorted(self._without)]
            entries += [_forbidden(pair) for pair in sorted(self._forbidden)]
        others = [animal for animal in plan.left_out if animal.tag not in self._without]
        if others:
            entries.append(Heading(f"Left out ({len(others)})"))
        entries += [_left_out(other) for other in others]
        self.query_one(EntryList).show(entries)

    @staticmethod
    def _head(plan: ProposedPlan, plain: ProposedPlan) -> str:
        proof = "the best there is" if plan.optimal else f"within {plan.gap:.1%} of the best"
        lines = [f"{len(plan.pairs)} pairs, {proof}"]
        for name, now, before in (
            ("mean F of the pups", plan.mean_expected_inbreeding, plain.mean_expected_inbreeding),
            ("mean kinship after", plan.next_mean_kinship, plain.next_mean_kinship),
        ):
            was = f" (was {before:.4f})" if plan is not plain else ""
            lines.append(f"{name} {now:.4f}{was}")
        return "; ".join(lines) + "".join(f"\n! {note}" for note in plan.notes)


def _plan(session: Any, *, request: PairingRequest, watch: Watch, today: date) -> ProposedPlan:  # noqa: ANN401 - an open session
    proposed = propose_plan(session, request=request, watch=watch, today=today)
    return replace(proposed.plan, notes=proposed.notes)


def _line(pair: PlannedPair) -> Line:
    reasons = "; ".join(reason.text for reason in pair.reasons)
    cells = (
        pair.dam,
        pair.sire,
        f"{pair.expected_inbreeding:.4f}",
        lambda width: bar(pair.expected_inbreeding / FULL, width),
        reasons,
    )
    more = (
        f"{pair.dam} and {pair.sire}\n\nF of their pups {pair.expected_inbreeding:.4f}"
        f"\nat worst        {pair.worst_inbreeding:.4f}\n\n{reasons}"
    )
    about = About("animal", pair.dam, "F")
    return Line(
        about, cells, "●", "ready", more=more, initial={"dam": pair.dam, "sires": pair.sire}
    )


def _by_you(tag: str) -> Line:
    return Line(About("animal", tag), (tag, "left out; o takes it in again"), "○", "quiet")


def _forbidden(pair: tuple[str, str]) -> Line:
    dam, sire = pair
    initial = {"dam": dam, "sires": sire}
    about = About("animal", dam, "F")
    return Line(about, (dam, f"not with {sire}; Space allows it"), "○", "quiet", initial=initial)


def _left_out(animal: LeftOut) -> Line:
    reasons = [reason.text for reason in animal.reasons]
    more = f"{animal.tag} is left out\n\n" + "\n".join(f"! {reason}" for reason in reasons)
    return Line(
        About("animal", animal.tag), (animal.tag, "; ".join(reasons)), "○", "quiet", more=more
    )
