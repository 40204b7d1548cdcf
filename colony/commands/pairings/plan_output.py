"""A plan of pairings, shown at a terminal."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from colony.commands.cli.output import say, show_table, warn
from colony.notation.cautions import STING

if TYPE_CHECKING:
    from colony.acts.pairings.accept_plan import Accepted
    from colony.acts.pairings.plan import Proposed
    from colony.planning.pairings.comparison import Comparison
    from colony.planning.pairings.future import Future
    from colony.planning.pairings.partners import LeftOut
    from colony.planning.pairings.plan import PlannedPair, ProposedPlan

NAMED = 6
"""How many of those left out for one reason are named."""


BECAUSE = {
    "gone": "not here any more",
    "sex": "sex not recorded",
    "age": "too young",
    "width": "too small, or never measured",
    "hold": "health hold",
    "isolation": "in isolation",
    "gravid": "gravid",
    "rest": "rests since a birth",
    "paired": "in a pairing that runs",
    "ban": "not to be bred",
    "without": "left out as asked",
    "partner": "no partner suits",
    "place": "could be paired, has no place in the plan",
}
"""What the first reason against an animal comes to, in the order shown."""


def show_plan(
    proposed: "Proposed", accepted: "Accepted | None", *, weight: float, why: bool
) -> None:
    """Print the pairs, how good they are, the moves, the what-if, and who is left out."""
    plan = proposed.plan
    _show_pairs(plan.pairs)
    _show_figures(plan, weight)
    warn(proposed.notes)
    _section(
        ("To carry", "From", "To"),
        ((move.tag, move.from_tank, move.to_tank or "any other tank") for move in plan.moves),
    )
    if proposed.comparison:
        _show_comparison(proposed.comparison)
    _show_futures(proposed.futures)
    if why:
        reasons = {
            animal.tag: "; ".join(f"{reason.name}: {reason.text}" for reason in animal.reasons)
            for animal in plan.left_out
        }
        _section(("Left out", "Why"), reasons.items())
    else:
        _show_rules(plan.left_out)
    if accepted:
        _show_accepted(accepted)


def _show_pairs(pairs: "Sequence[PlannedPair]") -> None:
    """Print the pairs; what is so of none of them takes no column."""
    columns: dict[str, list[object]] = {
        "Dam": [pair.dam for pair in pairs],
        "Sire": [pair.sire for pair in pairs],
        ">F of pups": [pair.expected_inbreeding for pair in pairs],
    }
    if any(pair.worst_inbreeding != pair.expected_inbreeding for pair in pairs):
        columns[">At worst"] = [pair.worst_inbreeding for pair in pairs]
    if any(pair.tank for pair in pairs):
        columns["Tank"] = [pair.tank for pair in pairs]
    if any(pair.reasons for pair in pairs):
        texts = ["; ".join(reason.text for reason in pair.reasons) for pair in pairs]
        columns["Although"] = [text or None for text in texts]
    show_table(tuple(columns), zip(*columns.values(), strict=True))


def _show_figures(plan: "ProposedPlan", weight: float) -> None:
    if not plan.pairs:
        say("The plan has no pair.")
        return
    say(
        f"Mean F {plan.mean_expected_inbreeding:.4f}; mean kinship of the next generation {plan.next_mean_kinship:.4f}."
    )
    proof = "Proved best" if plan.optimal else "Not proved best"
    say(f"{proof}, where that kinship weighs {weight:g} against F.")


def _section(columns: Sequence[str], rows: Iterable[Sequence[object]]) -> None:
    """Print a further table below a blank line, if it has rows."""
    lines = list(rows)
    if lines:
        say("")
        show_table(columns, lines)


def _show_comparison(comparison: "Comparison") -> None:
    _section(
        ("Figure", ">Without what-if", ">With it", ">Difference"),
        (
            (
                measure.name.replace("_", " "),
                f"{measure.first:.6g}",
                f"{measure.second:.6g}",
                f"{measure.difference:+.4g}",
            )
            for measure in comparison.measures
        ),
    )
    for word, pairs in (
        ("Only without", comparison.only_first),
        ("Only with", comparison.only_second),
    ):
        if pairs:
            say(f"{word}: {', '.join(f'{pair.dam} x {pair.sire}' for pair in pairs)}.")


def _show_futures(ways: "Sequence[Future]") -> None:
    _section(
        ("Way", ">Generation", ">Mean kinship", ">+-", ">Gene diversity", ">Mean F"),
        (
            (
                future.way,
                ahead.generation,
                ahead.mean_kinship,
                ahead.standard_error,
                ahead.gene_diversity,
                ahead.mean_inbreeding,
            )
            for future in ways
            for ahead in future.ahead
        ),
    )


def _show_rules(left_out: "Sequence[LeftOut]") -> None:
    """Count those left out by their first reason: a hundred lines would hide the plan."""
    tags: dict[str, list[str]] = defaultdict(list)
    for animal in left_out:
        tags[animal.reasons[0].name].append(animal.tag)
    _section(
        ("Rule", "Left out because", ">How many", "Who"),
        (
            (rule, why, len(tags[rule]), _few(tags[rule]))
            for rule, why in BECAUSE.items()
            if rule in tags
        ),
    )
    if left_out:
        say("All reasons: --why. To set a rule aside: --ignore RULE, or RULE:TAG for one.")


def _show_accepted(accepted: "Accepted") -> None:
    say("")
    if accepted.ended:
        say(f"Separated: {', '.join(accepted.ended)}.")
    if accepted.kept:
        say(f"In their pairing already: {', '.join(accepted.kept)}.")
    say(f"{len(accepted.started)} pairings are started; colony book undo takes all of it back.")
    if accepted.listed:
        say(f"{len(accepted.listed)} moves are on the work list: colony tank work.")
    if accepted.homeless:
        say(f"Find another tank for {', '.join(accepted.homeless)}: colony tank move.")
    if accepted.listed or accepted.homeless:
        say(STING)


def _few(tags: Sequence[str]) -> str:
    more = f" and {len(tags) - NAMED} more" if len(tags) > NAMED else ""
    return ", ".join(tags[:NAMED]) + more
