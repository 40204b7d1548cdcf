"""Recording a litter: what it writes, what it takes from the pairing, and what dates say."""

from datetime import date, timedelta

import pytest
from farm import TODAY, Farm

from colony.acts.litters.due import due_litters
from colony.acts.litters.listing import list_litters, show_litter
from colony.refusals.litters import ImpossibleGestation, TooSoonAfterBirth


@pytest.fixture
def couple(farm: Farm) -> Farm:
    """Alma and Bruno in B1, together for 150 days."""
    farm.tank("B1")
    farm.tank("N1", role="nursery")
    farm.female("Alma", tank="B1", line="white spot")
    farm.male("Bruno", tank="B1", line="white spot")
    farm.pair("Alma", "Bruno", on="150d ago")
    return farm


def test_a_litter_takes_its_sire_from_the_pairing_and_its_tank_from_the_dam(couple: Farm) -> None:
    """Dam, date and count are enough: who sired it and where it swims are on record."""
    litter = couple.litter("Alma", "2F1M", dead=1)
    assert (litter.litter, litter.sires, litter.tank) == ("26-01", ("Bruno",), "B1")
    assert litter.pups == ("26-01-1", "26-01-2", "26-01-3")
    assert litter.warnings == ()
    pups = couple.rows(
        "SELECT a.tag, a.sex, a.born, a.origin, a.line, s.name, p.entered_on"
        " FROM animal a JOIN species s ON s.id = a.species_id JOIN placement p ON p.animal_id = a.id"
        " WHERE a.litter_id = 1 ORDER BY a.tag"
    )
    facts = ("2026-03-09", "born here", "white spot", "leopoldi", "2026-03-09")
    assert pups == [("26-01-1", "F", *facts), ("26-01-2", "F", *facts), ("26-01-3", "M", *facts)]


def test_a_litter_ends_the_pregnancy(couple: Farm) -> None:
    """Expected by its signs before; after, only possible, while she is still with him."""
    couple.sign("Alma", on="140d ago")
    assert [one.state for one in couple.ask(due_litters, today=TODAY)] == ["expected"]
    couple.litter("Alma")
    assert [one.state for one in couple.ask(due_litters, today=TODAY)] == ["possible"]


def test_litters_are_counted_through_the_year_of_their_birth(couple: Farm) -> None:
    """26-01, 26-02, and one of last year that is written down late is 25-01."""
    couple.female("Bella")
    couple.female("Cleo")
    codes = [
        couple.litter("Alma").litter,
        couple.litter("Bella", sires="unknown").litter,
        couple.litter("Cleo", sires="unknown", born="2025-12-24").litter,
    ]
    assert codes == ["26-01", "26-02", "25-01"]


def test_a_litter_of_stillborn_has_no_pups(couple: Farm) -> None:
    """It is a litter all the same: the dam bore, and rests."""
    litter = couple.litter("Alma", "0", dead=3)
    assert litter.pups == ()
    assert couple.ask(list_litters)[0].dead == 3


def test_pups_of_two_species_have_none_of_their_own(couple: Farm) -> None:
    """A hybrid is told by its parents; two lines share none."""
    couple.male("Mo", species="motoro", line="other")
    couple.litter("Alma", sires="Mo")
    assert couple.rows("SELECT species_id, line FROM animal WHERE litter_id = 1 LIMIT 1") == [
        (None, None)
    ]


def test_f_of_the_pups_is_told_with_its_range(couple: Farm) -> None:
    """Half her full brother, half a stranger: 0.25 and 0 (Wright 1922), 0.125 expected."""
    couple.male("Caro")
    first = couple.litter("Alma", "1F1M", born="700d ago", sires="Bruno")
    sister, brother = first.pups
    second = couple.litter(sister, sires=[f"{brother}=0.5", "Caro=0.5"])
    assert (second.inbreeding, second.inbreeding_low, second.inbreeding_high) == (0.125, 0, 0.25)


@pytest.mark.parametrize(
    ("dam", "sire", "f"),
    [
        ("sister", "brother", 0.25),
        ("sister", "Bruno", 0.25),
        ("sister", "half brother", 0.125),
        ("sister", "stranger", 0.0),
    ],
)
def test_f_of_a_litter_is_that_of_the_textbook(farm: Farm, dam: str, sire: str, f: float) -> None:
    """Full sibs 1/4, father x daughter 1/4, half sibs 1/8 (Wright 1922, Am. Nat. 56:330-338)."""
    for tag in ("Alma", "Bella"):
        farm.female(tag)
    for tag in ("Bruno", "stranger"):
        farm.male(tag)
    farm.litter("Alma", "1F1M", sires="Bruno", born="900d ago")
    farm.litter("Bella", "1M", sires="Bruno", born="900d ago")
    tags = {"sister": "23-01-1", "brother": "23-01-2", "half brother": "23-02-1"}
    assert farm.litter(tags[dam], sires=tags.get(sire, sire)).inbreeding == pytest.approx(f)


