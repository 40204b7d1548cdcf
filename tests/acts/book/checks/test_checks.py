"""Each check finds what it is for, names the row and the command that mends it, and no more."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, date, datetime
from pathlib import Path

import pytest
from safety_house import TODAY, House, furnished

from colony.acts.book.check import CHECKS, check_book
from colony.acts.book.checks.finding import Finding
from colony.acts.care.headcount import count_heads
from colony.commands.cli.failures import run
from colony.store import clock
from colony.store.book import Book, open_book


@pytest.fixture
def house(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[House]:
    """A house with a litter, in a file that a test can harm behind the program's back."""
    noon = datetime(TODAY.year, TODAY.month, TODAY.day, 12, tzinfo=UTC)
    monkeypatch.setattr(clock, "now", lambda: noon)
    book = open_book(str(tmp_path / "farm.colony"), begin=True)
    house = furnished(book)
    house.pair("Alma", "Bruno", on=date(2025, 9, 20))
    house.litter("Alma", "1F1M", date(2026, 1, 10))
    for tag in ("Caro", "26-01-1", "26-01-2"):
        house.move(tag, "B2")
    yield house
    book.close()


def harm(book: Book, *statements: str) -> None:
    """Change rows as no act would, with the database's own rules off."""
    with closing(sqlite3.connect(book.location)) as raw:
        raw.execute("PRAGMA ignore_check_constraints = ON")
        for trigger in ("one_tank_a_day_INSERT", "one_tank_a_day_UPDATE"):
            raw.execute(f"DROP TRIGGER IF EXISTS {trigger}")
        for statement in statements:
            raw.execute(statement)
        raw.commit()


def found(book: Book, today: date = TODAY) -> list[Finding]:
    """Everything the checks find; what only the journal knows is told apart by them."""
    with book.reading() as session:
        return check_book(session, today=today)


def test_a_sound_house_has_no_finding(house: House) -> None:
    """Nobody is bothered by a book that is right."""
    assert found(house.book) == []


HARMS = [
    ("UPDATE animal SET born = '2027-01-01' WHERE tag = 'Caro'", "clock", "Caro", "after today"),
    (
        "UPDATE animal SET transponder = '000123456789012' WHERE id = 1",
        "transponder",
        "Alma",
        "000",
    ),
    ("UPDATE animal SET transponder = '12345' WHERE id = 1", "transponder", "Alma", "15 digits"),
    ("UPDATE animal SET born = '2026-01-10' WHERE tag = 'Alma'", "parent age", "26-01-1", "Alma"),
    ("UPDATE animal SET dam_id = 4 WHERE id = 1", "pedigree", "parents", "Alma"),
    ("UPDATE animal SET sex = 'F' WHERE tag = 'Bruno'", "sex", "Bruno", "sire of the pairing"),
    ("UPDATE animal SET sex = 'U' WHERE tag = 'Alma'", "sex", "Alma", "dam of the pairing"),
    ("UPDATE possible_sire SET share = 0.5", "shares", "26-01", "sum to 0.5"),
    ("INSERT INTO possible_sire VALUES (9, NULL, 3, 2, 0.4)", "shares", "Caro", "sum to 0.4"),
    ("UPDATE pairing SET started = '2026-01-01'", "gestation", "26-01", "9 days of gestation"),
    (
        "INSERT INTO litter VALUES (9, '26-09', 1, NULL, NULL, '2026-01-20', 0, 1, 0, NULL)",
        "gestation",
        "26-09",
        "10 days apart",
    ),
    (
        "UPDATE animal SET status = 'died', ended_on = '2025-12-01' WHERE id = 1",
        "gestation",
        "26-01",
        "before this birth",
    ),
    ("UPDATE animal SET born = '2025-01-01' WHERE id = 1", "gestation", "26-01", "374 days old"),
    ("UPDATE litter SET live = 5", "litter", "26-01", "says 5 live pups, 2 are in the book"),
    (
        "UPDATE animal SET born = '2026-01-11' WHERE tag = '26-01-1'",
        "litter",
        "26-01-1",
        "its litter",
    ),
    ("DELETE FROM placement WHERE animal_id = 3", "place", "Caro", "in no tank"),
    (
        "INSERT INTO placement VALUES (99, 1, 2, '2026-03-09', NULL, NULL)",
        "place",
        "Alma",
        "is in B1 and in B2",
    ),
    (
        "UPDATE animal SET status = 'sold', ended_on = '2026-03-09' WHERE id = 3",
        "end",
        "Caro",
        "still in a tank",
    ),
    (
        "INSERT INTO measurement VALUES (9, 3, '2019-01-01', 90, NULL, NULL)",
        "life",
        "Caro",
        "before its birth",
    ),
    (
        "INSERT INTO measurement VALUES (9, 3, '2026-12-01', 90, NULL, NULL)",
        "clock",
        "Caro",
        "after today",
    ),
    (
        "INSERT INTO setting VALUES ('rotation', '7')",
        "journal",
        "setting rotation",
        "no act made it",
    ),
    ("INSERT INTO setting VALUES ('backup_days', 'many')", "settings", "backup_days", "'many'"),
    ("DELETE FROM feeding", None, "", ""),
    ("UPDATE animal SET species_id = 999 WHERE id = 1", "database", "animal 1", "not there"),
    ("UPDATE animal SET sex = 'X' WHERE id = 3", "database", "the file", "CHECK"),
    ("UPDATE animal SET sex = 'X' WHERE id = 3", "rule", "animal 3", "sex is one of: F, M, U"),
    ("UPDATE animal SET status = 'sold' WHERE id = 3", "rule", "animal 3", "the day it ended_on"),
    ("UPDATE litter SET live = -1", "rule", "litter 1", "has pups, live or dead"),
    ("UPDATE animal SET born = '2019-02-30' WHERE id = 3", "rule", "animal 3", "born is a day"),
    (
        "INSERT INTO water_test VALUES (9, 1, '2026-03-01', 'ph', 70, NULL)",
        "rule",
        "water_test 9",
        "cannot have this value",
    ),
    (
        (
            "INSERT INTO journal VALUES"
            " (99, '2001-01-01T00:00:00+00:00', 'x', 'x', 'x', '[]', 'x', NULL, '')"
        ),
        "clock",
        "act 99",
        "before the act before it",
    ),
]
"""A harm done behind the program's back, the check that finds it, where, and a part of the words."""


