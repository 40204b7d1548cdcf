"""Facts that are signed: CBOR in COSE_Sign1 with Ed25519, as one text for a QR code.

CBOR: RFC 8949, in its deterministic form. COSE_Sign1: RFC 9052, section 4.2 and 4.4. Ed25519:
RFC 8032; its name in COSE is -19 (RFC 9864). The public key travels as the key id, so that a paper can be
looked at without anything else; whose key that is, only somebody who had it before can say.
"""

from dataclasses import dataclass
from typing import Any

import cbor2
from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey, Ed25519PublicKey

from colony.papers.proof import base45
from colony.refusals.proofs import AlteredCode, NotACode

PREFIX = "RAY1:"
"""What such a text begins with."""

SIGN1, ALGORITHM, KEY_ID, ED25519 = 18, 1, 4, -19


@dataclass(frozen=True)
class Signed:
    """Facts whose signature is good, and the public key that made it."""

    facts: dict[int, Any]
    key: bytes


def sign(facts: dict[int, Any], secret: Ed25519PrivateKey) -> str:
    """Sign facts by small numbers, as one text."""
    key = secret.public_key().public_bytes_raw()
    protected = cbor2.dumps({ALGORITHM: ED25519, KEY_ID: key}, canonical=True)
    payload = cbor2.dumps(facts, canonical=True)
    signature = secret.sign(to_be_signed(protected, payload))
    return PREFIX + base45.encode(_whole(protected, payload, signature))


def read(text: str) -> Signed:
    """Read a text and hold it to its signature.

    Raises
    ------
    NotACode
        It is none, or is cut off.
    AlteredCode
        The signature does not fit what it says.
    """
    message = _message(text)
    try:
        return _held(message)
    except (
        *(InvalidSignature, ValueError, TypeError, KeyError, cbor2.CBORError, RecursionError),
    ) as broken:
        raise AlteredCode from broken


def _held(message: bytes) -> Signed:
    """The facts of a message whose every byte is as we write it, and whose signature fits."""
    protected, payload, signature = _parts(cbor2.loads(message))
    header, facts = cbor2.loads(protected), cbor2.loads(payload)
    key = header[KEY_ID]
    as_written = (
        set(header) == {ALGORITHM, KEY_ID}
        and header[ALGORITHM] == ED25519
        and isinstance(facts, dict)
        and _whole(protected, payload, signature) == message
    )
    if not as_written:
        raise ValueError(header)
    Ed25519PublicKey.from_public_bytes(key).verify(signature, to_be_signed(protected, payload))
    return Signed(facts, key)


def to_be_signed(protected: bytes, payload: bytes) -> bytes:
    """The Sig_structure of RFC 9052, section 4.4, without external data."""
    return cbor2.dumps(["Signature1", protected, b"", payload])


def _whole(protected: bytes, payload: bytes, signature: bytes) -> bytes:
    return cbor2.dumps(cbor2.CBORTag(SIGN1, [protected, {}, payload, signature]))


def _parts(tagged: Any) -> tuple[bytes, bytes, bytes]:  # noqa: ANN401 - whatever was read
    if not isinstance(tagged, cbor2.CBORTag) or tagged.tag != SIGN1:
        raise ValueError(tagged)
    protected, _, payload, signature = tagged.value
    return protected, payload, signature


def _message(text: str) -> bytes:
    """The bytes of a text; a space at its end, which is a letter of it, may have been lost."""
    plain = text.strip("\r\n\t")
    at = plain.find(PREFIX)
    if at < 0:
        raise NotACode(text)
    code = plain[at + len(PREFIX) :]
    for tried in (code, code.rstrip(" "), f"{code.rstrip(' ')} ", f"{code.rstrip(' ')}  "):
        try:
            message = base45.decode(tried)
            cbor2.loads(message)
        except (ValueError, cbor2.CBORError):
            continue
        return message
    raise NotACode(text)
