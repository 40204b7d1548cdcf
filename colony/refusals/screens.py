"""Refusals of the screens themselves: they cannot go on."""

from collections.abc import Sequence

from colony.refusals.base import Refusal
from colony.refusals.notation import shown

_LONGEST_FAULT = 200


class ScreensFailed(Refusal):
    """A fault of the program ended the screens; what was typed and not written is told."""

    def __init__(self, fault: str, typed: Sequence[str] = ()) -> None:
        kept = f"; typed and not written: {'; '.join(typed)}" if typed else ""
        super().__init__(
            f"The screens had to close over a fault of the program ({shown(fault, _LONGEST_FAULT)}), "
            "and what was written before is safe in the book: begin again, and tell whoever looks "
            f"after the program{kept}."
        )
