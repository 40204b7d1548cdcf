"""Base45 (RFC 9285): two bytes as three characters that a QR code holds most tightly."""

ALPHABET = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"
_VALUES = {letter: value for value, letter in enumerate(ALPHABET)}
_BASE, _BYTE = len(ALPHABET), 256
_TWO, _THREE = 2, 3


def encode(content: bytes) -> str:
    """Bytes as text; two become three characters, a last one becomes two."""
    out = []
    for at in range(0, len(content), _TWO):
        part = content[at : at + _TWO]
        number = int.from_bytes(part, "big")
        for _ in range(_THREE if len(part) == _TWO else _TWO):
            number, digit = divmod(number, _BASE)
            out.append(ALPHABET[digit])
    return "".join(out)


def decode(text: str) -> bytes:
    """Text as bytes again.

    Raises
    ------
    ValueError
        A letter is none of the alphabet, or a group says more than its bytes can.
    """
    out = bytearray()
    for at in range(0, len(text), _THREE):
        part = text[at : at + _THREE]
        if len(part) < _TWO or any(letter not in _VALUES for letter in part):
            raise ValueError(part)
        number = sum(_VALUES[letter] * _BASE**power for power, letter in enumerate(part))
        size = _TWO if len(part) == _THREE else 1
        if number >= _BYTE**size:
            raise ValueError(part)
        out += number.to_bytes(size, "big")
    return bytes(out)
