"""The sale at the command line: what scripts may rely on, and what is told to a person."""

import json
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from clock import stop_clock

from colony.commands.cli.failures import run

TODAY = date(2026, 3, 2)
PEOPLE = "Berit Aspen"

Say = Callable[..., str]


@pytest.fixture
def say(
    sample_of: Callable[[date], Path],
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> Say:
    """Type a command in the sample colony; what it answers on stdout."""
    monkeypatch.setenv("COLONY_BOOK", str(sample_of(TODAY)))
    stop_clock(monkeypatch, TODAY)

    def type_in(*words: str, code: int = 0) -> str:
        assert run(list(words)) == code, capsys.readouterr()
        answer = capsys.readouterr()
        return answer.out if code == 0 else answer.err

    return type_in


def told(say: Say, *words: str) -> Any:  # noqa: ANN401 - a document
    """A command's one JSON document."""
    return json.loads(say(*words, "--json"))


def test_an_order_from_its_buyer_to_its_end(say: Say) -> None:
    """Each step answers with the order as it stands."""
    buyer = told(say, "buyer", "add", "Anna Pond", "--country", "DE", "--contact", "a@example.org")
    assert (buyer["name"], buyer["kind"], buyer["buyer"]) == ("Anna Pond", "keeper", "buyer-13")
    wanted = ["--want", "2F1M motoro, 12cm, unrelated", "--by", "2027-03-01", "--deposit", "100"]
    order = told(say, "order", "add", "Anna", *wanted)
    assert (order["order"], order["state"], order["deposit"]) == (14, "asked", 100)
    assert order["want"] == "2F1M motoro, 12cm, unrelated"
    offered = told(say, "order", "offer", "14")
    assert set(offered) == {"order", "sets", "proven", "instead", "gap"}
    assert offered["proven"]
    assert told(say, "order", "reserve", "14", "L62-2")["state"] == "reserved"
    assert told(say, "order", "pay", "14", "160")["state"] == "paid"
    assert told(say, "order", "close", "14")["state"] == "closed"
    open_ones = told(say, "order", "list", "--open")
    assert 14 not in {row["order"] for row in open_ones}
    listed = {row["order"]: row for row in told(say, "order", "list")}
    assert (listed[14]["owed"], listed[14]["tags"]) == (0, ["L62-2"])
    say("book", "undo")
    assert told(say, "order", "show", "14")["state"] == "paid"
    assert told(say, "order", "cancel", "14")["state"] == "cancelled"
    assert told(say, "animal", "show", "L62-2")["status"] == "present"


def test_the_question_of_a_buyer_has_an_answer_in_sets(say: Say) -> None:
    """Least related first, no animal twice, each with its price and its day."""
    told(say, "order", "add", PEOPLE, "--want", "1F1M leopoldi, 14cm, half sibs")
    found = told(say, "order", "offer", "14")
    assert set(found["sets"][0]) == {
        *("tags", "greatest_kinship", "mean_kinship", "price", "ready_on")
    }
    kin = [each["greatest_kinship"] for each in found["sets"]]
    assert kin == sorted(kin)
    assert all(value <= 0.125 for value in kin)
    one, other = found["sets"][0]["tags"]
    assert told(say, "pedigree", "kinship", one, other)["kinship"] == pytest.approx(kin[0])
    every = told(say, "order", "fill")
    tags = [tag for offer in every for each in offer["sets"] for tag in each["tags"]]
    assert len(tags) == len(set(tags))
    assert "Order  Set" in say("order", "fill")
    assert "Greatest kinship" in say("order", "offer", "14")


def test_a_promise_counts_by_week(say: Say) -> None:
    """Cumulative to the end of each week, with what is asked for by then."""
    lines = told(say, "order", "promise", "--weeks", "14")
    assert set(lines[0]) == {
        *("species", "sex", "week", "likely", "sure", "promised", "free", "until")
    }
    motoro = [line for line in lines if (line["species"], line["sex"]) == ("motoro", "F")]
    assert [line["week"] for line in motoro] == list(range(1, 15))
    assert motoro[12]["promised"] == 2  # of order 10, by 31 May
    assert motoro[11]["promised"] == 0
    assert all(line["free"] == line["sure"] - line["promised"] for line in lines)
    only = told(say, "order", "promise", "--weeks", "1", "--species", "henlei")
    assert {line["species"] for line in only} == {"henlei"}
    assert "Sure is what will be ready with 90 %" in say("order", "promise", "--weeks", "2")


def test_every_list_and_page_is_shown_to_a_person_too(say: Say, tmp_path: Path) -> None:
    """And files are written where they are asked for, once."""
    assert "Berit Aspen" in say("buyer", "list")
    assert "2F1M motoro" in say("buyer", "show", "Berit")
    assert "zoo licence" in say("buyer", "show", "Ottersby")
    assert "L64-1" in say("order", "show", "9")
    assert "book the courier" in say("order", "ship", "9", "--on", "in 20d")
    assert "female motoro" in say("order", "available", "--species", "motoro", "--sex", "F")
    assert told(say, "order", "available", "--sex", "M")[0]["sex"] == "M"
    assert "Order 9, Casimir Birch: these are kept for you" in say("order", "message", "9")
    assert told(say, "order", "message", "9")["order"] == 9
    assert "leopoldi" in say("money", "prices")
    assert "power" in say("money", "expenses", "--since", "2026-01-01")
    assert "Elm Street Fish" in say("money", "owed")
    assert "2026-02" in say("money", "months")
    for name in ("m.csv", "m.svg"):
        say("money", "months", "-o", str(tmp_path / name))
        assert "already" in say("money", "months", "-o", str(tmp_path / name), code=1)
    assert "month,currency,income" in (tmp_path / "m.csv").read_text("utf-8")
    say("money", "receipt", "1", "-o", str(tmp_path / "r.pdf"))
    assert (tmp_path / "r.pdf").read_bytes().startswith(b"%PDF-")
    assert "Nothing was paid" in say(
        *("money", "receipt", "13", "-o", str(tmp_path / "no.pdf")), code=1
    )
    assert told(say, "order", "adopt") == {"adopted": 0}


def test_prices_and_expenses_are_written_and_end(say: Say) -> None:
    """By species, sex and width in the units of the house; a price of two things is none."""
    made = told(
        say, *("money", "price", "333", "--species", "motoro", "--sex", "F", "--from-width", "15cm")
    )
    assert (made["amount"], made["from_width_mm"], made["of"]) == (333, 150, "motoro F")
    ended = told(say, "money", "end", str(made["price"]), "--on", "2026-04-01")
    assert ended["valid_until"] == "2026-04-01"
    assert "one animal or of a kind" in say(
        *("money", "price", "9", "--species", "motoro", "--animal", "Alma"), code=2
    )
    assert "There is no price 999" in say("money", "end", "999", code=1)
    spent = told(say, "money", "spend", "food", "12.5", "--note", "prawn")
    assert (spent["amount"], spent["currency"]) == (12.5, "EUR")
    assert "no currency" not in say("book", "settings", "currency", "USD")
    assert told(say, "money", "spend", "power", "3")["currency"] == "USD"
    assert "ISO 4217" in say("book", "settings", "currency", "ZZZ", code=2)


@pytest.mark.parametrize(
    ("words", "code", "says"),
    [
        (("buyer", "show", "Nobody At All"), 1, "There is no buyer 'Nobody At All'"),
        (("buyer", "add", "berit aspen"), 1, "add a town or a number"),
        (("buyer", "add", " "), 2, "A buyer has a name"),
        (("order", "add", "Berit", "--want", "1F", "--by", "yesterday"), 2, "cannot be wanted by"),
        (("order", "edit", "10", "--by", "2020-01-01"), 2, "cannot be wanted by"),
        (("order", "reserve", "11", "L66-1", "--on", "2020-01-01"), 1, "was born"),
        (("order", "reserve", "11", "L66-1", "--on", "tomorrow"), 1, "in the future"),
        (("order", "show", "99"), 1, "There is no order '99'"),
        (("order", "add", "Berit", "--want", "some"), 2, "2F1M motoro, 12cm, unrelated"),
        (("order", "add", "Berit", "--want", "1F, 12cm, 13cm"), 2, "said already"),
        (("order", "pay", "1", "much"), 2, "is no amount of money"),
        (("order", "pay", "1", "5 USD"), 2, "is not in EUR"),
        (("order", "pay", "1", "0"), 2, "cannot be meant"),
        (("order", "pay", "1", "9999", "--kind", "refund"), 1, "cannot be given back"),
        (("order", "ship", "11"), 1, "No animal is kept for order 11"),
        (("order", "arrived", "9"), 1, "was not shipped"),
        (("order", "release", "9", "Alma"), 1, "is not kept for order 9"),
        (("order", "reserve", "1", "Alma"), 1, "is closed and cannot be reserved"),
        (("order", "reserve", "11", "L64-1"), 1, "reserved for order 9 (Casimir Birch)"),
        (("order", "reserve", "11", "L66-1", "--until", "2026-01-01"), 2, "is before 2026-03-02"),
        (("buyer", "end", "Berit"), 1, "still waits for order 10"),
        (("buyer", "forget", "Berit"), 1, "close or cancel it first"),
        (("animal", "end", "L64-1", "sold", "--why", "Zed"), 1, "reserved for order 9"),
    ],
)
def test_what_cannot_be_is_said_in_a_sentence(
    say: Say, words: tuple[str, ...], code: int, says: str
) -> None:
    """With what would be right; nothing is written."""
    before = told(say, "order", "list")
    sentence = say(*words, code=code)
    assert says in sentence
    assert sentence.count("\n") == 1
    assert told(say, "order", "list") == before


def test_who_is_forgotten_is_named_nowhere(say: Say) -> None:
    """The sale stays; it is said where else the name may be."""
    assert "buyer-8" in say("buyer", "forget", "Greta")
    assert "Greta" not in say("buyer", "list", "--all")
    row = next(row for row in told(say, "order", "list") if row["order"] == 1)
    assert (row["buyer"], row["state"]) == ("forgotten (buyer-8)", "closed")
    assert "cannot come back" in say("buyer", "edit", "buyer-8", "--name", "Greta", code=1)
    assert "cannot come back" in say("book", "undo", code=1)
    told(say, "buyer", "end", "Alder")
    assert "is no buyer any more" in say("order", "add", "Alder", "--want", "1F", code=1)
    assert told(say, "buyer", "edit", "Alder", "--back")["ended_on"] is None
    assert "ended" in say("buyer", "end", "Ivo")
    assert "already" in say("buyer", "end", "Ivo", code=1)
