"""A family drawn from left to right: the animal, its parents, and theirs."""

from collections.abc import Iterator

from colony.acts.pedigree.family import FamilyMember

SEX_WORDS = {"F": "f", "M": "m", "U": "?"}


def draw_family(kin: FamilyMember, generations: int) -> str:
    """Draw an animal on the left and each generation further to the right.

    A sire in doubt stands with his share; an unknown parent as a dash, where its mate is known.
    """
    return "\n".join(_lines(kin, generations))


def _lines(kin: FamilyMember, generations: int) -> list[str]:
    name = f"{kin.tag} {SEX_WORDS[kin.sex]}"
    if kin.share < 1:
        name += f" {kin.share:.0%}"
    branches = list(_branches(kin, generations))
    if not branches:
        return [name]
    drawn: list[str] = []
    for at, branch in enumerate(branches):
        drawn += _hang(branch, first=at == 0, last=at == len(branches) - 1)
    middle = len(drawn) // 2
    pad = " " * (len(name) + 1)
    return [f"{name} {line}" if at == middle else pad + line for at, line in enumerate(drawn)]


def _branches(kin: FamilyMember, generations: int) -> Iterator[list[str]]:
    if generations == 0 or (kin.dam is None and not kin.sires):
        return
    for sire in kin.sires:
        yield _lines(sire, generations - 1)
    if not kin.sires:
        yield ["- sire unknown"]
    yield _lines(kin.dam, generations - 1) if kin.dam else ["- dam unknown"]


def _hang(branch: list[str], *, first: bool, last: bool) -> list[str]:
    """Hang one parent's lines on the stem: a corner at its own line, a stem beside the rest."""
    at = len(branch) // 2
    corner = "┌─ " if first else "└─ " if last else "├─ "
    above = "   " if first else "│  "
    below = "   " if last else "│  "
    return [
        (corner if line == at else above if line < at else below) + text
        for line, text in enumerate(branch)
    ]
