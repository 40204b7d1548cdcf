"""Whether a name is a known tag that was written otherwise."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from colony.notation.near_tags import NearTags, is_near, is_one_edit


def near(known: str, name: str) -> bool:
    """Whether a name is near one known tag."""
    tags = NearTags()
    tags.add(known)
    return known in (*tags.same(name), *tags.misspelled(name))


@pytest.mark.parametrize(
    ("known", "name"),
    [
        *(("B7", name) for name in ("b7", "B-7", "B 7", "B07", "B7?", "(B7)", "b_007.")),
        ("Big Boy", "bigboy"),
        ("26-01-1", "26.1.1"),
        ("Bruno", "Brunno"),
        ("Bruno", "Burno"),
        ("Bruno", "Brun"),
        ("Bruno", "Bruna"),
        ("Big Bruno 2", "Big Brunno 02"),
    ],
)
def test_a_tag_written_otherwise_is_near(known: str, name: str) -> None:
    """Case, spaces, punctuation, leading zeros; one letter or a swap in a long word."""
    assert near(known, name)


@pytest.mark.parametrize(
    ("known", "name"),
    [
        ("B7", "B8"),
        ("B7", "C7"),
        ("B7", "B77"),
        ("Bruno 1", "Bruno 2"),
        ("Bruno1", "Bruno11"),
        ("Bruno", "Bruno 2"),
        ("Bruno II", "Bruno III"),
        ("Line A", "Line B"),
        ("1-12", "11-2"),
        ("26-01-11", "26-011-1"),
        ("Alma", "Alba"),
        ("Bruno", "Baron"),
        ("Bruno", "?"),
    ],
)
def test_tags_of_a_series_and_short_names_are_not_near(known: str, name: str) -> None:
    """Another number is another animal, and two short names may differ by a letter."""
    assert not near(known, name)


def distance(one: str, other: str) -> int:
    """Edits and swaps of neighbours between two words, each letter edited once, by the recurrence.

    Damerau 1964, Commun. ACM 7:171-176.
    """
    rows = [[place + line if 0 in (place, line) else 0 for place in range(len(other) + 1)]
            for line in range(len(one) + 1)]  # fmt: skip
    for i in range(1, len(one) + 1):
        for j in range(1, len(other) + 1):
            rows[i][j] = min(
                rows[i - 1][j] + 1,
                rows[i][j - 1] + 1,
                rows[i - 1][j - 1] + (one[i - 1] != other[j - 1]),
            )
            if i > 1 and j > 1 and one[i - 2 : i] == other[j - 2 : j][::-1]:
                rows[i][j] = min(rows[i][j], rows[i - 2][j - 2] + 1)
    return rows[-1][-1]


@given(st.text("abc", max_size=6), st.text("abc", max_size=6))
def test_one_slip_is_an_edit_distance_of_one(one: str, other: str) -> None:
    """As the plain recurrence has it, in both directions."""
    assert is_one_edit(one, other) == is_one_edit(other, one) == (distance(one, other) == 1)


@given(st.text("abc", min_size=5, max_size=7), st.text("abc", min_size=4, max_size=8))
def test_the_index_finds_what_a_look_at_every_pair_finds(known: str, name: str) -> None:
    """Among long words, near is a distance of at most one."""
    assert near(known, name) == (distance(known, name) <= 1)


@pytest.mark.parametrize(
    ("name", "other", "near"),
    [
        ("worm", "worms", True),
        ("blood worm", "bloodworm", True),
        ("blood-worms", "bloodworm", True),
        ("prawn", "prawn", False),
        ("cod", "cob", False),
        ("prawn", "shrimp", False),
        ("white worms", "black worms", False),
    ],
)
def test_two_names_of_one_thing_are_near(name: str, other: str, *, near: bool) -> None:
    """One letter of a word, a plural, a space or a hyphen; never two short words."""
    assert is_near(name, other) is is_near(other, name) is near
