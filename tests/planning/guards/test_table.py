"""The table of guards is whole: every guard means something, and asks some act."""

from checkout import ROOT

from colony.planning.guards.table import ACTS, GUARDS, MEANINGS, NEVER, REFUSE, WARN, weight
from colony.planning.pairings.eligibility import PAIR_RULES, RULES


def test_every_guard_asks_an_act_and_says_when() -> None:
    """No row of the table is empty, no word of it unknown."""
    assert list(GUARDS) == list(MEANINGS)
    for guard, acts in GUARDS.items():
        assert acts, guard
        assert acts.keys() <= set(ACTS)
        assert set(acts.values()) <= {NEVER, REFUSE, WARN}


def test_every_rule_of_pairing_but_one_is_a_guard() -> None:
    """What leaves an animal out of a plan is asked when it is paired by hand.

    Who serves others already may be put with one more: only the plan counts them.
    """
    assert (RULES.keys() | PAIR_RULES.keys()) - GUARDS.keys() == {"paired"}


def test_a_guard_that_does_not_ask_weighs_nothing() -> None:
    """The line of an animal is nobody's concern when it is moved."""
    assert weight("line", "move") is None
    assert weight("hold", "sell") == REFUSE


def test_the_page_shows_the_table_as_it_is() -> None:
    """Each guard has its line in docs/pairing.md, with what it does to each act."""
    page = (ROOT / "docs" / "pairing.md").read_text("utf-8")
    for guard, meaning in MEANINGS.items():
        cells = " | ".join(GUARDS[guard].get(act, "") for act in ACTS)
        assert f"| `{guard}`: {meaning} | {cells} |" in page
