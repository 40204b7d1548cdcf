"""`colony` without a word: the state of the day."""

from typing import TYPE_CHECKING

from colony.commands.cli.opened import reading
from colony.commands.cli.output import say, show_json, show_table
from colony.commands.cli.read import today
from colony.commands.cli.remedies import command_of
from colony.notation.days import show_span
from colony.notation.house import show_length

if TYPE_CHECKING:
    from colony.planning.alarms.alarms import Alarm

MOST = 8
"""Lines of each kind; the commands named below them show all."""


def show_day(*, as_json: bool = False) -> None:
    """Say who is due, who is ready and what is overdue."""
    from colony.acts.book.backups import backup_state
    from colony.acts.book.day import state_of_the_day
    from colony.store.location import book_location

    with reading(None) as session:
        state = state_of_the_day(session, today=today())
    backup = backup_state(book_location())
    if as_json:
        alarms = list(map(_alarm_document, state.alarms))
        show_json({**vars(state), "alarms": alarms, "backup": backup})
        return
    say(f"{state.today}: the colony today")
    for alarm in state.alarms:
        say(f"! {alarm.sentence} ({command_of(alarm.remedy)}).")
    say(f"\nDue ({len(state.due)})")
    show_table(
        ("Dam", "Likely", "Between", "Nursery by", "State", "Tank"),
        (
            (d.dam, d.likely, f"{d.earliest} and {d.latest}", d.nursery, d.state, d.tank)
            for d in state.due[:MOST]
        ),
        none="No birth is expected soon.",
    )
    _more(len(state.due), "colony litter due")
    for order in state.orders[:MOST]:
        say(f"Order {order.order} of {order.buyer}, {order.on}: {order.what}.")
    _more(len(state.orders), "colony order list")
    say(f"\nReady for sale ({len(state.ready)})")
    show_table(
        ("Pup", "Sex", "Species", ">Age", ">Width", "Tank"),
        (
            (
                p.tag,
                p.sex,
                p.species,
                show_span(p.age_days or 0),
                show_length(p.disc_width_mm),
                p.tank,
            )
            for p in state.ready[:MOST]
        ),
        none="No pup is ready.",
    )
    _more(len(state.ready), "colony pup ready")
    say(f"\nTo measure ({len(state.unmeasured)})")
    show_table(
        ("Pup", "Tank", "Last measured"),
        ((p.tag, p.tank, p.last) for p in state.unmeasured[:MOST]),
        none="Every pup was measured lately.",
    )
    _more(len(state.unmeasured), "colony pup ready --all")
    for pup in state.off_curve[:MOST]:
        say(f"! {pup.sentence}.")
    _more(len(state.off_curve), "colony pup forecast")
    for work in state.overdue[:MOST]:
        say(f"Overdue {work.overdue_days}d: {work.task} at {work.place}.")
    _more(len(state.overdue), "colony round")
    for tank in state.isolated:
        say(f"Isolation in {tank.tank} until {tank.isolated_until}: {', '.join(tank.animals)}.")
    for tank in state.overfull:
        say(f"! {tank.breaks[0]}.")
    for soon in state.overflowing[:MOST]:
        say(f"! By {soon.day}: {soon.why}.")
    _more(len(state.overflowing), "colony tank outlook --weeks 2")
    say(f"\n{backup.sentence}")


def _alarm_document(alarm: "Alarm") -> dict[str, object]:
    """An alarm with the command that is done about it."""
    keys = ("rank", "what", "where", "since", "evidence")
    return {key: getattr(alarm, key) for key in keys} | {"remedy": command_of(alarm.remedy)}


def _more(count: int, command: str) -> None:
    if count > MOST:
        say(f"and {count - MOST} more: {command}")
