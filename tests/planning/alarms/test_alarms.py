"""What is dangerous: each source finds what it should and no more, and the nearest comes first."""

from datetime import date, timedelta

from checkout import ROOT

from colony.planning.alarms.alarms import (
    RANKS,
    BadValue,
    TankToday,
    of_birth,
    of_deaths,
    of_drift,
    of_headcount,
    of_isolation,
    of_poorly,
    of_signs,
    of_tank,
    of_water,
    ranked,
    unanswered,
)
from colony.planning.alarms.drift import Drift
from colony.planning.tanks.load import Occupant

TODAY = date(2026, 3, 9)
LIMIT = 2.0


def ago(days: int) -> date:
    """So many days before today."""
    return TODAY - timedelta(days=days)


def test_what_harms_within_hours_stands_apart_from_what_harms_within_weeks() -> None:
    """Nitrite and temperature together first, pH by itself; each since its own test."""
    bad = [
        BadValue("nitrite_mg_l", ago(1), "nitrite 3 mg/L (at most 0.1)"),
        BadValue("temperature_c", TODAY, "temperature 18 C (25 to 29.5)"),
        BadValue("ph", ago(3), "ph 8 (6 to 7.2)"),
    ]
    first, second = ranked(of_water("south", bad))
    assert (first.rank, first.what, first.since) == (1, "water that harms", ago(1))
    assert first.evidence == "nitrite 3 mg/L (at most 0.1), temperature 18 C (25 to 29.5)"
    assert (second.rank, second.evidence) == (3, "ph 8 (6 to 7.2)")
    assert of_water("south", []) == []


def test_two_deaths_within_two_weeks_are_close_together() -> None:
    """A single one is not, nor two a month apart."""
    assert of_deaths("north", [("Alma", ago(1))], TODAY) == []
    assert of_deaths("north", [("Alma", ago(1)), ("Bella", ago(14))], TODAY) == []
    (close,) = of_deaths("north", [("Alma", ago(1)), ("Bella", ago(13))], TODAY)
    assert (close.where, close.since) == ("north", ago(13))
    assert close.evidence == "Alma on 2026-03-08, Bella on 2026-02-24"


def test_young_beside_who_could_eat_them_is_told_but_not_beside_their_dam() -> None:
    """Twice as wide is the limit of the house; the dam is no danger to her own."""
    pup, dam = Occupant("P-1", 140.0, family="litter 1"), Occupant("Alma", 500.0)
    male = Occupant("Bruno", 281.0)
    beside_dam = TankToday("N1", (pup, dam), {"P-1": "Alma"}, ("Alma",))
    assert of_tank(beside_dam, LIMIT, TODAY) == []
    beside_male = TankToday("N1", (pup, dam, male), {"P-1": "Alma"}, ("Alma", "Bruno"))
    (found,) = of_tank(beside_male, LIMIT, TODAY)
    assert (found.what, found.evidence) == ("young with who could eat them", "P-1 with Bruno")
    assert found.remedy.objects == ("P-1",)


def test_pups_left_with_adults_are_told_where_no_width_is_known() -> None:
    """Nobody measured the male: he is an adult all the same."""
    pup, male = Occupant("P-1", 140.0), Occupant("Bruno", None)
    (found,) = of_tank(TankToday("N1", (pup, male), {"P-1": ""}, ("Bruno",)), LIMIT, TODAY)
    assert (found.rank, found.what) == (4, "pups left with adults")


def test_isolation_is_broken_where_animals_share_the_water() -> None:
    """An empty tank on the same system breaks nothing."""
    assert of_isolation(["Egon"], "I1", [], TODAY) == []
    (found,) = of_isolation(["Egon"], "I1", ["N1"], TODAY)
    assert found.evidence == "Egon share water with N1"


def test_a_headcount_that_is_short_is_told_and_one_too_many_is_not() -> None:
    """An animal too many is a mistake of the book; `book check` names it."""
    assert of_headcount("N1", TODAY, 5, 4) == of_headcount("N1", TODAY, 4, 4) == []
    assert of_headcount("N1", TODAY, 3, 4)[0].evidence == "3 counted, the book has 4"


def test_signs_of_a_tank_are_one_alarm_since_the_first() -> None:
    """The last one who showed a sign is looked over again."""
    (found,) = of_signs("N1", [("Alma", "thin", ago(5)), ("Bella", "pale", ago(1))])
    assert (found.since, found.evidence) == (ago(5), "Alma thin, Bella pale")
    assert found.remedy.objects == ("Bella",)
    (of_tank_itself,) = of_signs("N1", [("N1", "restless", ago(1))])
    assert of_tank_itself.remedy.facts == (("tank", "N1"),)


def test_the_nearest_danger_comes_first_then_the_latest() -> None:
    """Whatever the order in which the sources are asked."""
    late = of_birth("Alma", "N1", TODAY)
    signs = of_signs("N2", [("N2", "restless", ago(2))]) + of_signs("N1", [("N1", "pale", ago(1))])
    water = of_water("south", [BadValue("ph", ago(9), "ph 8 (6 to 7.2)")])
    assert [each.where for each in ranked([*late, *signs, *water])] == ["south", "N1", "N2", "Alma"]
    assert set(RANKS.values()) == {1, 2, 3, 4, 5}


def test_the_page_has_the_ranks_as_they_are() -> None:
    """docs/care.md shows the table."""
    page = (ROOT / "docs" / "care.md").read_text("utf-8")
    assert all(f"| {rank} | {what} |" in page for what, rank in RANKS.items())


def test_several_that_do_badly_in_one_water_are_told_together() -> None:
    """One is a matter of that animal; one who does both is one."""
    one = [("L1-1", "refuses food", ago(9)), ("L1-1", "stands still", ago(30))]
    assert of_poorly("north", one) == []
    (several,) = of_poorly("north", [*one, ("L2-4", "stands still", ago(20))])
    assert (several.where, several.since) == ("north", ago(30))
    assert several.evidence == "L1-1 refuses food, L1-1 stands still, L2-4 stands still"


def test_an_answered_alarm_is_told_again_only_on_new_evidence() -> None:
    """What, where and by what: a further head missing is another alarm."""
    (first,) = of_headcount("N1", ago(3), 4, 5)
    (worse,) = of_headcount("N1", ago(1), 3, 5)
    answered = {(first.what, first.where, first.evidence)}
    assert unanswered([first, worse], answered) == [worse]


def test_a_drift_says_from_what_to_what() -> None:
    """Within its limits or not, it is told."""
    alarm = of_drift("south", "ph", "", Drift(ago(40), "down", 6.9, 6.4))
    assert alarm.sentence == (
        f"south: water that drifts since {ago(40)}: ph down from about 6.9 to 6.4"
    )
