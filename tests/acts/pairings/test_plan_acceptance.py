"""A plan that is accepted: one act, and one step back."""

import pytest
from farm import Farm
from planning_house import accepted, kept_rows, pairs, proposed, settled

from colony.acts.book.undo import undo_last
from colony.acts.pairings.listing import list_pairings
from colony.acts.tanks.moves import list_moves
from colony.refusals.animals import NotYet
from colony.refusals.pairings import EndsBeforeStart, NothingToAccept


def running(farm: Farm) -> dict[str, list[str]]:
    """The sires of each dam whose pairing runs."""
    return {pairing.dam: pairing.sires for pairing in farm.ask(list_pairings, today=farm.today)}


def acts(farm: Farm) -> list[str]:
    """What the journal tells, act by act."""
    return [told for (told,) in farm.rows("SELECT summary FROM journal ORDER BY id")]


def test_an_accepted_plan_is_the_plan_that_was_shown(farm: Farm) -> None:
    """Its pairings run from that day, its moves stand on the work list."""
    settled(farm)
    plan = proposed(farm)
    done = accepted(farm)
    assert running(farm) == {dam: [sire] for dam, sire in pairs(plan).items()}
    assert done.started == tuple(pairs(plan))
    moves = farm.ask(list_moves, today=farm.today)
    assert {(move.tag, move.to_tank) for move in moves} == {
        (move.tag, move.to_tank) for move in plan.plan.moves
    }
    assert moves
    assert {move.why for move in moves} == {"pairing plan"}


def test_accepting_is_one_act_and_one_step_back(farm: Farm) -> None:
    """One row of the journal that begins with the plan; undo leaves every row as it was."""
    settled(farm)
    farm.pair("Alma", "Bruno")
    before, told = kept_rows(farm), acts(farm)
    accepted(
        farm,
        use_tanks=True,
        overridden=frozenset({"paired"}),
        required_pairs=frozenset({("Alma", "Dino")}),
    )
    assert kept_rows(farm) != before
    (new,) = acts(farm)[len(told) :]
    assert new.startswith("a plan of 3 pairings was accepted; Alma was separated")
    farm.do(undo_last)
    assert kept_rows(farm) == before


def test_a_pairing_that_the_plan_breaks_is_ended_first(farm: Farm) -> None:
    """Two dams that exchange their sires are both separated before either is paired."""
    settled(farm)
    farm.pair("Alma", "Bruno")
    farm.pair("Caro", "Dino")
    done = accepted(
        farm,
        overridden=frozenset({"paired"}),
        required_pairs=frozenset({("Alma", "Dino"), ("Caro", "Bruno")}),
        excluded=frozenset({"Edda"}),
    )
    assert set(done.ended) == {"Alma", "Caro"}
    assert running(farm) == {"Alma": ["Dino"], "Caro": ["Bruno"]}
    ended = farm.rows("SELECT count(*) FROM pairing WHERE ended = ?", farm.today.isoformat())
    assert ended == [(2,)]


def test_a_pairing_that_is_in_the_plan_already_runs_on(farm: Farm) -> None:
    """It is not ended and begun anew: the day she came to him would be lost."""
    settled(farm)
    farm.pair("Alma", "Bruno", on="40d ago")
    done = accepted(
        farm,
        overridden=frozenset({"paired"}),
        required_pairs=frozenset({("Alma", "Bruno")}),
        litters=1,
    )
    assert (done.kept, done.started, done.ended) == (("Alma",), (), ())
    assert farm.rows("SELECT started, ended FROM pairing") == [
        (farm.day("40d ago").isoformat(), None)
    ]


def test_a_dam_with_two_sires_of_whom_the_plan_takes_one_is_paired_anew(farm: Farm) -> None:
    """Who else could have sired her pups ends that day."""
    settled(farm)
    farm.pair("Alma", "Bruno", "Dino", on="40d ago")
    done = accepted(
        farm,
        overridden=frozenset({"paired"}),
        required_pairs=frozenset({("Alma", "Bruno")}),
        litters=1,
    )
    assert (done.kept, done.started, done.ended) == ((), ("Alma",), ("Alma",))
    assert running(farm) == {"Alma": ["Bruno"]}


def test_a_pairing_that_the_moves_carry_apart_is_ended(farm: Farm) -> None:
    """Dino keeps Caro in B2; the tank is to be Alma's and his, and Caro makes room."""
    settled(farm)
    farm.pair("Caro", "Dino")
    done = accepted(
        farm,
        use_tanks=True,
        overridden=frozenset({"paired"}),
        required_pairs=frozenset({("Alma", "Dino")}),
        excluded=frozenset({"Caro", "Bruno", "Edda"}),
    )
    assert done.ended == ("Caro",)
    assert running(farm) == {"Alma": ["Dino"]}


def test_who_must_make_room_is_named_and_not_listed(farm: Farm) -> None:
    """The plan does not say where they go, so the work list cannot; the breeder is told."""
    settled(farm)
    farm.female("Uta", width="10cm", tank="B1")
    farm.female("Vera", width="50cm", tank="B1")
    farm.hold("Vera")
    plan = proposed(farm, use_tanks=True).plan
    homeless = {move.tag for move in plan.moves if move.to_tank is None}
    done = accepted(farm, use_tanks=True)
    assert homeless
    assert set(done.homeless) == homeless
    listed = {move.tag for move in farm.ask(list_moves, today=farm.today)}
    assert listed == set(done.listed)
    assert not listed & homeless


def test_a_plan_without_a_pair_is_not_accepted(farm: Farm) -> None:
    """The refusal gives the reason of the plan, and the journal has no row of it."""
    farm.female("Alma", width="50cm")
    before = farm.written()
    with pytest.raises(NothingToAccept, match="no male may be paired"):
        accepted(farm)
    assert farm.written() == before


@pytest.mark.parametrize(("on", "refusal"), [("2026-03-10", NotYet), ("60d ago", EndsBeforeStart)])
def test_a_day_that_cannot_be_writes_nothing_at_all(
    farm: Farm, on: str, refusal: type[Exception]
) -> None:
    """A plan for tomorrow, or from before a pairing it breaks began: all or nothing."""
    settled(farm)
    farm.pair("Alma", "Bruno", on="30d ago")
    before = farm.written()
    with pytest.raises(refusal):
        accepted(
            farm,
            on=on,
            overridden=frozenset({"paired"}),
            required_pairs=frozenset({("Alma", "Dino")}),
        )
    assert farm.written() == before
