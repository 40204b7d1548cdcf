"""The journal: one row an act, and an act is all or nothing."""

import getpass
import json
import sqlite3

import psycopg
import pytest
from farm import TODAY, Farm
from sqlmodel import Session

from colony.acts.animals.animals import add_animal
from colony.acts.litters.record import record_litter
from colony.notation.fields.facts import AnimalFacts
from colony.notation.pups import PupCount
from colony.refusals.animals import NoSuchTag
from colony.refusals.books import BookRefused


def test_an_act_is_one_row_with_each_row_before_and_after(farm: Farm) -> None:
    """A mended name: which row, and what it said on both sides of the act."""
    farm.female("Alma", name="the old one")
    farm.edit("Alma", name="the grey one")
    ((act, summary, changes),) = farm.rows(
        "SELECT act, summary, changes FROM journal ORDER BY id DESC LIMIT 1"
    )
    assert (act, summary) == ("edit_animal", "Alma was corrected: name")
    assert json.loads(changes) == [
        {
            "table": "animal",
            "key": 1,
            "before": {"name": "the old one"},
            "after": {"name": "the grey one"},
        }
    ]


def test_a_litter_is_one_act_with_all_its_rows(farm: Farm) -> None:
    """The litter, its sires, its pups and their places stand in one row of the journal."""
    farm.tank("B1")
    farm.female("Alma", tank="B1")
    farm.male("Bruno")
    before = len(farm.rows("SELECT id FROM journal"))
    farm.litter("Alma", "2F1M", sires=["Bruno=0.6", "unknown=0.4"])
    assert len(farm.rows("SELECT id FROM journal")) == before + 1
    ((changes,),) = farm.rows("SELECT changes FROM journal ORDER BY id DESC LIMIT 1")
    tables = [step["table"] for step in json.loads(changes) if step["before"] is None]
    assert sorted(tables) == sorted(
        ["litter", *["possible_sire"] * 2, *["animal"] * 3, *["placement"] * 3]
    )


def test_an_act_that_is_refused_leaves_nothing(farm: Farm) -> None:
    """Refused at its very end, after rows were written: none of them stays, nor a journal row."""
    farm.female("Alma")
    before = farm.written()

    def two_things(session: Session) -> None:
        add_animal(session, tag="Bruno", facts=AnimalFacts(sex="M"), today=TODAY)
        record_litter(session, dam="Nobody", born=TODAY, pups=PupCount(1), today=TODAY)

    with pytest.raises(NoSuchTag):
        farm.do(two_things)
    assert farm.written() == before


def test_an_act_that_breaks_a_rule_of_the_database_leaves_nothing(farm: Farm) -> None:
    """What no act should try is refused by the database, as a refusal, and undone."""
    farm.female("Alma")
    before = farm.written()

    def slip(session: Session) -> None:
        add_animal(session, tag="Bruno", facts=AnimalFacts(sex="M"), today=TODAY)
        session.connection().exec_driver_sql("UPDATE animal SET sex = 'X'")

    with pytest.raises(BookRefused, match="animal: sex is one of: F, M, U"):
        farm.do(slip)
    assert farm.written() == before


def test_an_act_that_any_error_stops_leaves_nothing(farm: Farm) -> None:
    """Not only what was foreseen."""
    before = farm.written()

    def slip(session: Session) -> None:
        add_animal(session, tag="Bruno", facts=AnimalFacts(sex="M"), today=TODAY)
        raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        farm.do(slip)
    assert farm.written() == before


def test_an_act_that_changes_nothing_is_no_act(farm: Farm) -> None:
    """The journal tells of changes only."""
    farm.female("Alma", name="grey")
    before = farm.rows("SELECT count(*) FROM journal")
    farm.edit("Alma", name="grey")
    assert farm.rows("SELECT count(*) FROM journal") == before


def test_the_journal_only_grows(farm: Farm) -> None:
    """Neither changed nor deleted, whoever tries."""
    for sql in ("UPDATE journal SET summary = ''", "DELETE FROM journal"):
        with pytest.raises((sqlite3.IntegrityError, psycopg.Error), match="append-only"):
            farm.write(sql)


def test_an_act_says_who_did_it(farm: Farm, monkeypatch: pytest.MonkeyPatch) -> None:
    """COLONY_WHO, else the user of the system, else somebody: never a reason to refuse."""

    def nobody() -> str:
        raise KeyError("no user of that number")

    monkeypatch.setenv("COLONY_WHO", "the apprentice")
    farm.female("Alma")
    monkeypatch.delenv("COLONY_WHO")
    monkeypatch.setattr(getpass, "getuser", nobody)
    farm.female("Bella")
    told = farm.rows("SELECT who FROM journal ORDER BY id DESC LIMIT 2")
    assert told == [("somebody",), ("the apprentice",)]


def test_a_name_that_is_said_is_short_and_commands_nothing(
    farm: Farm, monkeypatch: pytest.MonkeyPatch
) -> None:
    """At most 80 characters on one line; beside it stands whom the database knows."""
    monkeypatch.setenv("COLONY_WHO", "Ada\x1b[31m\n" + "x" * 200)
    farm.female("Zora")
    ((who, db_user),) = farm.rows("SELECT who, db_user FROM journal ORDER BY id DESC LIMIT 1")
    assert len(who) <= 80
    assert who.isprintable()
    assert who.startswith("Ada")
    assert db_user
