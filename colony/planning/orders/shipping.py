"""The work before animals leave, back from the day; common practice, no source.

What a carrier asks is in the IATA Live Animals Regulations; what the law asks the permit office
knows.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

PACKED = "water prepared and aerated, boxes and bags laid out"
STEPS: Sequence[tuple[int, str]] = (
    (7, "book the courier, and ask what it takes live"),
    (7, "papers and permits together"),
    (2, "last meal"),
    (2, "look each animal over"),
    (1, PACKED),
    (0, "pack; sting guarded, bags labelled"),
)
"""How many days before they leave, and what is done."""

LONGEST_HOURS = 48
"""A longer journey is asked about; common practice, no source."""


@dataclass(frozen=True)
class ShippingStep:
    """One piece of work and its day."""

    on: date
    what: str


def work_before(leaves_on: date, today: date, boxes: str = "") -> tuple[ShippingStep, ...]:
    """The work still to be done, the first first; what is late is for today.

    `boxes` says how this house packs.
    """
    return tuple(
        ShippingStep(
            max(leaves_on - timedelta(days=days), today),
            f"{what}: {boxes}" if boxes and what == PACKED else what,
        )
        for days, what in STEPS
    )


def long_journey(hours: int) -> str | None:
    """What to ask of a journey that takes very long."""
    if hours <= LONGEST_HOURS:
        return None
    return f"{hours} hours is a long journey: ask the carrier and a vet before."
