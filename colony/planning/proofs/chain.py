"""The chain of origin: from an animal over its parents to each founder, and what is missing in it."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

UNDETERMINED = -1
"""The generation number of an animal that stands nobody knows how far from the wild."""


@dataclass(frozen=True)
class OnRecord:
    """What a book has of one animal's origin.

    `litter` is its litter in this book, "" where it was not born here; a sire of None is
    somebody unknown. `generation` counts from the wild (0), `UNDETERMINED` where that is not known;
    `wild_conceived` says that its dam came with it.
    """

    tag: str
    sex: str = "U"
    origin: str = "unknown"
    born: str = ""
    litter: str = ""
    dam: str | None = None
    sires: tuple[str | None, ...] = ()
    arrived: str = ""
    arrived_from: str = ""
    transponder: str = ""
    generation: int = UNDETERMINED
    wild_conceived: bool = False


@dataclass(frozen=True)
class Link:
    """One animal of a chain: how far it stands from the one asked about, what is there, what not."""

    tag: str
    step: int
    role: str
    recorded: tuple[str, ...]
    missing: tuple[str, ...]


@dataclass(frozen=True)
class MissingPaper:
    """Something that is missing of one animal: in how many chains, and how many it alone completes."""

    tag: str
    what: str
    chains: int
    completes: int


@dataclass(frozen=True)
class SourceCode:
    """A source code, whether the record would support it, and why; never a verdict."""

    code: str
    supported: bool
    why: str


def chain_of(tag: str, book: Mapping[str, OnRecord]) -> tuple[Link, ...]:
    """The links from an animal to its founders, those nearest to it first, each once."""
    links: list[Link] = []
    seen = {tag}
    row: list[tuple[str, str]] = [(tag, "itself")]
    step = 0
    while row:
        above: list[tuple[str, str]] = []
        for name, role in row:
            animal = book[name]
            links.append(Link(name, step, role, _recorded(animal), _missing(animal, step)))
            for parent, parents_role in _parents(animal):
                if parent not in seen and parent in book:
                    seen.add(parent)
                    above.append((parent, f"{parents_role} of {name}"))
        row, step = above, step + 1
    return tuple(links)


def missing_papers(tags: Iterable[str], book: Mapping[str, OnRecord]) -> list[MissingPaper]:
    """What is missing in the chains of some animals, what would complete the most of them first."""
    chains: Counter[tuple[str, str]] = Counter()
    alone: Counter[tuple[str, str]] = Counter()
    for tag in tags:
        found = {(link.tag, what) for link in chain_of(tag, book) for what in link.missing}
        chains.update(found)
        if len(found) == 1:
            alone.update(found)
    return sorted(
        (MissingPaper(*paper, count, alone[paper]) for paper, count in chains.items()),
        key=lambda paper: (-paper.completes, -paper.chains, paper.tag, paper.what),
    )


def source_codes(animal: OnRecord, book: Mapping[str, OnRecord]) -> tuple[SourceCode, ...]:
    """Which source codes the record of an animal would support, and which it cannot.

    The codes are those of CITES Resolution Conf. 12.3 (Rev.), what C asks for stands in Resolution
    Conf. 10.16 (Rev.), young of a female that was imported pregnant in Notification 1998/14; all from
    memory. The permit office decides.
    """
    complete = not any(link.missing for link in chain_of(animal.tag, book)[1:])
    wild, bred = animal.origin == "wild", animal.generation >= 1
    here = bool(animal.litter)
    second = animal.generation >= 2  # noqa: PLR2004 - F2, as Conf. 10.16 counts
    found = [
        SourceCode(
            "W",
            wild or animal.wild_conceived,
            "taken from the wild"
            if wild
            else "conceived in the wild, born of a dam that came with it"
            if animal.wild_conceived
            else "nothing says that it came from the wild",
        ),
        SourceCode(
            "R",
            animal.wild_conceived,
            "conceived in the wild and reared here"
            if animal.wild_conceived
            else "nothing says that it was taken young, or as a litter in its dam",
        ),
        SourceCode(
            "F",
            bred,
            f"born in captivity, generation F{animal.generation}"
            if bred
            else "conceived in the wild"
            if wild or animal.wild_conceived
            else "its generation cannot be told from what is on record",
        ),
        SourceCode(
            "C",
            second and complete,
            f"generation F{animal.generation}, every parent on record: Conf. 10.16 asks for more"
            if second and complete
            else "its chain has gaps"
            if second
            else "F1 at most: both parents have to be produced in a controlled environment"
            if bred
            else "its generation cannot be told from what is on record",
        ),
    ]
    known = any(code.supported for code in found)
    found.append(
        SourceCode(
            "U",
            not known,
            "nothing on record supports another code" if not known else "its origin is on record",
        )
    )
    if here and not known:
        found[-1] = SourceCode("U", True, "born here, of parents whose origin is not on record")
    return tuple(found)


def _parents(animal: OnRecord) -> list[tuple[str, str]]:
    dam = [(animal.dam, "dam")] if animal.dam else []
    doubt = "sire" if len(animal.sires) == 1 else "possible sire"
    return [*dam, *((sire, doubt) for sire in animal.sires if sire)]


def _recorded(animal: OnRecord) -> tuple[str, ...]:
    sires = [sire for sire in animal.sires if sire]
    told = (
        f"born here in litter {animal.litter}" if animal.litter else animal.origin,
        f"born {animal.born}" if animal.born else "",
        f"dam {animal.dam}" if animal.dam else "",
        f"sire {' or '.join(sires)}" if sires else "",
        f"arrived {animal.arrived}" if animal.arrived else "",
        f"from {animal.arrived_from}" if animal.arrived_from else "",
        f"transponder {animal.transponder}" if animal.transponder else "",
    )
    return tuple(each for each in told if each and each != "unknown")


def _missing(animal: OnRecord, step: int) -> tuple[str, ...]:
    lacks = list(_missing_of_birth(animal) if animal.litter else _missing_of_arrival(animal))
    if step == 0 and not animal.transponder:
        lacks.append("a transponder, which ties the animal to its papers")
    return tuple(lacks)


def _missing_of_birth(animal: OnRecord) -> Sequence[str]:
    known = [sire for sire in animal.sires if sire]
    if not known:
        return ["its sire"]
    if len(animal.sires) > 1:
        return [f"a test of its sire ({' or '.join(known)})"]
    return []


def _missing_of_arrival(animal: OnRecord) -> Sequence[str]:
    lacks = []
    if animal.origin == "unknown":
        lacks.append("where it is from")
    if not animal.arrived:
        lacks.append("the day of its arrival")
    if not animal.arrived_from:
        lacks.append("from whom it came")
    if animal.origin == "bred elsewhere" and not (animal.dam and any(animal.sires)):
        lacks.append("its breeder's word on its parents")
    return lacks
