"""What a plan answers: the request, the edges, and why each animal is not in it."""

from dataclasses import replace
from datetime import timedelta
from typing import Any

import numpy as np
import pytest
from plain_colonies import TODAY, stock

from colony.planning.pairings.eligibility import Candidate
from colony.planning.pairings.plan import ProposedPlan
from colony.planning.pairings.planner import plan_pairings
from colony.planning.pairings.request import BreedingTank, PairingRequest, Stock, rare_share
from colony.refusals.pairings import CannotBePaired, PairsDoNotFit


def changed(colony: Stock, **facts: dict[str, Any]) -> Stock:
    """Change facts of some animals, by tag."""
    animals = tuple(replace(one, **facts.get(one.tag, {})) for one in colony.animals)
    return replace(colony, animals=animals)


def everybody(colony: Stock, **facts: object) -> Stock:
    """Change facts of all animals."""
    return replace(colony, animals=tuple(replace(one, **facts) for one in colony.animals))  # type: ignore[arg-type] # facts by name


def plan_of(colony: Stock, *tanks: BreedingTank, **request: Any) -> ProposedPlan:  # noqa: ANN401 - any wish
    """Plan with these request and tanks."""
    return plan_pairings(colony, PairingRequest(**request), tanks, today=TODAY)


def reasons(plan: ProposedPlan) -> dict[str, list[str]]:
    """Read the reasons of each animal left out, as ``rule: why``."""
    return {one.tag: [f"{r.name}: {r.text}" for r in one.reasons] for one in plan.left_out}


def pairs(plan: ProposedPlan) -> set[tuple[str, str]]:
    """Read the pairs of a plan by tag."""
    return {(pair.dam, pair.sire) for pair in plan.pairs}


def test_nobody_at_all_is_an_answer() -> None:
    """An empty colony has an empty plan, and a sentence."""
    plan = plan_of(Stock((), np.zeros((0, 0))))
    assert plan == ProposedPlan(
        notes=("no pair can be made: no female may be paired (there is none)",)
    )


def test_no_male_left_is_an_answer() -> None:
    """Without a male the plan is empty, says why, and gives each its reason."""
    held = {f"M{n}": {"held": "bite"} for n in range(2)}
    plan = plan_of(changed(stock(2, 2), **held))
    assert plan.notes == ("no pair can be made: no male may be paired (2 hold)",)
    assert reasons(plan)["F0"] == ["partner: no male may be paired"]
    assert reasons(plan)["M1"] == ["hold: health hold: bite"]


def test_one_candidate_is_an_answer() -> None:
    """A single female is left out because there is no male."""
    assert reasons(plan_of(stock(1, 0))) == {"F0": ["partner: no male may be paired"]}


def test_everybody_in_isolation_is_an_answer() -> None:
    """All isolated: nobody is planned, and each says until when; overridden, all are."""
    colony = everybody(stock(3, 2), isolated_until=TODAY + timedelta(days=9))
    plan = plan_of(colony)
    assert plan.notes == ("no pair can be made: no female may be paired (3 isolation)",)
    assert set(map(tuple, reasons(plan).values())) == {
        ("isolation: in isolation until 2024-06-10",)
    }
    freed = plan_of(colony, overridden=frozenset({"isolation"}))
    assert len(freed.pairs) == 3
    assert {r.name for pair in freed.pairs for r in pair.reasons} == {"isolation"}


def test_all_related_is_told() -> None:
    """When every pair is related the plan says so, and a limit leaves all out with the count."""
    kinship = np.full((4, 4), 0.25) + np.eye(4) / 4
    colony = replace(stock(2, 2), kinship=kinship)
    plan = plan_of(colony)
    assert len(plan.pairs) == 2
    assert "every pair that is open is related: the least F is 0.2500" in plan.notes
    barred = plan_of(colony, highest_inbreeding=0.125)
    assert barred.pairs == ()
    assert reasons(barred)["F0"] == ["partner: no male for it: 2 too related (least F 0.2500)"]


