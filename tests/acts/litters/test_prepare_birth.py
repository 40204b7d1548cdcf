"""The birth room: when to part a dam, which tank takes her, and where her pups go."""

from datetime import timedelta

import pytest
from farm import Farm

from colony.acts.animals.page import show_animal
from colony.acts.litters.prepare import BirthPlan, prepare_birth
from colony.acts.tanks.tanks import move
from colony.commands.cli.remedies import sentence_of
from colony.refusals.litters import NoPupHere, NotDue
from colony.refusals.tanks import TankDoesNotFit


@pytest.fixture
def house(farm: Farm) -> Farm:
    """Alma, 50 cm wide, with Bruno in B1 and seen mating 60 days ago; a small and a large nursery."""
    farm.tank("B1", size="900cm")
    farm.tank("P1", size="80cm", role="nursery")
    farm.tank("P2", size="300cm", role="nursery")
    farm.female("Alma", width="50cm")
    farm.male("Bruno", width="45cm")
    farm.move("Alma", "Bruno", tank="B1", on="365d ago", anyway=True)
    farm.sign("Alma", on="60d ago", kind="copulation")
    return farm


def prepared(farm: Farm, dam: str = "Alma") -> BirthPlan:
    """How her birth is prepared."""
    plan: BirthPlan = farm.ask(prepare_birth, dam=dam, today=farm.today)
    return plan


def where(farm: Farm, tag: str) -> str | None:
    """The tank of an animal."""
    return farm.ask(show_animal, tag=tag, today=farm.today).tank  # type: ignore[no-any-return]


def test_a_dam_is_parted_before_her_days_of_peace_into_a_tank_that_takes_her(house: Farm) -> None:
    """P1 is 80 cm wide and she needs a metre; in P2 her pups are no reason against her."""
    plan = prepared(house)
    assert plan.tank == "P2"
    small = next(each for each in plan.others if each.tank == "P1")
    assert any("needs 100 cm" in why for why in small.against)
    parting = next(step for step in plan.steps if step.what.startswith("part her from Bruno"))
    assert parting.by == plan.earliest - timedelta(days=14)
    assert not parting.late
    bring = plan.steps[-1]
    assert bring.what == "bring the pups to P1 on the day of the birth"


def test_where_no_tank_takes_her_that_is_said(house: Farm) -> None:
    """Nothing is planned that cannot be done."""
    house.measure("Alma", "160cm")
    plan = prepared(house)
    assert plan.tank is None
    assert any("no tank takes her" in step.what for step in plan.steps)


def test_nobody_prepares_a_birth_that_nothing_speaks_for(house: Farm) -> None:
    """Ella swam with nobody."""
    house.female("Ella")
    with pytest.raises(NotDue, match="Nothing speaks for a birth of Ella"):
        prepared(house, "Ella")


def test_the_allotted_nursery_is_offered_at_a_birth_and_the_litter_moves_with_a_word(
    house: Farm,
) -> None:
    """The remedy of the warning is a command that works."""
    house.sign("Alma", on="120d ago", kind="copulation")
    done = house.litter("Alma", pups="2F1M")
    (offered,) = [w for w in done.warnings if "is kept for them" in str(w)]
    assert "colony tank move 'litter 26-01' P1" in sentence_of(offered)  # type: ignore[arg-type]
    house.move("litter", "26-01", tank="P2")
    assert {where(house, tag) for tag in done.pups} == {"P2"}
    for tag in done.pups:
        house.end(tag)
    with pytest.raises(NoPupHere, match="litter '26-01'"):
        house.do(move, tags=["litter 26-01"], tank="B1", on=house.today, today=house.today)


def test_a_dam_is_no_reason_against_her_own_pups(house: Farm) -> None:
    """Fifty centimetres to fourteen: with her the pups are let in, with Bruno they are not."""
    house.move("Alma", tank="P2", on="1d ago")
    house.litter("Alma", pups="2F1M", tank="P2")
    assert where(house, "26-01-1") == "P2"
    with pytest.raises(TankDoesNotFit, match="times as wide"):
        house.do(move, tags=["litter 26-01"], tank="B1", on=house.today, today=house.today)
