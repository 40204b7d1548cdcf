"""The chain of origin: links to the founders, gaps, and codes that a record would support."""

from dataclasses import replace

import pytest

from colony.planning.proofs.chain import OnRecord, chain_of, missing_papers, source_codes

WILD = OnRecord("Iris", "F", "wild", arrived="2012-04-18", arrived_from="an importer", generation=0)
HIM = replace(WILD, tag="Ivo", sex="M")
DAM = OnRecord(
    "Edda", "F", "born here", "2015-01-02", "L2", "Iris", ("Ivo",), transponder="9", generation=1
)
SIRE = replace(DAM, tag="Bruno", sex="M", litter="L3")
PUP = OnRecord(
    "P1", "F", "born here", "2026-01-10", "L9", "Edda", ("Bruno",), transponder="7", generation=2
)
BOOK = {animal.tag: animal for animal in (WILD, HIM, DAM, SIRE, PUP)}


def codes(animal: OnRecord, **others: OnRecord) -> set[str]:
    """The codes that its record would support."""
    book = {**BOOK, animal.tag: animal, **{each.tag: each for each in others.values()}}
    return {code.code for code in source_codes(animal, book) if code.supported}


def test_the_chain_goes_over_the_parents_to_each_founder_once() -> None:
    """Nearest first; each animal says what it is to the one below."""
    chain = chain_of("P1", BOOK)
    assert [(link.step, link.tag) for link in chain] == [
        *((0, "P1"), (1, "Edda"), (1, "Bruno"), (2, "Iris"), (2, "Ivo"))
    ]
    assert chain[1].role == "dam of P1"
    assert chain[4].role == "sire of Edda"
    assert "born here in litter L9" in chain[0].recorded
    assert not any(link.missing for link in chain)


@pytest.mark.parametrize(
    ("animal", "missing"),
    [
        (replace(PUP, transponder=""), "a transponder, which ties the animal to its papers"),
        (replace(PUP, sires=()), "its sire"),
        (replace(PUP, sires=(None,)), "its sire"),
        (replace(PUP, sires=("Bruno", "Ivo")), "a test of its sire (Bruno or Ivo)"),
        (replace(PUP, sires=("Bruno", None)), "a test of its sire (Bruno)"),
        (replace(WILD, arrived="", transponder="1"), "the day of its arrival"),
        (replace(WILD, arrived_from="", transponder="1"), "from whom it came"),
        (replace(WILD, origin="unknown", transponder="1"), "where it is from"),
        (
            replace(WILD, origin="bred elsewhere", transponder="1"),
            "its breeder's word on its parents",
        ),
    ],
)
def test_each_gap_is_named(animal: OnRecord, missing: str) -> None:
    """One at a time."""
    assert chain_of(animal.tag, {**BOOK, animal.tag: animal})[0].missing == (missing,)


def test_what_completes_the_most_comes_first() -> None:
    """A founder's paper is in the chain of all her young; a pup's own is in one."""
    iris = replace(WILD, arrived_from="")
    pups = [replace(PUP, tag=f"P{n}") for n in range(1, 4)]
    bare = replace(PUP, tag="P4", transponder="")
    book = {**BOOK, "Iris": iris, **{pup.tag: pup for pup in (*pups, bare)}}
    first, second = missing_papers(["P1", "P2", "P3", "P4"], book)
    assert (first.tag, first.chains, first.completes) == ("Iris", 4, 3)
    assert (second.tag, second.chains, second.completes) == ("P4", 1, 0)
    assert missing_papers(["P1"], BOOK) == []


def test_codes_are_what_the_record_would_support() -> None:
    """W of the wild, F of the first generation, C only of the second with a whole chain."""
    assert codes(WILD) == {"W"}
    assert codes(DAM) == {"F"}
    assert codes(PUP) == {"F", "C"}
    assert codes(PUP, gap=replace(WILD, arrived="")) == {"F"}
    conceived = replace(PUP, generation=0, wild_conceived=True)
    assert codes(conceived) == {"W", "R"}
    assert codes(replace(PUP, generation=-1, sires=())) == {"U"}
    assert codes(OnRecord("X")) == {"U"}


def test_each_code_says_why_and_none_is_a_verdict() -> None:
    """F1 is told what C asks for."""
    found = {code.code: code for code in source_codes(DAM, BOOK)}
    assert set(found) == {"W", "R", "F", "C", "U"}
    assert "F1 at most" in found["C"].why
    assert all(code.why for code in found.values())


def test_a_loop_of_records_ends() -> None:
    """A pedigree that cannot be is refused elsewhere; here it only has to end."""
    odd = replace(DAM, dam="P1")
    assert len(chain_of("P1", {**BOOK, "Edda": odd})) <= 5
