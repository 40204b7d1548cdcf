"""What strangers can type or hand over, and the one promise of all of it: an answer or a refusal."""

import contextlib
import io
import json
import tempfile
import xml.etree.ElementTree as ET
from collections.abc import Callable
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any
from xml.sax.saxutils import escape

from hypothesis import strategies as st

from colony.acts.book.importing.imports import import_path
from colony.commands.cli import failures
from colony.commands.cli.output import show_json, show_table
from colony.exchange.folder.colony_toml import read_heading
from colony.exchange.tables.sires import read_sires
from colony.exchange.text.days import read_sheet_day
from colony.notation import days, measures, pairs, pups, readings, shares, tags, transponders, words
from colony.papers.plain_words import printable as drawn
from colony.refusals.base import Refusal
from colony.store.book import Book, open_book
from colony.store.journal.entries import RecordedAct

TODAY = date(2026, 3, 9)

FRAGMENTS = (
    *["0", "1", "7", "12", "2026", "99999999999999999999", "1e999", "-1", "+1", ".5", "0,5", "٣", "\uff13", "²", "½", "nan", "inf", "0x1F", "1_000"],
    *["cm", "mm", "in", "ft", "kg", "g", "oz", "l", "gal", "L", "ml", "%", "=", ":", "/", "-", ".", ",", ";", "*", "+", "~", "(", ")", "[", "]", "{", "}", "<", ">", "&", "|", "'", '"', "\\", "`", "$", "#", "@", "!"],
    *["F", "M", "U", "f", "m", "u", "2F3M1U", "unknown", "Bruno", "Alma", "today", "yesterday", "ago", "in", "d", "w", "3d", "jan", "March", "2026-03-09"],
    *["{n}", "{litter}", "{0.__class__}", "%s", "%n", "../../etc/passwd", "/dev/zero", "C:\\x", "file://", "${HOME}", "$(id)"],
    *["=1+1", '=HYPERLINK("x")', "@SUM(1)", "<script>alert(1)</script>", "]]>", "&amp;", "<!DOCTYPE", "[bold]x[/bold]"],
    *["';", "DROP", "TABLE", "animal;--", "NULL", "true", "None", "900000000000001", "ph=7", "tag", "sex", "born", "dam", "sire"],
    " ", "\t", "\n", "\r\n", "\0", "\x1b[31m", "\x1b]0;x\a", "\x9b31m", "\u202e", "\u200b",
    "\ufeff", "\ud800", "é", "e\u0301", "ß", "İ", "Ǆ", "👩\u200d🔬", "a" * 50, "9" * 400, "(" * 300,
)  # fmt: skip
"""Pieces that parsers, shells, spreadsheets, terminals, browsers and databases care about."""

TEXTS = st.one_of(
    st.lists(st.sampled_from(FRAGMENTS), max_size=8).map("".join),
    st.text(max_size=30),
    st.text(alphabet=st.characters(codec="ascii"), max_size=20),
)

Target = tuple[st.SearchStrategy[Any], Callable[[Any], object]]


def refused_at_worst(parse: Callable[..., object], *more: object) -> Callable[[str], object]:
    """A parser returns something or refuses in one printable sentence."""

    def target(text: str) -> object:
        try:
            return parse(text, *more)
        except Refusal as refusal:
            one_sentence(refusal.sentence)
            return None

    return target


def one_sentence(sentence: str) -> None:
    """A refusal is printable, one line, and not as long as what was wrong with it."""
    assert sentence.isprintable(), sentence
    assert len(sentence) < 2000


def _measure(parse: Callable[[str, str], int], unit: str) -> Target:
    def target(text: str) -> None:
        with contextlib.suppress(Refusal):
            assert parse(text, unit) >= 0

    return TEXTS, target


def _sheet(book: Book) -> Target:
    """A file of bytes, or of cells under headings, taken in on trial."""
    headings = st.lists(
        st.sampled_from(["tag", "sex", "born", "dam", "sire", "width", "tank", "x", "=1"]),
        min_size=1,
        max_size=6,
    )
    cells = st.lists(st.lists(TEXTS, max_size=6), max_size=6)
    tables = st.tuples(headings, cells, st.sampled_from(",;\t|")).map(
        lambda told: "\n".join(told[2].join(row) for row in (told[0], *told[1])).encode(
            "utf-8", "replace"
        )
    )
    folder = Path(tempfile.mkdtemp())

    def target(content: bytes) -> None:
        path = folder / "sheet.csv"
        path.write_bytes(content)
        with book.reading() as session, contextlib.suppress(Refusal):
            done = import_path(session, path=path, dry_run=True, date_order="iso", today=TODAY)
            json.dumps(done.as_document(), default=str)

    return st.one_of(st.binary(max_size=300), tables), target


def _journal(changes: str) -> None:
    entry = RecordedAct(1, datetime(2026, 3, 9, tzinfo=UTC), "x", "x", "x", changes)
    for part in ("steps", "undoes"):
        with contextlib.suppress(Refusal):
            getattr(entry, part)


