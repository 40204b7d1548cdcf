"""Partners of one animal, ranked, and the reasons against everybody else."""

import pytest
from farm import TODAY, Farm
from planning_house import settled

from colony.acts.book.sample import make_sample_book
from colony.acts.litters.due import due_litters
from colony.acts.pairings.pairings import end_pairing
from colony.acts.pairings.partners import Picked, pick_partners
from colony.refusals.animals import NoSuchTag
from colony.refusals.pairings import NoSuchRule, PartnerNeedsSex
from colony.store.book import open_book


def pick(farm: Farm, tag: str, *overridden: str) -> Picked:
    """Who may be paired with an animal."""
    picked: Picked = farm.ask(
        pick_partners, tag=tag, overridden=frozenset(overridden), today=farm.today
    )
    return picked


def why(picked: Picked) -> dict[str, list[str]]:
    """The rules against each animal that is left out."""
    return {
        animal.tag: [reason.partition(":")[0] for reason in animal.reasons]
        for animal in picked.left_out
    }


def test_partners_stand_least_related_first(farm: Farm) -> None:
    """An unrelated male, her half brother (0.125), her brother and her sire (0.25): Wright 1922."""
    settled(farm)
    farm.female("Gala", born="2021", width="50cm", dam="Alma", sires="Bruno")
    farm.male("Hugo", born="2021", width="45cm", dam="Alma", sires="Bruno")
    farm.male("Ivo", born="2021", width="45cm", dam="Caro", sires="Bruno")
    partners = pick(farm, "gala", "kin").partners
    assert [animal.tag for animal in partners][:2] == ["Dino", "Ivo"]
    assert {animal.tag: animal.expected_inbreeding for animal in partners} == pytest.approx(
        {"Dino": 0.0, "Ivo": 0.125, "Hugo": 0.25, "Bruno": 0.25}, abs=1e-12
    )
    assert all(animal.kinship == animal.expected_inbreeding for animal in partners)


def test_equal_kinship_is_ranked_by_mean_kinship(farm: Farm) -> None:
    """Bruno has two young here and Dino none: the rarer genes come first (Ballou & Lacy 1995).

    Mean kinship over the five here, oneself included: Bruno (0.5 + 0.25 + 0.25) / 5, Dino 0.5 / 5.
    """
    farm.female("Alma", width="50cm")
    for tag in ("Bruno", "Dino"):
        farm.male(tag, width="45cm")
    for tag in ("Uwe", "Udo"):
        farm.male(tag, born="2025", width="15cm", sires="Bruno")
    partners = pick(farm, "Alma").partners
    assert [animal.tag for animal in partners] == ["Dino", "Bruno"]
    assert [animal.mean_kinship for animal in partners] == pytest.approx([0.1, 0.2], abs=1e-12)


def test_everybody_else_is_left_out_with_all_reasons(farm: Farm) -> None:
    """Who misses least comes first, those who can never be partners last."""
    settled(farm)
    farm.hold("Bruno")
    farm.male("Kalle", born="2026", width="14cm", species="motoro")
    farm.end("Dino", how="sold")
    picked = pick(farm, "Alma")
    assert picked.partners == []
    assert why(picked) == {
        "Bruno": ["hold"],
        "Kalle": ["age", "width", "species"],
        "Caro": ["same_sex"],
        "Dino": ["gone"],
        "Edda": ["same_sex"],
    }
    assert [animal.tag for animal in picked.left_out][:2] == ["Bruno", "Kalle"]


def test_a_rule_is_overridden_for_all_or_for_one_in_any_case(farm: Farm) -> None:
    """The reason stays beside the partner, so that a cross is named as one."""
    settled(farm)
    farm.hold("Bruno")
    farm.hold("Dino")
    everybody = {animal.tag: animal.reasons for animal in pick(farm, "Alma", "hold").partners}
    assert everybody == {
        "Bruno": ["hold: health hold: a sore"],
        "Dino": ["hold: health hold: a sore"],
    }
    assert [animal.tag for animal in pick(farm, "Alma", "hold:DINO").partners] == ["Dino"]


