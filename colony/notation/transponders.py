"""ISO 11784 transponder numbers: 15 digits, kept as text with their leading zeros."""

import re

from colony.refusals.notation import BadTransponder

LARGEST_NATIONAL_ID = 274_877_906_943
"""2**38 - 1: the national identification code has 38 bits (ISO 11784)."""


def parse_transponder(text: str) -> str:
    """Read a transponder number, with or without spaces between its groups.

    The first three digits are a country (001-899), a maker (900-998) or a test (999);
    the last twelve fit 38 bits (ISO 11784). There is no check digit.

    Raises
    ------
    BadTransponder
        It is not 15 digits, or not a number that ISO 11784 allows.
    """
    digits = re.sub(r"[\s.-]", "", text)
    if not re.fullmatch(r"\d{15}", digits, re.ASCII):
        raise BadTransponder(text, "it is not 15 digits")
    if digits[:3] == "000":
        raise BadTransponder(text, "its first three digits are 000")
    if int(digits[3:]) > LARGEST_NATIONAL_ID:
        raise BadTransponder(text, f"its last twelve digits exceed {LARGEST_NATIONAL_ID}")
    return digits
