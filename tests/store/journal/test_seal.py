"""A seal holds as long as nothing before it was touched, and says where something was."""

import random
from base64 import b32encode
from collections.abc import Callable
from typing import Any

import pytest
from farm import Farm

from colony.acts.book.seal import check_seal, seal_book
from colony.acts.book.undo import undo_last
from colony.refusals.history import NoSuchSeal, NothingToSeal
from colony.store.backups.transfer import rebuild_book
from colony.store.book import open_book
from colony.store.journal.chain import CHAINED, digest_of
from colony.store.journal.seal import Seal, compare, parse_seal

Entries = list[dict[str, Any]]


def chained(acts: int) -> Entries:
    """A journal of some acts, each with the digest of the one before it."""
    entries: Entries = []
    for number in range(1, acts + 1):
        entry: dict[str, Any] = dict.fromkeys(CHAINED, "")
        entry |= {"id": number, "act": "animal add", "summary": f"A{number} was added"}
        entry["previous"] = digest_of(entries[-1]) if entries else ""
        entries.append(entry)
    return entries


def sealed(entries: Entries) -> Seal:
    """The seal of the last entry."""
    digest = bytes.fromhex(digest_of(entries[-1]))
    return Seal(entries[-1]["id"], b32encode(digest[:20]).decode())


def content(chance: random.Random, entries: Entries) -> int:
    """One letter of one entry."""
    at = chance.randrange(len(entries))
    name = chance.choice([name for name in CHAINED if name not in {"id", "previous"}])
    entries[at][name] = f"{entries[at][name]}x"
    return int(entries[at]["id"])


def order(chance: random.Random, entries: Entries) -> int:
    """Two entries change places, each with the other's number."""
    one, other = sorted(chance.sample(range(len(entries)), 2))
    entries[one], entries[other] = entries[other], entries[one]
    entries[one]["id"], entries[other]["id"] = entries[other]["id"], entries[one]["id"]
    return int(entries[one]["id"])


def removal(chance: random.Random, entries: Entries) -> int:
    """One entry is taken out; often those after it close the gap."""
    at = chance.randrange(len(entries))
    gone = int(entries.pop(at)["id"])
    if chance.random() < 0.5:
        for entry in entries[at:]:
            entry["id"] -= 1
    return gone


def insertion(chance: random.Random, entries: Entries) -> int:
    """One entry is put in, with a digest that fits the one before it."""
    at = chance.randrange(1, len(entries))
    before = entries[at - 1]
    new = {**before, "id": before["id"] + 1, "summary": "forged", "previous": digest_of(before)}
    for entry in entries[at:]:
        entry["id"] += 1
    entries.insert(at, new)
    return int(new["id"])


def anew(chance: random.Random, entries: Entries) -> int:
    """One entry is changed, and the whole chain after it is made to fit."""
    number = content(chance, entries)
    for at in range(number, len(entries)):
        entries[at]["previous"] = digest_of(entries[at - 1])
    return number


HARMS = (content, order, removal, insertion, anew)


@pytest.mark.parametrize("harm", HARMS, ids=lambda harm: harm.__name__)
def test_of_two_hundred_altered_journals_each_is_found(
    harm: Callable[[random.Random, Entries], int],
) -> None:
    """1,000 in all: content, order, removal, insertion, and a chain that was made anew."""
    for seed in range(200):
        chance = random.Random(seed)  # noqa: S311 - what is harmed is drawn, nothing secret
        entries = chained(chance.randrange(4, 12))
        seal = sealed(entries)
        assert compare(entries, seal).holds
        number = harm(chance, entries)
        upto = [entry for entry in entries if entry["id"] <= seal.acts]
        answer = compare(upto, seal)
        assert not answer.holds, (harm.__name__, seed)
        assert answer.problem
        if answer.first is not None:
            assert answer.first <= number + 1


def test_the_act_that_was_changed_is_named() -> None:
    """One in the middle, the first, and the sealed one itself."""
    for number in (1, 3, 5, 6):
        entries = chained(6)
        seal = sealed(entries)
        entries[number - 1]["who"] = "Mallory"
        answer = compare(entries, seal)
        assert answer.first in {number, None}
        assert (answer.first is None) is (number == 6)


def test_what_was_taken_out_at_the_end_is_told() -> None:
    """The sealed act itself is gone."""
    entries = chained(6)
    seal = sealed(entries)
    answer = compare(entries[:4], seal)
    assert (answer.holds, answer.first) == (False, 5)
    assert "act 5 and what follows up to 6 are gone" in (answer.problem or "")
    assert compare([], seal).first == 1


def test_a_seal_is_read_as_it_was_written_down() -> None:
    """Spaces, dashes and small letters are no matter; anything else is refused in a sentence."""
    seal = Seal(48, "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567")
    assert str(seal) == "48-ABCDEFGH-IJKLMNOP-QRSTUVWX-YZ234567"
    assert parse_seal(" 48 abcdefgh ijklmnop-qrstuvwx-YZ234567\n") == seal
    for text in ("", "48", "ABCDEFGH", f"{seal}A", "48-ABCDEFGH-IJKLMNOP-QRSTUVWX-YZ23456!"):
        with pytest.raises(NoSuchSeal, match="is no seal"):
            parse_seal(text)


def test_a_book_goes_on_under_its_seal(farm: Farm) -> None:
    """Acts, undos and a rebuilt copy keep it; a row of the journal that is changed does not."""
    farm.female("Alma")
    farm.male("Bruno")
    seal = str(farm.ask(seal_book))
    farm.female("Cora")
    with farm.book.act("book undo") as session:
        undo_last(session)
    answer = farm.ask(check_seal, seal=seal)
    assert (answer.holds, answer.acts) == (True, int(seal.partition("-")[0]))


def test_a_rebuilt_book_keeps_its_seal_and_a_changed_one_breaks_it(farm_file: Farm) -> None:
    """What is changed past the triggers of the database is named."""
    for tag in ("Alma", "Cora", "Dora"):
        farm_file.female(tag)
    seal = str(farm_file.ask(seal_book))
    copy = open_book(rebuild_book(farm_file.book, f"{farm_file.path}.new").location)
    with copy.reading() as session:
        assert check_seal(session, seal=seal).holds
    copy.close()
    farm_file.write("DROP TRIGGER journal_is_append_only_UPDATE")
    farm_file.write("UPDATE journal SET who = 'Mallory' WHERE id = 1")
    answer = farm_file.ask(check_seal, seal=seal)
    assert (answer.holds, answer.first) == (False, 1)
    farm_file.write("DROP TRIGGER journal_is_append_only_DELETE")
    farm_file.write("DELETE FROM journal_place")
    farm_file.write("DELETE FROM journal")
    with pytest.raises(NothingToSeal):
        farm_file.ask(seal_book)