def test_the_limit_itself_is_allowed() -> None:
    """An F equal to the limit is not over it, whatever rounding did."""
    colony = replace(stock(1, 1), kinship=np.array([[0.5, 0.1 + 0.2], [0.1 + 0.2, 0.5]]))
    assert len(plan_of(colony, highest_inbreeding=0.3).pairs) == 1


def test_a_species_without_a_male_is_told() -> None:
    """Females of a species without a male are left out with the reason; crosses are asked for."""
    colony = changed(stock(3, 2), F0={"species": "motoro"})
    plan = plan_of(colony, wanted={"motoro": 1})
    assert reasons(plan)["F0"] == ["partner: no male for it: 2 of another species or line"]
    assert "litters of motoro: 1 asked for, 0 can be" in plan.notes
    crossed = plan_of(colony, overridden=frozenset({"species:F0"}))
    named = {pair.dam: [r.name for r in pair.reasons] for pair in crossed.pairs}
    assert named == {"F0": ["species"], "F1": [], "F2": []}


def test_a_male_serves_no_more_than_he_may() -> None:
    """A male's own capacity goes before the plan's, and who is left out says so."""
    colony = changed(stock(4, 1), M0={"most_females": 2})
    plan = plan_of(colony)
    assert len(plan.pairs) == 2
    out = [one for tag, one in reasons(plan).items() if tag.startswith("F")]
    why = "place: eligible, but the plan had no place: the males open to her serve others: M0"
    assert out == [[why], [why]]


def test_a_running_pairing_is_kept_unless_it_may_be_broken() -> None:
    """Its female is not planned and takes up his capacity; overridden, both are free."""
    colony = changed(stock(3, 1), F0={"in_pairing_with": ("M0",)}, M0={"in_pairing_with": ("F0",)})
    kept = plan_of(colony, most_females=2)
    assert len(kept.pairs) == 1
    assert reasons(kept)["F0"] == ["paired: already with M0"]
    assert len(plan_of(colony, most_females=2, overridden=frozenset({"paired:F0"})).pairs) == 2


def test_litters_are_counted_by_species_and_line() -> None:
    """Litters wanted of a line are at most so many; those wanted come before others."""
    colony = changed(stock(5, 3), F0={"line": "coal"}, F1={"line": "coal"}, F2={"line": "coal"})
    plan = plan_of(colony, wanted={"coal": 2})
    dams = {dam for dam, _ in pairs(plan)}
    assert len(dams) == 4
    assert len(dams & {"F0", "F1", "F2"}) == 2
    one_male = changed(stock(5, 1), F0={"line": "coal"}, F3={"line": "coal"})
    few = plan_of(one_male, wanted={"coal": 2}, most_females=2)
    assert {dam for dam, _ in pairs(few)} == {"F0", "F3"}
    scarce = plan_of(colony, wanted={"coal": 2}, litters=2)
    assert {dam for dam, _ in pairs(scarce)} <= {"F0", "F1", "F2"}
    assert any(
        "2 litters of coal asked for are those of others" in str(v) for v in reasons(plan).values()
    )


def test_pairs_that_must_be_are_and_must_not_be_are_not() -> None:
    """What is asked for by name is kept, at a cost that is never negative."""
    colony = stock(5, 4, seed=2)
    free = plan_of(colony)
    asked = next((d, s) for d in ("F0", "F1") for s in ("M0", "M1") if (d, s) not in pairs(free))
    forced = plan_of(colony, required_pairs=frozenset({asked}))
    barred = plan_of(colony, forbidden_pairs=frozenset(pairs(free)))
    assert asked in pairs(forced)
    assert not pairs(barred) & pairs(free)
    assert min(forced.objective, barred.objective) >= free.objective - 1e-9


@pytest.mark.parametrize(
    ("pair", "facts", "why"),
    [
        (("F0", "M0"), {"held": "bite"}, "F0: health hold: bite"),
        (("F0", "M0"), {"species": "motoro"}, "a cross of species"),
        (("M0", "F0"), {}, "a dam is a female and a sire a male"),
        (("F0", "Zora"), {}, "Zora is not among the animals"),
    ],
)
def test_a_pair_that_must_be_and_may_not_is_refused(
    pair: tuple[str, str], facts: dict[str, Any], why: str
) -> None:
    """The refusal names the pair and what stands against it."""
    with pytest.raises(CannotBePaired, match=why):
        plan_of(changed(stock(2, 2), F0=facts), required_pairs=frozenset({pair}))


