"""Base45, by the examples of its standard."""

import pytest
from hypothesis import given
from hypothesis import strategies as some

from colony.papers.proof.base45 import decode, encode


@pytest.mark.parametrize(
    ("content", "text"),
    [
        (b"AB", "BB8"),
        (b"Hello!!", "%69 VD92EX0"),
        (b"base-45", "UJCLQE7W581"),
        (b"ietf!", "QED8WEX0"),
        (b"", ""),
    ],
)
def test_the_examples_of_the_standard(content: bytes, text: str) -> None:
    """RFC 9285, section 4.3."""
    assert encode(content) == text
    assert decode(text) == content


@given(some.binary(max_size=200))
def test_what_is_written_is_read_back(content: bytes) -> None:
    """Any bytes."""
    assert decode(encode(content)) == content


@pytest.mark.parametrize("text", ["A", "GGW", ":::", "ab0", "BB8::", "ÄÖÜ"])
def test_what_cannot_be_is_refused(text: str) -> None:
    """A lone letter, a group beyond its bytes (RFC 9285, section 6: GGW is 65536), another alphabet."""
    with pytest.raises(ValueError, match=r"^.{1,3}$"):
        decode(text)
