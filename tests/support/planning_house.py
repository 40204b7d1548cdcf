"""A breeder's stock to plan with: who may be paired, and how a plan is asked for in one line."""

from typing import Any

from farm import Farm

from colony.acts.pairings.accept_plan import Accepted, accept_plan
from colony.acts.pairings.plan import Proposed, propose_plan
from colony.planning.pairings.request import PairingRequest
from colony.store.journal.rows import kept_tables


def settled(farm: Farm) -> Farm:
    """Three grown females and two males, none related, in tanks of 4 x 4 m.

    Alma and Bruno are in B1, Caro and Dino in B2, Edda in B3.
    """
    for code in ("B1", "B2", "B3"):
        farm.tank(code)
    for tag, tank in (("Alma", "B1"), ("Caro", "B2"), ("Edda", "B3")):
        farm.female(tag, tank=tank, width="50cm")
    for tag, tank in (("Bruno", "B1"), ("Dino", "B2")):
        farm.male(tag, tank=tank, width="45cm")
    return farm


def proposed(farm: Farm, **request: Any) -> Proposed:  # noqa: ANN401 - request of a plan
    """A plan of the farm, looked at."""
    more = {name: request.pop(name) for name in ("compare", "draw") if name in request}
    asked = PairingRequest(**request)
    answer: Proposed = farm.ask(propose_plan, request=asked, today=farm.today, **more)
    return answer


def accepted(farm: Farm, *, on: str = "today", **request: Any) -> Accepted:  # noqa: ANN401 - the same
    """A plan of the farm, proposed and accepted in one act."""
    asked = PairingRequest(**request)
    with farm.book.act("pairing plan") as session:
        plan = propose_plan(session, request=asked, today=farm.today).plan
        return accept_plan(session, plan=plan, on=farm.day(on), today=farm.today)


def pairs(plan: Proposed) -> dict[str, str]:
    """The sire of each dam."""
    return {pair.dam: pair.sire for pair in plan.plan.pairs}


def reasons(plan: Proposed) -> dict[str, list[str]]:
    """The rules against each animal that is left out."""
    return {one.tag: [reason.name for reason in one.reasons] for one in plan.plan.left_out}


def kept_rows(farm: Farm) -> dict[str, list[tuple[Any, ...]]]:
    """Every row of every table but the journal."""
    return {
        table.name: sorted(farm.rows(f'SELECT * FROM "{table.name}"'))  # noqa: S608 - names of tables
        for table in kept_tables()
    }
