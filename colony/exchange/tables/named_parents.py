"""What being named as a parent says of an animal: that it is, and of which sex."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from colony.exchange.tables.kin import ROLE_SEX, KinRow


@dataclass
class NamedParent:
    """A parent of unknown sex, or without any row, as the pups name it."""

    tag: str
    sex: str
    recorded: bool
    """The file or the book has it; otherwise the name is all that there is."""
    last_pup_born: date | None = None

    def see(self, pup: KinRow) -> None:
        """Note that it lived when this pup was born or begotten."""
        if pup.born:
            self.last_pup_born = max(pup.born.first, self.last_pup_born or pup.born.first)


def named_parents(kin: Mapping[str, KinRow]) -> dict[str, NamedParent]:
    """Parents whose sex only their role tells, by folded tag; `kin` has passed `check_kin`."""
    named: dict[str, NamedParent] = {}
    for pup in kin.values():
        for role, tag in pup.written_parents() if pup.row else ():
            parent = kin.get(tag.casefold())
            if parent and parent.sex != "U":
                continue
            new = NamedParent(parent.tag if parent else tag, ROLE_SEX[role], parent is not None)
            named.setdefault(tag.casefold(), new).see(pup)
    return named
