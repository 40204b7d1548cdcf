"""Text of a user in a drawing: nothing that a terminal or a browser would obey."""


def printable(words: str) -> str:
    """Replace what cannot be printed, escape codes among it, by a question mark."""
    return "".join(sign if sign.isprintable() else "?" for sign in words)
