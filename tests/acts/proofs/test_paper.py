"""Papers of a book: what is signed is what the book has, and a key is its owner's alone."""

import os
import stat
from collections.abc import Iterator
from pathlib import Path

import pytest
from sale_house import SaleHouse, sale_house

from colony.acts.book.settings import set_setting
from colony.acts.proofs.paper import paper_of, public_key, signed_code, verify, write_paper
from colony.refusals.exchange import WouldOverwrite
from colony.refusals.proofs import (
    AlteredCode,
    AnotherSigner,
    CannotLook,
    KeyNotReadable,
    NotACode,
    NotAKey,
)
from colony.store.keys import FOLDER_VARIABLE, keys_folder, own_public_keys


@pytest.fixture
def house(
    begun_location: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> Iterator[SaleHouse]:
    """A house with pups, and a folder for keys of its own."""
    monkeypatch.setenv(FOLDER_VARIABLE, str(tmp_path / "keys"))
    found = sale_house(begun_location)
    found.do(set_setting, key="house_name", value="Reed House")
    yield found
    found.book.close()


def test_a_paper_says_what_the_book_has(house: SaleHouse) -> None:
    """Identity, parents to two generations, F with what it rests on, foods, widths, origin."""
    paper = house.ask(paper_of, tag="25-01-1", today=house.today)
    assert (paper.tag, paper.sex, paper.species, paper.born) == (
        "25-01-1",
        "F",
        "leopoldi",
        "2025-08-21",
    )
    assert (paper.dam, paper.sires, paper.dams_parents) == ("Alma", ("Bruno",), ())
    assert (paper.inbreeding, paper.generations, paper.house) == (0.0, 1.0, "Reed House")
    assert paper.foods == ("fish", "prawn")
    assert [width for _, width in paper.widths] == [190]
    grown = house.litter("Cora", "1F", sires="Dino", born="1d ago", tank="B1").pups[0]
    assert house.ask(paper_of, tag=grown, today=house.today).widths == ()


def test_a_paper_is_verified_without_the_book(house: SaleHouse, tmp_path: Path) -> None:
    """From its file, by the key that was given away; by this machine's own key; by its text."""
    path = tmp_path / "p.pdf"
    code = house.ask(write_paper, tag="25-01-1", path=path, overwrite=False, today=house.today)
    key = public_key()
    found = verify(what=str(path), key=key.key)
    assert (found.signer, found.fingerprint) == ("trusted", key.fingerprint)
    assert found.facts["tag"] == "25-01-1"
    assert "Dam: Alma" in found.sentences
    assert verify(what=str(path)).signer == "own"
    assert verify(what=code, key=f" {key.key.upper()} ").signer == "trusted"
    text = tmp_path / "code.txt"
    text.write_text(f"{code}\n", "utf-8")
    assert verify(what=str(text)).facts == found.facts
    with pytest.raises(WouldOverwrite):
        house.ask(write_paper, tag="25-01-1", path=path, overwrite=False, today=house.today)


def test_who_signed_is_proved_only_by_the_key(
    house: SaleHouse, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """A good signature of somebody else is unproven without a key, and refused by another."""
    code = house.ask(signed_code, tag="25-01-1", today=house.today)
    key = public_key()
    monkeypatch.setenv(FOLDER_VARIABLE, str(tmp_path / "buyer"))
    assert verify(what=code).signer == "unproven"
    assert verify(what=code, key=key.key).signer == "trusted"
    with pytest.raises(AnotherSigner, match=key.fingerprint):
        verify(what=code, key=public_key().key)
    with pytest.raises(AlteredCode):
        verify(what=f"{code[:40]}{'0' if code[40] != '0' else '1'}{code[41:]}", key=key.key)
    for wrong in ("", "abc", key.key[:-2], f"{key.key}00", "x" * 64):
        with pytest.raises(NotAKey):
            verify(what=code, key=wrong)


def test_a_renewed_key_leaves_the_old_papers_good(house: SaleHouse) -> None:
    """Both are known here; new papers are of the new one."""
    old = house.ask(signed_code, tag="25-01-1", today=house.today)
    first, second = public_key(), public_key(renew=True)
    assert first != second == public_key()
    assert [key.hex() for key in own_public_keys()] == [first.key, second.key]
    assert verify(what=old, key=first.key).signer == "trusted"
    assert verify(what=old).signer == "own"
    assert verify(what=house.ask(signed_code, tag="25-01-1", today=house.today)).key == second.key


@pytest.mark.skipif(os.name == "nt", reason="Windows has other rights of files")
def test_a_key_is_its_owners_alone(house: SaleHouse) -> None:
    """The file and its folder, from the moment they are there; and it is in no book."""
    public_key()
    (path,) = keys_folder().iterdir()
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert stat.S_IMODE(path.parent.stat().st_mode) == 0o700
    assert "PRIVATE" not in str(house.written())


def test_a_damaged_key_is_told_and_no_new_one_is_made(house: SaleHouse) -> None:
    """Its backup is to be put in its place: another key would sign as somebody else."""
    public_key()
    (path,) = keys_folder().iterdir()
    path.write_text("not a key", "utf-8")
    with pytest.raises(KeyNotReadable, match="it is damaged"):
        house.ask(signed_code, tag="25-01-1", today=house.today)
    assert len(list(keys_folder().iterdir())) == 1


def test_what_is_no_paper_is_told(tmp_path: Path, house: SaleHouse) -> None:
    """A file that is not there, one that is no picture, a picture of something else."""
    del house
    noise, empty = tmp_path / "noise.bin", tmp_path / "empty.pdf"
    noise.write_bytes(b"\xff\xfe\x00\x81" * 9)
    empty.write_bytes(b"%PDF-1.4 broken")
    for path in (tmp_path / "nowhere.pdf", noise, empty):
        with pytest.raises(CannotLook):
            verify(what=str(path))
    text = tmp_path / "letter.txt"
    text.write_text("Dear buyer", "utf-8")
    with pytest.raises(NotACode):
        verify(what=str(text))
