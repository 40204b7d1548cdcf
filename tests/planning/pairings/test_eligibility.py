"""Who may be paired, and with which reasons others may not."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from colony.planning.pairings.eligibility import (
    PAIR_RULES,
    RULES,
    Candidate,
    set_aside,
    unknown_rules,
    why_not,
    why_not_together,
)

TODAY = date(2024, 6, 1)
DAM = Candidate("Alma", "F", species="leopoldi", width_mm=450, mature_width_mm=430)
SIRE = Candidate("Bruno", "M", species="leopoldi", width_mm=360, mature_width_mm=340)


def ago(days: int) -> date:
    """Count days back from today."""
    return TODAY - timedelta(days=days)


BARS: list[tuple[dict[str, Any], str, str]] = [
    ({"status": "sold", "status_since": ago(9)}, "gone", "not here: sold since 2024-05-23"),
    ({"status": "died"}, "gone", "not here: died"),
    ({"sex": "U"}, "sex", "sex not recorded: look for claspers"),
    (
        {"age_days": 300, "mature_age_days": 700},
        "age",
        "300 days old; a female leopoldi is mature at 700",
    ),
    (
        {"width_mm": 425, "width_on": ago(31)},
        "width",
        "disc width 42.5 cm on 2024-05-01; a female leopoldi is mature at 43 cm",
    ),
    (
        {"width_mm": None},
        "width",
        "maturity unknown: measure its disc width, or note that she is mature",
    ),
    (
        {"mature_width_mm": None},
        "width",
        "maturity unknown: set the mature width of a female leopoldi, or note that she is mature",
    ),
    ({"held": "torn disc edge"}, "hold", "health hold: torn disc edge"),
    ({"isolated_until": TODAY + timedelta(days=1)}, "isolation", "in isolation until 2024-06-02"),
    (
        {"gravid_since": ago(60), "due": TODAY + timedelta(days=108)},
        "gravid",
        "gravid since 2024-04-02, due about 2024-09-17",
    ),
    (
        {"last_birth": ago(59), "rest_days": 60},
        "rest",
        "gave birth on 2024-04-03; rests until 2024-06-02",
    ),
    ({"in_pairing_with": ("Bruno", "Carlos")}, "paired", "already with Bruno and Carlos"),
    ({"breeding_ban": "sister line"}, "ban", "not to be bred: sister line"),
]


@pytest.mark.parametrize(("change", "rule", "text"), BARS)
def test_each_rule_says_why(change: dict[str, Any], rule: str, text: str) -> None:
    """A fact against an animal gives one reason, by its rule's name, in words."""
    (reason,) = why_not(replace(DAM, **change), TODAY)
    assert (reason.name, reason.text) == (rule, text)


@pytest.mark.parametrize(("change", "rule", "text"), BARS)
def test_each_rule_can_be_overridden(change: dict[str, Any], rule: str, text: str) -> None:
    """A rule is overridden by name for all, or by name and tag for one, and for no other."""
    barred = replace(DAM, **change)
    assert text
    assert why_not(barred, TODAY, frozenset({rule})) == ()
    assert why_not(barred, TODAY, frozenset({f"{rule}:Alma"})) == ()
    assert len(why_not(barred, TODAY, frozenset({f"{rule}:Bruno"}))) == 1


def test_every_rule_about_one_animal_is_triggered_here() -> None:
    """No rule of the table goes untested."""
    assert {rule for _, rule, _ in BARS} == set(RULES)


@pytest.mark.parametrize(
    "change",
    [
        {},
        {"isolated_until": TODAY},
        {"last_birth": ago(60), "rest_days": 60},
        {"width_mm": 430},
        {"width_mm": None, "mature_seen": True},
        {"width_mm": 200, "age_days": 300, "mature_age_days": 700, "mature_seen": True},
    ],
)
def test_the_day_a_bar_ends_is_free(change: dict[str, Any]) -> None:
    """The last day, the exact width and evidence of its own leave nothing against an animal."""
    assert why_not(replace(DAM, **change), TODAY) == ()


def test_all_reasons_are_given_at_once() -> None:
    """An animal with three bars shows three reasons, in the order of the table."""
    barred = replace(DAM, held="", last_birth=ago(1), rest_days=60, status="gone")
    assert [reason.name for reason in why_not(barred, TODAY)] == ["gone", "hold", "rest"]


def test_a_male_serves_as_many_females_as_he_may() -> None:
    """A running pairing bars a male only when his capacity is used up."""
    busy = replace(SIRE, in_pairing_with=("Alma", "Bea"))
    assert why_not(busy, TODAY) == ()
    assert why_not(replace(busy, most_females=3), TODAY) == ()
    (reason,) = why_not(replace(busy, most_females=2), TODAY)
    assert reason.text == "already with Alma and Bea: all that he serves"


@pytest.mark.parametrize(
    ("one", "other", "rule", "text"),
    [
        (DAM, DAM, "same_sex", "both are females"),
        (DAM, replace(SIRE, sex="F"), "same_sex", "both are females"),
        (
            DAM,
            replace(SIRE, species="motoro"),
            "species",
            "a cross of species: Alma is leopoldi, Bruno is motoro",
        ),
        (DAM, replace(SIRE, species=None), "species", "species of Bruno not recorded"),
        (
            replace(DAM, line="coal"),
            replace(SIRE, line="pearl"),
            "line",
            "a cross of lines: Alma is coal, Bruno is pearl",
        ),
        (DAM, replace(SIRE, tag="Alma"), "same_animal", "it is the same animal"),
    ],
)
def test_a_pair_must_agree(one: Candidate, other: Candidate, rule: str, text: str) -> None:
    """Sex must be opposite, species and line the same, and nobody pairs with itself."""
    reasons = {reason.name: reason.text for reason in why_not_together(one, other)}
    assert reasons[rule] == text
    left = why_not_together(one, other, frozenset({rule}))
    assert rule not in {reason.name for reason in left}
    assert rule in PAIR_RULES


def test_an_animal_without_a_line_joins_any() -> None:
    """A line is a label: who has none is not held to one."""
    assert why_not_together(replace(DAM, line="coal"), SIRE) == ()


def test_what_was_overridden_is_still_named() -> None:
    """A cross that was asked for is named as one, and so is a rest that was cut short."""
    sire = replace(SIRE, species="motoro", held="bite")
    named = set_aside(DAM, sire, TODAY, frozenset({"species", "hold:Bruno", "line"}))
    assert [reason.name for reason in named] == ["hold", "species"]


def test_a_rule_that_is_none_is_found() -> None:
    """An override that names no rule is told from those that do."""
    assert unknown_rules({"rest", "rest:Alma", "species", "tired", "tried:Alma"}) == (
        "tired",
        "tried:Alma",
    )
