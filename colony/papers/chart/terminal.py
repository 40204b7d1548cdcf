"""A pedigree chart as lines of text: the same animals as on paper, as a tree."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from colony.papers.chart.members import Family, Members, Scope, chart_members
from colony.papers.chart.text import AnimalText, chart_text
from colony.pedigree.graph.graph import Pedigree

SIGNS = {
    "M": "\N{WHITE SQUARE}",
    "F": "\N{WHITE CIRCLE}",
    "U": "\N{WHITE DIAMOND}",
}
BRANCH, LAST, ALONG, BESIDE = "├─ ", "└─ ", "│  ", "   "


def chart_lines(pedigree: Pedigree, scope: Scope, *, width: int = 80) -> list[str]:
    """Draw an animal with its ancestors, then its pups, in lines no wider than `width`.

    An animal that stands above already is named again and not unfolded again.
    """
    subject = scope.subject
    members = chart_members(pedigree, scope)
    tree = _Tree(pedigree, members, chart_text(pedigree, members), scope.dead)
    lines = [tree.line(subject, ""), *tree.ancestors(subject, "")]
    pups = list(tree.descendants(subject, ""))
    if pups:
        lines += ["", f"Pups of {pedigree.tags[subject]}", *pups]
    return [
        line if len(line) <= width else line[: width - 1] + "\N{HORIZONTAL ELLIPSIS}"
        for line in lines
    ]


@dataclass
class _Tree:
    """Unfolds each animal once."""

    pedigree: Pedigree
    members: Members
    text: Mapping[int, AnimalText]
    dead: frozenset[int]
    shown: set[int] = field(default_factory=set)

    def line(self, animal: int, role: str) -> str:
        """One animal: sign, tag, F and how much is known."""
        words = self.text[animal]
        facts = [*words.inbreeding, words.known] if words.known else ["founder"]
        if animal in self.dead:
            facts.append("dead")
        return f"{role}{SIGNS[self.pedigree.sexes[animal]]} {words.tag}  {'  '.join(facts)}"

    def ancestors(self, animal: int, indent: str) -> Iterator[str]:
        """Lines of the parents of an animal, each followed by its own."""
        self.shown.add(animal)
        family = next((family for family in self.members.families if animal in family.pups), None)
        for role, parent, branch, below in _branches(family):
            if parent in self.shown:
                yield f"{indent}{branch}{role}{self.pedigree.tags[parent]} (above)"
            else:
                yield indent + branch + self.line(parent, role)
                yield from self.ancestors(parent, indent + below)

    def descendants(self, animal: int, indent: str) -> Iterator[str]:
        """Lines of the pups of an animal, each followed by its own."""
        generation = self.members.generation
        pups = [
            (pup, family)
            for family in self.members.families
            if animal in family.parents
            for pup in family.pups
            if pup in self.members.descendants and generation[pup] < generation[animal]
        ]
        for at, (pup, family) in enumerate(pups, start=1):
            branch, below = (LAST, BESIDE) if at == len(pups) else (BRANCH, ALONG)
            others = [self.pedigree.tags[p] for p in family.parents if p != animal]
            partner = f"  with {' or '.join(others)}" if others else ""
            if pup in self.shown:
                yield f"{indent}{branch}{self.pedigree.tags[pup]} (above){partner}"
            else:
                self.shown.add(pup)
                yield f"{indent}{branch}{self.line(pup, '')}{partner}"
                yield from self.descendants(pup, indent + below)


def _branches(family: Family | None) -> Iterator[tuple[str, int, str, str]]:
    """Role, parent, the branch before it, and what stands before its own branches."""
    parents = [] if family is None or family.dam is None else [("dam ", family.dam)]
    for sire, share in family.sires if family else ():
        role = f"sire? {share:.0%} " if family and family.doubtful else "sire "
        parents.append((role, sire))
    for at, (role, parent) in enumerate(parents, start=1):
        yield role, parent, *((LAST, BESIDE) if at == len(parents) else (BRANCH, ALONG))
