"""Where the code of a paper is found: in a PDF, a picture or a text."""

from pathlib import Path

import pytest
from papers_of import PAPER, SECRET
from PIL import Image

from colony.papers.proof.facts import facts_of
from colony.papers.proof.looking import code_in
from colony.papers.proof.pup_paper import code_of, pup_paper
from colony.papers.proof.signed import sign
from colony.refusals.proofs import CannotLook, NotACode

CODE = sign(facts_of(PAPER), SECRET)


def test_a_code_is_found_in_each_kind_of_file(tmp_path: Path) -> None:
    """The page, the code alone in colours, and the text as somebody saved it."""
    (tmp_path / "p.pdf").write_bytes(pup_paper(PAPER, CODE))
    code_of(CODE).save(str(tmp_path / "p.png"), scale=4, dark="darkblue", light="ivory")
    (tmp_path / "p.txt").write_text(CODE, "utf-8")
    for name in ("p.pdf", "p.png", "p.txt"):
        assert code_in(tmp_path / name) == CODE


def test_a_picture_without_a_code_and_a_file_that_is_none_are_told_apart(tmp_path: Path) -> None:
    """The one is to be taken again, the other is the wrong file."""
    Image.new("L", (300, 300), 255).save(tmp_path / "white.png")
    with pytest.raises(NotACode):
        code_in(tmp_path / "white.png")
    (tmp_path / "p.bin").write_bytes(bytes(range(128, 256)))
    for name in ("p.bin", "nowhere.png"):
        with pytest.raises(CannotLook):
            code_in(tmp_path / name)