def test_a_pair_over_the_limit_is_refused_with_its_f() -> None:
    """The hard limit holds for pairs that are asked for too."""
    colony = replace(stock(1, 1), kinship=np.array([[0.5, 0.25], [0.25, 0.5]]))
    with pytest.raises(CannotBePaired, match=r"F of the pups would be 0\.2500, over the limit"):
        plan_of(colony, required_pairs=frozenset({("F0", "M0")}), highest_inbreeding=0.125)


def test_pairs_that_cannot_be_together_are_refused() -> None:
    """Two sires for a dam, too many females, too few litters or no tank: a sentence each."""
    both = frozenset({("F0", "M0"), ("F0", "M1")})
    two = frozenset({("F0", "M0"), ("F1", "M0")})
    with pytest.raises(PairsDoNotFit, match="F0 can have 1"):
        plan_of(stock(2, 2), required_pairs=both)
    with pytest.raises(PairsDoNotFit, match="M0 can have 1"):
        plan_of(stock(2, 2), required_pairs=two, most_females=1)
    with pytest.raises(PairsDoNotFit, match="1 litters are asked for"):
        plan_of(stock(2, 2), required_pairs=two, litters=1)
    with pytest.raises(PairsDoNotFit, match="the tanks"):
        plan_of(stock(2, 2), BreedingTank("T0", 3.5e5), required_pairs=two)


def test_without_an_animal_it_is_left_out_as_asked() -> None:
    """What-if: an animal taken out of the plan is named with that reason."""
    plan = plan_of(stock(3, 2), excluded=frozenset({"M0"}))
    assert {sire for _, sire in pairs(plan)} == {"M1"}
    assert reasons(plan)["M0"] == ["without: left out as asked"]


def test_doubt_counts_as_expected_or_at_its_worst() -> None:
    """A sire in doubt: by the mean the one is best, at its worst the other, and F shows both."""
    kinship = np.array([[0.5, 0.05, 0.1], [0.05, 0.5, 0.0], [0.1, 0.0, 0.5]])
    worst = kinship.copy()
    worst[0, 1] = worst[1, 0] = 0.25
    colony = replace(stock(1, 2), kinship=kinship, worst_kinship=worst)
    (expected,) = plan_of(colony).pairs
    (cautious,) = plan_of(colony, at_worst=True).pairs
    assert (expected.sire, expected.expected_inbreeding, expected.worst_inbreeding) == (
        "M0",
        0.05,
        0.25,
    )
    assert (cautious.sire, cautious.worst_inbreeding) == ("M1", 0.1)
    assert pairs(plan_of(colony, at_worst=True, highest_inbreeding=0.2)) == {("F0", "M1")}


def test_under_represented_founders_are_kept_when_wished() -> None:
    """Of two equal males the one with the rare founder's genes is taken."""
    share = rare_share(np.array([[1.0, 0.0], [1.0, 0.0], [0.0, 1.0]]), np.array([0.9, 0.1]))
    assert share.tolist() == pytest.approx([0.0, 0.0, 0.8])
    kinship = np.array([[0.5, 0.0, 0.01], [0.0, 0.5, 0.0], [0.01, 0.0, 0.5]])
    colony = replace(stock(1, 2), kinship=kinship, rare=share)
    assert pairs(plan_of(colony)) == {("F0", "M0")}
    assert pairs(plan_of(colony, founder_weight=1.0)) == {("F0", "M1")}


def test_ties_are_broken_by_fewest_moves() -> None:
    """Among equal plans the one that leaves pairs together is taken, with and without tanks."""
    unrelated = np.eye(6) / 2
    colony = replace(stock(3, 3), kinship=unrelated, homes=("T0", "T1", "T2", "T2", "T0", "T1"))
    stay = {("F0", "M1"), ("F1", "M2"), ("F2", "M0")}
    for tanks in ((), tuple(BreedingTank(f"T{n}", 1e6) for n in range(3))):
        plan = plan_of(colony, *tanks, most_females=1)
        assert pairs(plan) == stay
        assert plan.moves == ()