def _output(text: str) -> None:
    """Whatever stands in a book comes out as text that a terminal does not obey, and JSON as JSON."""
    out = io.StringIO()
    with contextlib.redirect_stdout(out):
        show_table(("Tag", ">Note"), [(text, text)])
    assert set(out.getvalue()) <= {"\n"} | {c for c in out.getvalue() if c.isprintable()}
    out = io.StringIO()
    with contextlib.redirect_stdout(out):
        show_json({"tag": text})
    said = out.getvalue()
    assert json.loads(said)["tag"] == text
    assert not any(0x7F <= ord(char) < 0xA0 or (ord(char) < 0x20 and char != "\n") for char in said)


def _drawing(text: str) -> None:
    """A name in a drawing is text in it, whatever markup it holds."""
    told = drawn(text.encode("utf-8", "replace").decode())
    assert "".join(ET.fromstring(f"<text>{escape(told)}</text>").itertext()) == told  # noqa: S314 - our own text


COMMANDS = (
    ("animal", "show"), ("animal", "add"), ("animal", "edit"), ("animal", "list", "--search"),
    ("animal", "list", "--tank"), ("animal", "end"), ("pup", "measure"), ("pup", "feed"),
    ("tank", "move"), ("tank", "add"), ("litter", "record", "--pups", "1F", "--dam"),
    ("litter", "show"), ("pairing", "start"), ("pairing", "pick"), ("pedigree", "kinship"),
    ("pedigree", "why"), ("book", "history", "--animal"), ("book", "history", "--since"),
    ("book", "undo"), ("book", "settings"), ("book", "restore", "--yes"), ("book", "import"),
    ("book", "copy"), ("species", "show"), ("water", "test"), ("food", "add"), ("round", "count"),
    ("--book",), (),
)  # fmt: skip
"""The beginnings of commands; strangers' words follow."""


def _commands(book: Book) -> Target:
    folder = Path(book.location).parent

    def target(told: tuple[tuple[str, ...], list[str]]) -> None:
        begin, words = told
        out, err = io.StringIO(), io.StringIO()
        with (
            contextlib.redirect_stdout(out),
            contextlib.redirect_stderr(err),
            contextlib.chdir(folder),
        ):
            code = failures.run(["--book", book.location, *begin, *words])
        assert code in (0, 1, 2, 130), (code, told)
        said = out.getvalue() + err.getvalue()
        assert "Traceback" not in said
        assert "\x1b" not in said
        assert "\x9b" not in said

    return st.tuples(st.sampled_from(COMMANDS), st.lists(TEXTS, max_size=4)), target


def targets(folder: Path) -> dict[str, Target]:
    """Every target by name; those that need a book share one in `folder`."""
    book = open_book(str(folder / "fuzzed.colony"), begin=True)
    day = refused_at_worst(days.parse_day, TODAY)
    return {
        "day": (TEXTS, day),
        "day as known": (TEXTS, refused_at_worst(days.parse_day_as_known, TODAY)),
        "span": (TEXTS, refused_at_worst(days.parse_span_days)),
        "length": _measure(measures.parse_length_mm, "cm"),
        "mass": _measure(measures.parse_mass_g, "g"),
        "volume": _measure(measures.parse_volume_l, "gal"),
        "pups": (TEXTS, refused_at_worst(pups.parse_pups)),
        "sires": (st.lists(TEXTS, max_size=4), refused_at_worst(shares.parse_sires)),
        "tag": (TEXTS, refused_at_worst(tags.parse_tag)),
        "text": (TEXTS, refused_at_worst(tags.parse_text, "note")),
        "transponder": (TEXTS, refused_at_worst(transponders.parse_transponder)),
        "word": (TEXTS, refused_at_worst(words.parse_word, words.STATUSES, "status")),
        "pair": (TEXTS, refused_at_worst(pairs.parse_pair)),
        "wanted": (TEXTS, refused_at_worst(pairs.parse_wanted)),
        "reading": (TEXTS, refused_at_worst(readings.parse_reading)),
        "sheet day": (
            TEXTS,
            refused_at_worst(lambda text: read_sheet_day(text, "dmy", TODAY)),
        ),
        "sire cell": (
            TEXTS,
            refused_at_worst(lambda text: read_sires(text, lambda tag: tag == "Alma")),
        ),
        "colony.toml": (TEXTS, refused_at_worst(read_heading, "x")),
        "journal": (st.one_of(TEXTS, _JSON.map(json.dumps)), _journal),
        "output": (TEXTS.filter(lambda text: "\ud800" not in text), _output),
        "drawing": (TEXTS, _drawing),
        "sheet": _sheet(book),
        "command": _commands(book),
    }


_JSON = st.recursive(
    st.none()
    | st.booleans()
    | st.integers()
    | st.floats()
    | TEXTS
    | st.sampled_from(["undoes", "table", "key", "before", "after"]),
    lambda inner: (
        st.lists(inner, max_size=4)
        | st.dictionaries(
            st.sampled_from(["undoes", "table", "key", "before", "after", "x"]), inner, max_size=5
        )
    ),
    max_leaves=12,
)
