"""What a line, a page or a form is about."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field


@dataclass(frozen=True)
class About:
    """One thing of the book: its kind (animal, litter, tank, order or place) and its key."""

    kind: str
    key: str
    sex: str = field(default="", compare=False)

    @property
    def tag(self) -> str:
        """The tag, where this is an animal."""
        return self.key if self.kind == "animal" else ""

    @property
    def tank(self) -> str:
        """The code, where this is a tank."""
        return self.key if self.kind == "tank" else ""


@dataclass(frozen=True)
class Beginning:
    """What a form begins with: what is looked at, marked and queued behind it."""

    about: About | None = None
    marked: Sequence[str] = ()
    queue: Sequence[str] = ()
    initial: Mapping[str, str] = field(default_factory=dict)

    @property
    def tag(self) -> str:
        """The animal that is looked at."""
        return self.about.tag if self.about else ""

    @property
    def order(self) -> str:
        """The number of the order that is looked at."""
        return self.about.key if self.about and self.about.kind == "order" else ""

    @property
    def female(self) -> str:
        """The animal that is looked at, unless it is known to be no female."""
        return self.tag if self.about and self.about.sex in {"", "F"} else ""