def test_one_that_is_gone_is_judged_when_it_is_asked_about(farm: Farm) -> None:
    """A father who was sold and may come back: his kinship is 0.25 (Wright 1922), not nothing.

    The mean is over those who are here only: (0.25 with Alma + 0 with Dino) / 2.
    """
    farm.male("Bruno", width="45cm")
    farm.male("Dino", width="45cm")
    farm.female("Alma", born="2022", width="50cm", sires="Bruno")
    farm.end("Bruno", how="sold")
    assert why(pick(farm, "Alma")) == {"Bruno": ["gone"]}
    back = {animal.tag: animal for animal in pick(farm, "Alma", "gone:bruno", "kin").partners}
    assert (back["Bruno"].kinship, back["Bruno"].mean_kinship) == pytest.approx((0.25, 0.125))
    assert back["Dino"].kinship == 0


def test_a_female_only_kept_with_a_male_is_not_taken_for_gravid(farm: Farm) -> None:
    """However long ago they were parted: the due list calls her possible, no rule bars her."""
    settled(farm)
    farm.pair("Alma", "Bruno", on="400d ago")
    farm.do(end_pairing, dam="Alma", on=farm.day("390d ago"), today=farm.today)
    assert [animal.tag for animal in pick(farm, "Bruno").partners][:1] == ["Alma"]


def test_the_same_sex_is_reason_enough_unless_it_is_set_aside(farm: Farm) -> None:
    """A held female is left out for her sex alone; judged in full when that was overridden."""
    settled(farm)
    farm.hold("Caro")
    assert why(pick(farm, "Alma"))["Caro"] == ["same_sex"]
    assert why(pick(farm, "Alma", "same_sex:caro"))["Caro"] == ["hold"]
    assert why(pick(farm, "Alma", "same_sex:caro"))["Edda"] == ["same_sex"]


def test_her_own_reasons_are_cautions(farm: Farm) -> None:
    """She is asked about before she is free, and told so."""
    settled(farm)
    farm.pair("Alma", "Bruno", on="40d ago")
    farm.sign("Alma", on="38d ago", kind="copulation")
    picked = pick(farm, "Alma")
    assert [caution.partition(":")[0] for caution in picked.cautions] == ["gravid", "paired"]
    assert {animal.tag for animal in picked.partners} == {"Bruno", "Dino"}


@pytest.mark.parametrize(
    ("tag", "rule", "refusal", "told"),
    [
        ("Allma", "rest", NoSuchTag, "did you mean Alma"),
        ("Alma", "luck", NoSuchRule, "use gone, sex"),
        ("Alma", "hold:Brunno", NoSuchTag, "did you mean Bruno"),
        ("Una", "rest", PartnerNeedsSex, "look for claspers"),
    ],
)
def test_what_cannot_be_asked_is_refused(
    farm: Farm, tag: str, rule: str, refusal: type[Exception], told: str
) -> None:
    """A mistyped tag or rule, and an animal whose sex nobody knows."""
    settled(farm)
    farm.animal("Una", species="leopoldi")
    with pytest.raises(refusal, match=told):
        pick(farm, tag, rule)


def test_the_due_day_is_the_one_of_the_due_list(location: str) -> None:
    """On the sample colony, with its recorded gestations: one day, however one asks for it."""
    make_sample_book(location=location, today=TODAY)
    book = open_book(location)
    with book.reading() as session:
        due = {litter.dam: litter for litter in due_litters(session, today=TODAY)}
        picked = pick_partners(session, tag="Bruno", today=TODAY)
    book.close()
    told = {
        animal.tag: reason
        for animal in picked.left_out
        for reason in animal.reasons
        if reason.startswith("gravid:")
    }
    sure = {dam for dam, litter in due.items() if litter.state != "possible"}
    assert told.keys() == sure
    assert len(sure) > 5
    for dam, reason in told.items():
        assert reason.endswith(f"due about {due[dam].likely}")
