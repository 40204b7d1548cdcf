"""Signed facts: the standards' own examples, and a thousand altered codes."""

import random

import cbor2
import pytest
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

from colony.papers.proof import base45
from colony.papers.proof.signed import ED25519, PREFIX, read, sign, to_be_signed
from colony.refusals.proofs import AlteredCode, NotACode

SECRET = Ed25519PrivateKey.from_private_bytes(
    bytes.fromhex("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60")
)
"""RFC 8032, section 7.1, test 1; the COSE working group's example EdDSA-01 has the same."""

PUBLIC = "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a"
FACTS = {1: 1, 2: "26-01-3", 3: "motoro", 4: "F", 6: "Alma", 7: ["Bruno", "Caro"], 10: 1250}


def test_the_key_is_that_of_the_standard() -> None:
    """Its public half, and the signature of nothing (RFC 8032, section 7.1, test 1)."""
    assert SECRET.public_key().public_bytes_raw().hex() == PUBLIC
    assert (
        SECRET.sign(b"")
        .hex()
        .startswith("e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065")
    )


def test_what_is_signed_is_built_as_the_standard_builds_it() -> None:
    """RFC 9052, section 4.4, by the COSE working group's example EdDSA-01."""
    protected, payload = bytes.fromhex("A201270300"), b"This is the content."
    signed = to_be_signed(protected, payload)
    assert signed.hex().upper() == (
        "846A5369676E61747572653145A2012703004054546869732069732074686520636F6E74656E742E"
    )
    assert SECRET.sign(signed).hex().upper() == (
        "7142FD2FF96D56DB85BEE905A76BA1D0B7321A95C8C4D3607C5781932B7AFB87"
        "11497DFA751BF40B58B3BCC32300B1487F3DB34085EEF013BF08F4A44D6FEF0D"
    )


def test_signed_facts_are_read_with_their_key() -> None:
    """The message is tagged COSE_Sign1 with the algorithm Ed25519 of RFC 9864."""
    text = sign(FACTS, SECRET)
    assert text.startswith(PREFIX)
    found = read(text)
    assert (found.facts, found.key.hex()) == (FACTS, PUBLIC)
    tagged = cbor2.loads(base45.decode(text.removeprefix(PREFIX)))
    assert tagged.tag == 18
    assert cbor2.loads(tagged.value[0])[1] == ED25519 == -19


def test_a_code_survives_how_it_is_copied() -> None:
    """Lines around it, and a space at its end that somebody stripped."""
    for number in range(60):
        text = sign({2: f"P{number}"}, SECRET)
        assert read(f"{text}\n").facts == {2: f"P{number}"}
        assert read(text.rstrip(" ")).facts == {2: f"P{number}"}
        assert read(f"code: {text}").facts == {2: f"P{number}"}


def test_of_a_thousand_altered_codes_each_is_found() -> None:
    """One letter changed, taken out or put in; two changed places."""
    text, chance = sign(FACTS, SECRET), random.Random(7)  # noqa: S311 - what is altered is drawn
    tried = 0
    while tried < 1000:
        at = chance.randrange(len(PREFIX), len(text))
        letter = chance.choice(base45.ALPHABET)
        harmed = chance.choice(
            [
                f"{text[:at]}{letter}{text[at + 1 :]}",
                f"{text[:at]}{text[at + 1 :]}",
                f"{text[:at]}{letter}{text[at:]}",
                f"{text[: at - 1]}{text[at]}{text[at - 1]}{text[at + 1 :]}",
            ]
        )
        if harmed.rstrip() == text.rstrip() or not harmed.startswith(PREFIX):
            continue
        with pytest.raises((AlteredCode, NotACode)):
            read(harmed)
        tried += 1


def test_a_message_put_together_otherwise_is_altered() -> None:
    """Another algorithm, something unsigned beside it, another tag: none of them is ours."""
    key = SECRET.public_key().public_bytes_raw()
    payload = cbor2.dumps(FACTS)

    def text(protected: dict[int, object], unprotected: dict[int, object], tag: int = 18) -> str:
        header = cbor2.dumps(protected)
        signature = SECRET.sign(to_be_signed(header, payload))
        message = cbor2.dumps(cbor2.CBORTag(tag, [header, unprotected, payload, signature]))
        return PREFIX + base45.encode(message)

    assert read(text({1: -19, 4: key}, {})).facts == FACTS
    for harmed in (
        text({1: -8, 4: key}, {}),
        text({1: -19, 4: key}, {5: "a note"}),
        text({1: -19, 4: key, 3: 0}, {}),
        text({1: -19, 4: key}, {}, tag=98),
        text({1: -19, 4: key[:31]}, {}),
        PREFIX + base45.encode(cbor2.dumps([1, 2])),
    ):
        with pytest.raises(AlteredCode):
            read(harmed)


@pytest.mark.parametrize("text", ["", "hello", PREFIX, f"{PREFIX}ab", f"{PREFIX}BB"])
def test_what_holds_no_code_says_so(text: str) -> None:
    """In one sentence."""
    with pytest.raises((NotACode, AlteredCode)):
        read(text)
