"""The plan of all pairings, asked of a book."""

from typing import Any

import pytest
from farm import Farm
from planning_house import pairs, proposed, reasons, settled

from colony.planning.pairings.future import FutureDraw
from colony.refusals.animals import NoSuchSpecies, NoSuchTag
from colony.refusals.base import Refusal
from colony.refusals.pairings import (
    CannotBePaired,
    KindTwice,
    NoSuchKind,
    NoSuchRule,
    NothingToCompare,
    PairsDoNotFit,
)

KIN = frozenset({"kin"})
"""Near kin is not held against anybody."""


def test_a_proposal_writes_nothing(farm: Farm) -> None:
    """Every row, the journal's too, is as it was."""
    settled(farm)
    before = farm.written()
    assert len(pairs(proposed(farm, use_tanks=True))) == 3
    assert farm.written() == before


@pytest.mark.parametrize(
    ("dam", "sire", "f"),
    # Wright 1922, Am. Nat. 56:330-338: F of the pups of full sibs, of a parent and its
    # offspring, and of half sibs; of the unrelated it is 0.
    [("Gala", "Hugo", 0.25), ("Alma", "Hugo", 0.25), ("Ines", "Hugo", 0.125), ("Edda", "Hugo", 0)],
)
def test_the_f_of_a_pair_is_that_of_published_matings(
    farm: Farm, dam: str, sire: str, f: float
) -> None:
    """Kinship is read from the book: Gala and Hugo are full sibs, Ines has their sire."""
    settled(farm)
    farm.female("Gala", born="2021", width="50cm", dam="Alma", sires="Bruno")
    farm.male("Hugo", born="2021", width="45cm", dam="Alma", sires="Bruno")
    farm.female("Ines", born="2021", width="50cm", dam="Caro", sires="Bruno")
    plan = proposed(farm, required_pairs=frozenset({(dam, sire)}), overridden=KIN).plan
    asked = next(pair for pair in plan.pairs if pair.dam == dam)
    assert asked.sire == sire
    assert asked.expected_inbreeding == pytest.approx(f, abs=1e-12)


def test_a_doubtful_sire_counts_as_expected_or_at_its_worst(farm: Farm) -> None:
    """Two sires, one half each: pups with either are 0.125 inbred, with him for sure 0.25.

    By enumeration over both sires; parent x offspring 0.25 is Wright 1922.
    """
    settled(farm)
    farm.female("Gala", born="2021", width="50cm", dam="Alma", sires=["Bruno=0.5", "Dino=0.5"])
    asked = frozenset({("Gala", "Bruno")})
    for at_worst in (False, True):
        plan = proposed(farm, required_pairs=asked, at_worst=at_worst, overridden=KIN).plan
        pair = next(pair for pair in plan.pairs if pair.dam == "Gala")
        assert pair.expected_inbreeding == pytest.approx(0.125, abs=1e-12)
        assert pair.worst_inbreeding == pytest.approx(0.25 if at_worst else 0.125, abs=1e-12)
    with pytest.raises(CannotBePaired, match=r"0\.2500, over the limit"):
        proposed(farm, required_pairs=asked, at_worst=True, highest_inbreeding=0.2)


def test_names_are_taken_in_any_case(farm: Farm) -> None:
    """Tags, rules of one animal, species and lines are found as the book writes them."""
    settled(farm)
    farm.edit("Caro", line="Coal")
    farm.hold("Edda")
    plan = proposed(
        farm,
        required_pairs=frozenset({("alma", "DINO")}),
        forbidden_pairs=frozenset({("caro", "dino")}),
        excluded=frozenset({"BRUNO"}),
        overridden=frozenset({"hold:edda"}),
        wanted={"coal": 1},
        species="p. leopoldi",
    )
    assert pairs(plan) == {"Alma": "Dino", "Edda": "Dino"}
    assert reasons(plan)["Bruno"] == ["without"]
    assert [reason.name for pair in plan.plan.pairs for reason in pair.reasons] == ["hold"]


