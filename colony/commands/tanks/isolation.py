"""`colony isolation`: the clocks of arrivals and of new filters."""

from colony.commands.cli.opened import reading
from colony.commands.cli.options import AsJson, Book, subject
from colony.commands.cli.output import say, show_json, show_table, warn
from colony.commands.cli.read import today

app = subject()


@app.command("list")
def list_(book: Book = None, *, as_json: AsJson = False) -> None:
    """List who is isolated until when, what shares the water, and which filters mature."""
    from colony.acts.tanks.isolation import isolation_now

    with reading(book) as session:
        found = isolation_now(session, today=today())
    if as_json:
        show_json(found)
        return
    show_table(
        ("System", "Tanks", "Animals", "Since", "Until", ">Days", "Started by"),
        (
            (
                one.system,
                " ".join(one.tanks),
                " ".join(one.animals),
                one.since,
                one.until,
                one.days_left,
                " ".join(one.restarted_by),
            )
            for one in found.isolated
        ),
        none="Nobody is in isolation.",
    )
    warn(
        f"{one.system} isolates nothing: it shares its water with {', '.join(one.shares_water_with)}."
        for one in found.isolated
        if one.shares_water_with
    )
    show_table(
        ("New filter", "Started", "Mature from", ">Days", "In it already"),
        (
            (one.system, one.started, one.mature_from, one.days_left, " ".join(one.animals))
            for one in found.maturing
        ),
    )
    if found.isolated:
        say(" ".join(found.cautions))


@app.command("early")
def early(book: Book = None, *, as_json: AsJson = False) -> None:
    """List who left isolation before its end in the last year, and why."""
    from colony.acts.tanks.isolation import isolation_now

    with reading(book) as session:
        leaves = isolation_now(session, today=today()).left_early
    if as_json:
        show_json(leaves)
        return
    show_table(
        ("Animal", "On", "To", "Why"),
        ((leave.tag, leave.on, leave.to, leave.why) for leave in leaves),
        none="Nobody left isolation early in the last year.",
    )