def test_moves_are_a_work_list() -> None:
    """A female goes to her male; in a group's tank, who is not of the group makes room."""
    colony = replace(stock(2, 1), homes=("A", "B", "C"))
    moves = [(m.tag, m.from_tank, m.to_tank) for m in plan_of(colony).moves]
    assert moves == [("F0", "A", "C"), ("F1", "B", "C")]
    one = plan_of(
        colony, BreedingTank("A", 1e6), required_pairs=frozenset({("F1", "M0")}), litters=1
    )
    moves = [(m.tag, m.from_tank, m.to_tank) for m in one.moves]
    assert moves == [("F0", "A", None), ("F1", "B", "A"), ("M0", "C", "A")]


def test_a_group_that_runs_keeps_its_tank() -> None:
    """A male with a female he keeps is joined where he is, if her disc leaves room."""
    colony = changed(
        replace(stock(3, 2), homes=("A", "B", "B", "A", "B")),
        F0={"in_pairing_with": ("M0",), "width_mm": 450.0},
        M0={"in_pairing_with": ("F0",)},
    )
    wide, narrow = (BreedingTank("A", room) for room in (8e5, 4e5))
    spare = BreedingTank("B", 8e5)
    for dam, tank in ((("F1"), wide), (("F1"), narrow)):
        plan = plan_of(colony, tank, spare, forbidden_pairs=frozenset({(dam, "M1")}))
        where = {pair.dam: (pair.sire, pair.tank) for pair in plan.pairs}
        assert where.get(dam) == (("M0", "A") if tank is wide else None)
        assert where["F2"] in {("M1", "B"), ("M0", "A")}


def test_a_large_disc_takes_more_room_than_a_small_one() -> None:
    """Of three females two fit beside the male, but not with the large one, though least kin."""
    widths = {"F0": 430.0, "F1": 430.0, "F2": 520.0, "M0": 350.0}
    colony = changed(stock(3, 1), **{tag: {"width_mm": width} for tag, width in widths.items()})
    kinship = np.eye(4) / 2
    kinship[:2, 3] = kinship[3, :2] = 0.1
    room = np.pi / 4 * (350**2 + 2 * 430**2)
    plan = plan_of(replace(colony, kinship=kinship), BreedingTank("T0", room))
    assert pairs(plan) == {("F0", "M0"), ("F1", "M0")}
    why = "place: eligible, but the plan had no place: no tank has room for her beside a male "
    assert reasons(plan)["F2"] == [why + "open to her: M0"]


def test_no_tank_large_enough_is_told() -> None:
    """A pair that no tank holds is left out for that."""
    plan = plan_of(stock(1, 1), BreedingTank("T0", 9e5, widest_mm=400))
    assert reasons(plan)["F0"] == ["partner: no male for it: 1 without a tank for both"]


def test_an_animal_of_unknown_sex_has_no_place() -> None:
    """A plan must know whether it is a dam or a sire, even if the rule is overridden."""
    colony = changed(stock(2, 1), F1={"sex": "U"})
    told = reasons(plan_of(colony, overridden=frozenset({"sex"})))
    assert told["F1"] == ["sex: a plan must know its sex: look for claspers"]


def test_a_width_never_measured_counts_as_mature() -> None:
    """An adult without a width takes the room of a mature one, not none."""
    unknown = Candidate("F0", "F", "leopoldi", mature_width_mm=430.0, mature_seen=True)
    male = replace(unknown, tag="M0", sex="M", mature_width_mm=340.0)
    colony = Stock((unknown, male), np.eye(2) / 2)
    assert plan_of(colony, BreedingTank("T0", 2.3e5)).pairs == ()
    assert len(plan_of(colony, BreedingTank("T0", 2.4e5)).pairs) == 1


def test_the_solver_prints_nothing(capfd: pytest.CaptureFixture[str]) -> None:
    """A JSON document on stdout stays one: no word of the solver gets out."""
    plan_of(stock(24, 10, seed=3))
    assert capfd.readouterr() == ("", "")