@pytest.mark.parametrize(
    ("facts", "refusal", "sentence"),
    [
        ({"excluded": frozenset({"Brunno"})}, NoSuchTag, "did you mean Bruno"),
        ({"required_pairs": frozenset({("Alma", "Dinno")})}, NoSuchTag, "did you mean Dino"),
        ({"forbidden_pairs": frozenset({("Allma", "Dino")})}, NoSuchTag, "did you mean Alma"),
        ({"overridden": frozenset({"rest:Carro"})}, NoSuchTag, "did you mean Caro"),
        ({"overridden": frozenset({"luck"})}, NoSuchRule, "use gone, sex, age"),
        ({"species": "leopoldii"}, NoSuchSpecies, "use leopoldi"),
        ({"wanted": {"coal": 1}}, NoSuchKind, "use leopoldi, .* or Ember"),
        ({"wanted": {"leopoldi": 1, "P. leopoldi": 2}}, KindTwice, "asked for twice"),
        ({"compare": True}, NothingToCompare, "without"),
        ({"required_pairs": frozenset({("Bruno", "Alma")})}, CannotBePaired, "a dam is a female"),
        ({"required_pairs": frozenset({("Alma", "Caro")})}, CannotBePaired, "a dam is a female"),
        (
            {"required_pairs": frozenset({("Alma", "Fritz")})},
            CannotBePaired,
            "Fritz: not here: sold",
        ),
        (
            {
                "required_pairs": frozenset({("Alma", "Dino")}),
                "forbidden_pairs": frozenset({("alma", "dino")}),
            },
            CannotBePaired,
            "kept apart",
        ),
        (
            {"required_pairs": frozenset({("Alma", "Dino")}), "excluded": frozenset({"Alma"})},
            CannotBePaired,
            "Alma: left out as asked",
        ),
        (
            {"required_pairs": frozenset({("Alma", "Dino"), ("Alma", "Bruno")})},
            PairsDoNotFit,
            "Alma can have 1",
        ),
        (
            {"required_pairs": frozenset({("Alma", "Dino"), ("Edda", "Bruno")}), "litters": 1},
            PairsDoNotFit,
            "1 litters",
        ),
    ],
)
def test_what_cannot_be_asked_is_refused_in_one_sentence(
    farm: Farm, facts: dict[str, Any], refusal: type[Refusal], sentence: str
) -> None:
    """The sentence names the nearest tag, the rules or names there are, or what contradicts."""
    settled(farm)
    farm.edit("Edda", line="Ember")
    farm.male("Fritz", width="45cm")
    farm.end("Fritz", how="sold")
    before = farm.written()
    with pytest.raises(refusal, match=sentence) as refused:
        proposed(farm, **facts)
    assert "\n" not in refused.value.sentence
    assert farm.written() == before


def test_an_empty_book_has_no_plan_and_says_so(farm: Farm) -> None:
    """One sentence, and nobody is left out."""
    plan = proposed(farm, use_tanks=True, draw=FutureDraw(generations=2)).plan
    assert plan.notes == ("no pair can be made: no female may be paired (there is none)",)
    assert (plan.pairs, plan.left_out) == ((), ())


def test_one_animal_has_no_plan(farm: Farm) -> None:
    """A female alone is told that no male may be paired."""
    farm.female("Alma", width="50cm")
    plan = proposed(farm)
    assert plan.plan.notes == ("no pair can be made: no male may be paired (there is none)",)
    assert reasons(plan) == {"Alma": ["partner"]}


def test_everybody_in_isolation_has_no_plan(farm: Farm) -> None:
    """The sentence says why nobody may be paired, and each animal has its reason."""
    farm.tank("Q1", role="intake")
    for tag, sex in (("Alma", "F"), ("Bruno", "M"), ("Caro", "F")):
        farm.animal(
            tag, sex=sex, born="2019", species="leopoldi", width="50cm", arrived="3d ago", tank="Q1"
        )
    plan = proposed(farm)
    assert plan.plan.notes == ("no pair can be made: no female may be paired (2 isolation)",)
    assert reasons(plan) == {tag: ["isolation"] for tag in ("Alma", "Bruno", "Caro")}


