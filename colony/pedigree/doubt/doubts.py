"""What a pedigree may leave open: who sired a litter, and how founders are related."""

from dataclasses import dataclass

UNKNOWN = -1
"""Position of a parent that nobody knows."""


@dataclass(frozen=True)
class Doubt:
    """Uncertain paternity of one litter, or of one animal.

    Attributes
    ----------
    pups
        Positions of the pups in doubt; a pup that a test has settled is not among them.
    sires
        Positions of the possible sires, -1 for somebody unknown and unrelated.
    shares
        The probability of each, in the order of `sires`; they sum to 1.
    pups_may_differ
        False: ONE sire, not known which, so that the pups are full sibs. True: each pup's
        sire is drawn by itself.
    """

    pups: tuple[int, ...]
    sires: tuple[int, ...]
    shares: tuple[float, ...]
    pups_may_differ: bool = False

    def __post_init__(self) -> None:
        if len(self.sires) != len(self.shares) or not self.sires:
            raise ValueError("a doubt needs one share for each possible sire, and a sire")
        if min(self.shares) < 0 or abs(sum(self.shares) - 1) > 1e-9:  # noqa: PLR2004 - rounding
            raise ValueError(f"the shares of possible sires sum to {sum(self.shares)}, not to 1")

    @property
    def possible(self) -> tuple[tuple[int, float], ...]:
        """The sires that have a share at all, each once, with it."""
        share_of: dict[int, float] = {}
        for sire, share in zip(self.sires, self.shares, strict=True):
            share_of[sire] = share_of.get(sire, 0.0) + share
        return tuple((sire, share) for sire, share in share_of.items() if share > 0)


@dataclass(frozen=True)
class FounderKinship:
    """Founders that are known or suspected to be related, such as one shipment.

    Attributes
    ----------
    founders
        Positions of animals without recorded parents; no founder stands in two groups.
    kinship
        Kinship between any two of them, at most ((1 + F) / 2)^2: 1/4 where they are not inbred,
        which is that of full sibs.
    inbreeding
        F of each of them.
    """

    founders: tuple[int, ...]
    kinship: float
    inbreeding: float = 0.0

    def __post_init__(self) -> None:
        if not 0 <= self.kinship <= ((1 + self.inbreeding) / 2) ** 2 <= 1:
            raise ValueError(
                f"founders with F {self.inbreeding} cannot have a kinship of {self.kinship}"
            )
