"""`colony isolation`: the clocks of arrivals and of new filters."""

from colony.commands.cli.opened import reading
from colony.commands.cli.options import Book
from colony.commands.cli.output import say, show_json, show_table, warn
from colony.commands.cli.parts import AsJson, subject
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
                line.system,
                " ".join(line.tanks),
                " ".join(line.animals),
                line.since,
                line.until,
                line.days_left,
                " ".join(line.restarted_by),
            )
            for line in found.isolated
        ),
        none="Nobody is in isolation.",
    )
    warn(
        f"{line.system} isolates nothing: it shares its water with {', '.join(line.shares_water_with)}."
        for line in found.isolated
        if line.shares_water_with
    )
    show_table(
        ("New filter", "Started", "Mature from", ">Days", "In it already"),
        (
            (line.system, line.started, line.mature_from, line.days_left, " ".join(line.animals))
            for line in found.maturing
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
