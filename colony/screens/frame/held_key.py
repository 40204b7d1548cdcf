"""Tell a key that is held from one that is pressed again: a terminal tells of no key let go."""

from dataclasses import dataclass

PAUSE_SECONDS = 2.0
"""Longer than any keyboard waits before a held key repeats; a keyboard's longest is from memory."""

LONG_AGO = float("-inf")


@dataclass
class HeldKey:
    """Lets one press through; the next only after another act, an answer, or a pause."""

    under_way: bool = False
    _last: float = LONG_AGO

    def lets_through(self, pressed: float) -> bool:
        """Whether a press at a moment (seconds) counts; one that does not makes the pause longer."""
        if self.under_way or pressed - self._last < PAUSE_SECONDS:
            self._last = max(self._last, pressed)
            return False
        return True

    def done(self, at: float) -> None:
        """What the key does was done: whatever comes within a pause is the same press."""
        self.under_way, self._last = False, max(self._last, at)

    def release(self) -> None:
        """Something else was done: the next press is a new one."""
        self.under_way, self._last = False, LONG_AGO