def test_a_dam_may_be_with_the_next_male_when_she_bears(couple: Farm) -> None:
    """The litter is of the pairing that fits its dates, not of the one that began last week."""
    couple.male("Caro")
    couple.write("UPDATE pairing SET ended = '2026-02-25'")
    couple.pair("Alma", "Caro", on="10d ago")
    litter = couple.litter("Alma")
    assert (litter.sires, litter.warnings) == (("Bruno",), ())
    assert couple.rows("SELECT pairing_id FROM litter") == [(1,)]


def test_of_two_pairings_that_fit_both_males_have_a_share(couple: Farm) -> None:
    """A month with one, and the days since with the other: weighed by the days of conception."""
    couple.male("Caro")
    couple.write("UPDATE pairing SET started = '2025-09-01', ended = '2025-10-01'")
    couple.pair("Alma", "Caro", on="140d ago")
    assert couple.litter("Alma").sire_shares == ("Bruno=0.66", "Caro=0.29", "unknown=0.05")


def test_a_sire_that_was_named_needs_no_pairing_on_record(couple: Farm) -> None:
    """Many a pairing is never written down: it is said, not refused; so is the male who was there."""
    couple.male("Caro")
    litter = couple.litter("Alma", sires="Caro")
    assert litter.sires == ("Caro",)
    no_pairing, other_male = map(str, litter.warnings)
    assert no_pairing == "Alma was in no recorded pairing with Caro before 2026-03-09."
    assert other_male.startswith("Bruno was paired with her from ")


def test_a_birth_out_of_no_pairing_has_an_unknown_sire(farm: Farm) -> None:
    """It is written down, and said."""
    farm.female("Alma")
    litter = farm.litter("Alma")
    assert litter.sires == ()
    assert any("the sire is unknown" in str(warning) for warning in litter.warnings)
    assert any("in no tank" in str(warning) for warning in litter.warnings)


@pytest.mark.parametrize(
    ("days", "word"), [(20, "impossible"), (60, "odd"), (85, "odd"), (95, ""), (170, "")]
)
def test_a_gestation_is_held_to_what_the_species_can(farm: Farm, days: int, word: str) -> None:
    """P. leopoldi 90 to 180 days (Charvet et al. 2018); under half of that nobody carries."""
    farm.female("Alma")
    farm.male("Bruno")
    farm.pair("Alma", "Bruno", on=f"{days}d ago")
    if word == "impossible":
        with pytest.raises(ImpossibleGestation, match="at most 20 days"):
            farm.litter("Alma")
        return
    said = " ".join(map(str, farm.litter("Alma").warnings))
    assert ("days of gestation" in said) == (word == "odd")


def test_two_births_of_a_dam_need_a_gestation_between_them(couple: Farm) -> None:
    """In either order of writing them down; the sentence names both days."""
    couple.litter("Alma", born="100d ago")
    for born in ("80d ago", "120d ago"):
        with pytest.raises(TooSoonAfterBirth, match="20 days") as refusal:
            couple.litter("Alma", born=born)
        assert str(couple.day("100d ago")) in refusal.value.sentence
    couple.litter("Alma", born="today")


def test_a_dam_that_died_at_the_birth_bore_it(couple: Farm) -> None:
    """The day of both is one day."""
    couple.end("Alma", on="today")
    assert couple.litter("Alma").dam == "Alma"


def test_a_very_young_dam_is_warned_of(farm: Farm) -> None:
    """A year old: perhaps it was another tag."""
    farm.female("Alma", born="2025-03-09")
    assert any(
        "365 days old" in str(warning) for warning in farm.litter("Alma", sires="unknown").warnings
    )


def test_pups_that_do_not_fit_are_refused_or_overridden(couple: Farm) -> None:
    """30 cm of tank is too short for a newborn ray of 14 cm; --anyway says so and goes on."""
    couple.tank("S1", size="30cm")
    with pytest.raises(Exception, match="S1 is 30 cm long"):
        couple.litter("Alma", tank="S1")
    litter = couple.litter("Alma", tank="S1", anyway=True)
    assert litter.tank == "S1"
    assert any("30 cm long" in str(warning) for warning in litter.warnings)


def test_a_page_of_a_litter_shows_its_pups(couple: Farm) -> None:
    """Where each is, how wide, and who may be its sire."""
    couple.litter("Alma", "2F", sires=["Bruno=0.75", "unknown=0.25"], born="30d ago")
    couple.measure("26-01-1", "15cm", on="2d ago")
    couple.end("26-01-2", "sold")
    page = couple.ask(show_litter, code="26-01", today=TODAY)
    assert page.sires == ["Bruno=0.75", "unknown=0.25"]
    assert [(p.tag, p.status, p.tank, p.disc_width_mm) for p in page.pups] == [
        ("26-01-1", "present", "B1", 150),
        ("26-01-2", "sold", None, None),
    ]


def test_litters_are_listed_by_dam_and_since(couple: Farm) -> None:
    """The youngest first; whoever is asked for in any case."""
    couple.female("Bella")
    couple.litter("Bella", sires="unknown", born="2025-06-01")
    couple.litter("Alma")
    assert [one.litter for one in couple.ask(list_litters)] == ["26-01", "25-01"]
    assert [one.litter for one in couple.ask(list_litters, dam="bella")] == ["25-01"]
    since = TODAY - timedelta(days=1)
    assert [one.born for one in couple.ask(list_litters, since=since)] == [date(2026, 3, 9)]