def test_no_male_is_left_when_the_only_ones_are_held(farm: Farm) -> None:
    """Held males are counted by their reason; each can be overridden by name."""
    settled(farm)
    farm.hold("Bruno")
    farm.hold("Dino")
    assert proposed(farm).plan.notes == ("no pair can be made: no male may be paired (2 hold)",)
    freed = proposed(farm, overridden=frozenset({"hold:Dino"}))
    assert set(pairs(freed).values()) == {"Dino"}
    assert reasons(freed) == {"Bruno": ["hold"]}


def test_all_related_is_planned_and_said(farm: Farm) -> None:
    """Only full sibs: left out, unless kin is ignored; then the plan has them, and names the least F there is (Wright 1922: 0.25)."""
    farm.female("Alma", width="50cm")
    farm.male("Bruno", width="45cm")
    for tag, sex in (("Gala", "F"), ("Hugo", "M")):
        farm.animal(
            tag,
            sex=sex,
            born="2021",
            species="leopoldi",
            width="50cm",
            dam="Alma",
            sires="Bruno",
        )
    assert proposed(farm, excluded=frozenset({"Alma", "Bruno"})).plan.pairs == ()
    plan = proposed(farm, excluded=frozenset({"Alma", "Bruno"}), overridden=KIN).plan
    assert plan.mean_expected_inbreeding == pytest.approx(0.25, abs=1e-12)
    assert plan.notes == ("every pair that is open is related: the least F is 0.2500",)
    none = proposed(farm, excluded=frozenset({"Alma", "Bruno"}), highest_inbreeding=0.2).plan
    assert none.pairs == ()
    assert len(none.notes) == 1


def test_one_species_without_a_male_leaves_only_its_females_out(farm: Farm) -> None:
    """A lone motoro has no partner; a cross is made only when asked, and then named."""
    settled(farm)
    farm.female("Mira", species="motoro", width="50cm")
    plan = proposed(farm)
    assert "Mira" not in pairs(plan)
    assert reasons(plan)["Mira"] == ["partner"]
    crossed = proposed(farm, overridden=frozenset({"species:Mira"}))
    pair = next(one for one in crossed.plan.pairs if one.dam == "Mira")
    assert [reason.name for reason in pair.reasons] == ["species"]
    alone = proposed(farm, species="motoro")
    assert alone.plan.notes == ("no pair can be made: no male may be paired (there is none)",)


def test_a_book_without_tanks_has_no_moves(farm: Farm) -> None:
    """Where nobody has a place, nobody is carried."""
    farm.female("Alma", width="50cm")
    farm.male("Bruno", width="45cm")
    assert proposed(farm).plan.moves == ()


def test_a_what_if_stands_beside_the_plan_without_it(farm: Farm) -> None:
    """What the forced pair costs is the difference of the two plans, figure by figure."""
    settled(farm)
    farm.female("Gala", born="2021", width="50cm", dam="Alma", sires="Bruno")
    asked = proposed(
        farm, required_pairs=frozenset({("Gala", "Bruno")}), compare=True, overridden=KIN
    )
    assert asked.comparison is not None
    assert ("Gala", "Bruno") in {(one.dam, one.sire) for one in asked.comparison.only_second}
    figures = {measure.name: measure for measure in asked.comparison.measures}
    greatest = figures["greatest_expected_inbreeding"]
    assert greatest.first == 0
    assert greatest.second == pytest.approx(0.25)  # Wright 1922
    assert figures["objective"].difference > 0


def test_the_futures_are_drawn_by_the_seed(farm: Farm) -> None:
    """The same seed gives the same futures; diversity is 1 less mean kinship (Lacy 1995)."""
    settled(farm)
    drawn = [
        proposed(farm, draw=FutureDraw(generations=2, seed=seed)).futures for seed in (1, 1, 2)
    ]
    assert drawn[0] == drawn[1] != drawn[2]
    assert [future.way for future in drawn[0]] == ["plan", "least kin first", "random"]
    for future in drawn[0]:
        assert [one.generation for one in future.ahead] == [1, 2]
        assert all(one.gene_diversity == 1 - one.mean_kinship for one in future.ahead)


def test_a_tiny_time_limit_still_answers(farm: Farm) -> None:
    """A plan comes back, proved or not, and the gap is no secret."""
    settled(farm)
    plan = proposed(farm, seconds=0.001).plan
    assert plan.pairs or plan.notes
    assert plan.gap >= 0