@pytest.mark.parametrize(("statement", "check", "where", "words"), HARMS)
def test_a_harm_is_found_where_it_is(
    house: House, statement: str, check: str | None, where: str, words: str
) -> None:
    """The finding names the row, says what is wrong with it, and what mends it."""
    # The database itself holds most of these; the check is there for one that was held off.
    harm(house.book, "DROP INDEX ux_placement_open", statement)
    findings = found(house.book)
    if check is None:
        assert findings == []
        return
    hits = [finding for finding in findings if (finding.check, finding.where) == (check, where)]
    assert any(words in hit.problem for hit in hits), findings
    assert all(finding.remedies or finding.advice for finding in findings)


def test_what_was_changed_behind_the_journal_names_row_and_columns(house: House) -> None:
    """A value that no act wrote, a row that no act made, one that no act deleted."""
    harm(
        house.book,
        "UPDATE animal SET note = 'by hand' WHERE id = 1",
        "DELETE FROM placement WHERE animal_id = 2",
    )
    journal = [(one.where, one.problem) for one in found(house.book) if one.check == "journal"]
    assert ("animal 1", "was changed, but not by an act: note None -> by hand") in journal
    assert any(where.startswith("placement") and "is gone" in said for where, said in journal)


def test_widths_that_shrink_or_leap_are_odd(house: House) -> None:
    """A tape errs by some millimetres, not by forty, and a ray does not double in a week."""
    for width_mm, on in ((300, 1), (297, 4), (260, 5), (500, 8)):
        house.measure("Caro", width_mm, date(2026, 3, on))
    odd = [(one.where, one.problem) for one in found(house.book) if one.check == "width"]
    assert odd == [
        ("Caro", "26 cm on 2026-03-05 is 40 mm less than before"),
        ("Caro", "50 cm on 2026-03-08 is 200 mm more than 3 days before"),
    ]


def test_a_sire_that_was_never_with_the_dam_is_odd(house: House) -> None:
    """Both were in tanks when she conceived, and never in one, whatever the pairing says."""
    harm(
        house.book,
        "UPDATE placement SET entered_on = '2025-01-01' WHERE animal_id IN (1, 3)",
        "UPDATE possible_sire SET sire_id = 3",
    )
    (odd,) = [one for one in found(house.book) if one.check == "sire in reach"]
    assert (odd.where, odd.wrong) == ("26-01", False)
    assert "Caro was in no tank with Alma" in odd.problem


def test_a_headcount_that_did_not_agree_stays_a_finding_until_the_next(house: House) -> None:
    """Somebody is missing, or was not seen; the next count settles it."""
    counts = {"tank": "B2", "on": TODAY, "today": TODAY}
    house.do("round count", count_heads, counted=2, **counts)
    assert [one.problem for one in found(house.book)] == [
        f"2 were counted on {TODAY}, the book had 3"
    ]
    house.do("round count", count_heads, counted=3, **counts)
    assert found(house.book) == []


def test_the_command_says_what_is_wrong_and_leaves_with_one(
    house: House, capsys: pytest.CaptureFixture[str]
) -> None:
    """A script sees by the exit code that something is wrong; odd things alone are no failure."""
    words = ["--book", house.book.location, "book", "check"]
    house.animal("Dora", "F")
    assert run(words) == 0
    assert "colony tank move Dora TANK" in capsys.readouterr().out
    harm(house.book, "UPDATE possible_sire SET share = 0.5")
    assert run([*words, "--json"]) == 1


def test_every_check_of_the_table_has_a_harm_that_it_finds() -> None:
    """A check that nothing can fail is none; two of them have tests of their own above."""
    assert len(CHECKS) == len({check.__name__ for check in CHECKS})
    assert {check for _, check, _, _ in HARMS if check} | {"width", "sire in reach", "headcount"} >= {
        "database", "rule", "journal", "settings", "clock", "pedigree", "sex", "parent age", "shares",
        "gestation", "litter", "transponder", "life", "end", "place",
    }  # fmt: skip
