"""Text from the file is shown, never obeyed."""

from collections.abc import Iterator

import pytest
from clock import stop_clock
from farm import TODAY, Farm
from telling_farm import READING, telling_farm, words_of

from colony.commands.cli.failures import run

ODD = "[red]\x1b[31m\x07\u202e{}"


@pytest.fixture(scope="module", autouse=True)
def spoiled(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Farm]:
    """The telling farm with codes and markup in every text, put there past the program."""
    farm = telling_farm(tmp_path_factory.mktemp("spoiled") / "farm.colony")
    for table, column in (
        *(("animal", "tag"), ("animal", "name"), ("animal", "line"), ("animal", "note")),
        *(("tank", "code"), ("system", "name"), ("hold", "why"), ("feeding", "food")),
        *(("litter", "code"), ("species", "english_name"), ("life_history", "source")),
    ):
        text = ODD.format(f"' || id || coalesce({column}, '') || '")
        farm.write(f"UPDATE {table} SET {column} = substr('{text}', 1, 40)")  # noqa: S608 - names of ours
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("COLONY_BOOK", str(farm.path))
        stop_clock(patch, TODAY)
        yield farm


def said_of(farm: Farm, word: str) -> str:
    """The spoiled name of what a command is asked about."""
    if word == "25-01":
        return str(farm.rows("SELECT code FROM litter")[0][0])
    found = farm.rows("SELECT tag FROM animal WHERE tag LIKE ?", f"%{word}")
    return str(found[0][0]) if found else word


@pytest.mark.parametrize("command", READING)
def test_no_code_and_no_markup_is_obeyed(
    spoiled: Farm, command: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """Brackets are shown as brackets, a code as a mark; in answers and in refusals."""
    words = [said_of(spoiled, word) for word in words_of(command)]
    run(words)
    out, err = capsys.readouterr()
    assert all(line.isprintable() for line in (out + err).split("\n"))
    if command in {"animal list", "tank list", "litter due"}:
        assert "[red]\N{REPLACEMENT CHARACTER}[31m" in out


@pytest.mark.parametrize(
    "words",
    [
        ["animal", "show", "\x1b[31m"],
        ["animal\x1b[31m", "list"],
        ["animal", "list", "--\x1b[31m"],
        ["animal", "\x1b[31m"],
        ["animal", "list", "--limit", "\x1b[31m"],
        ["animal", "list", "--book", "\x1b[31m.colony"],
        ["species", "set", "leopoldi", "\x1b[31m", "3"],
    ],
)
def test_what_was_typed_is_inert_in_a_refusal(
    words: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    """Also where the words themselves are wrong."""
    assert run(words) in {1, 2}
    out, err = capsys.readouterr()
    assert out == ""
    assert all(line.isprintable() for line in err.split("\n"))
