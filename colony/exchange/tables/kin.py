"""What the rows of a sheet cannot say of parents, all rows and the book taken together."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from colony.exchange.folder.noun import NounRow
from colony.exchange.sheet.circles import find_circles
from colony.exchange.tables.parents import by_tag
from colony.exchange.tables.reading import Source
from colony.exchange.tables.sires import sires_of
from colony.exchange.text.faults import Fault
from colony.notation.days import Day
from colony.notation.words import SEX_WORDS
from colony.refusals.base import WrongUse
from colony.refusals.cells import (
    DamAndSire,
    OwnAncestorCell,
    OwnParentCell,
    ParentOfWrongSex,
    ParentTooYoung,
)

ROLE_SEX = {"dam": "F", "sire": "M"}


@dataclass(frozen=True)
class KinRow:
    """One animal as the file and the book together have it; `row` is None where only the book does."""

    tag: str
    sex: str
    born: Day | None
    dam: str | None
    sires: tuple[str, ...]
    row: NounRow | None

    def written_parents(self) -> Iterator[tuple[str, str]]:
        """Each parent's role, and its tag as the pup's row has it."""
        if self.dam:
            yield "dam", self.dam
        for sire in self.sires:
            yield "sire", sire

    def parents(self) -> Iterator[tuple[str, str]]:
        """Each parent's role and folded tag."""
        for role, tag in self.written_parents():
            yield role, tag.casefold()


def gather_kin(rows: Sequence[NounRow], book: Mapping[str, NounRow]) -> dict[str, KinRow]:
    """Every animal of the book and the file by folded tag; what a row says goes first.

    The rows of the book, and those of a file with litters, have passed `with_parents`.
    """
    kin = {fold: _kin_row(row, None, None) for fold, row in book.items()}
    for fold, row in by_tag(rows).items():
        kin[fold] = _kin_row(row, kin.get(fold), row)
    return kin


def _kin_row(written: NounRow, known: KinRow | None, row: NounRow | None) -> KinRow:
    values = written.values
    sex = values.get("sex", "U")
    sires = tuple(share.tag for share in sires_of(values) if share.tag)
    return KinRow(
        known.tag if known else values["tag"],
        known.sex if known and sex == "U" else sex,
        values.get("born") or (known.born if known else None),
        values.get("dam") or (known.dam if known else None),
        sires or (known.sires if known else ()),
        row,
    )


def check_kin(source: Source, kin: Mapping[str, KinRow]) -> list[Fault]:
    """List every parent that cannot be: of the wrong sex, too young, or a pup of its own pups."""
    circles = find_circles({fold: [p for _, p in k.parents()] for fold, k in kin.items()})
    around = {step for circle in circles for step in _steps(circle)}
    faults = [fault for circle in circles if (fault := _circle(source, circle, kin))]
    first_roles: dict[str, tuple[str, int]] = {}
    for pup, role, fold in _named(kin):
        parent = kin.get(fold)
        wrongs = [
            OwnParentCell(pup.tag) if pup.tag.casefold() == fold else None,
            _wrong_sex(parent, role),
            _two_roles(pup, role, fold, parent, first_roles),
            None if (pup.tag.casefold(), fold) in around else _too_young(parent, pup),
        ]
        if wrong := next((wrong for wrong in wrongs if wrong), None):
            faults.append(_fault(source, pup, role, parent, wrong))
    return faults


def _named(kin: Mapping[str, KinRow]) -> Iterator[tuple[KinRow, str, str]]:
    """Each parent that a row names, or that has a row itself: the book alone is not the file's fault."""
    for pup in kin.values():
        for role, fold in pup.parents():
            if pup.row or (fold in kin and kin[fold].row):
                yield pup, role, fold


def _wrong_sex(parent: KinRow | None, role: str) -> WrongUse | None:
    if parent is None or parent.sex in ("U", ROLE_SEX[role]):
        return None
    in_file = parent.row and parent.row.values.get("sex", "U") != "U"
    where = f"in line {parent.row.line}" if in_file and parent.row else "in the book"
    return ParentOfWrongSex(parent.tag, role, SEX_WORDS[parent.sex], where)


def _two_roles(
    pup: KinRow,
    role: str,
    fold: str,
    parent: KinRow | None,
    first_roles: dict[str, tuple[str, int]],
) -> WrongUse | None:
    """Where nothing tells the sex of a parent, its first role does."""
    if pup.row is None or (parent and parent.sex != "U"):
        return None
    first, line = first_roles.setdefault(fold, (role, pup.row.line))
    return DamAndSire(parent.tag if parent else fold, role, first, line) if first != role else None


def _too_young(parent: KinRow | None, pup: KinRow) -> WrongUse | None:
    if parent is None or not (parent.born and pup.born) or parent.born.first < pup.born.last:
        return None
    return ParentTooYoung(parent.tag, str(parent.born), pup.tag, str(pup.born))


def _fault(source: Source, pup: KinRow, role: str, parent: KinRow | None, wrong: WrongUse) -> Fault:
    """Point at the row that names the parent, else at the parent's own row."""
    if pup.row:
        return source.fault(pup.row, role, wrong)
    assert parent is not None  # noqa: S101 - `_named` has seen to it
    assert parent.row is not None  # noqa: S101 - the same
    return source.fault(parent.row, "born" if isinstance(wrong, ParentTooYoung) else "sex", wrong)


def _steps(circle: Sequence[str]) -> Iterator[tuple[str, str]]:
    return zip(circle, [*circle[1:], circle[0]], strict=True)


def _circle(source: Source, circle: Sequence[str], kin: Mapping[str, KinRow]) -> Fault | None:
    """Point at the last row of the circle that names the next animal in it, if any does."""
    naming = [
        (row, role)
        for fold, parent in _steps(circle)
        for role, named in kin[fold].parents()
        if named == parent and (row := kin[fold].row) and role in row.cells
    ]
    if not naming:
        return None
    row, role = naming[-1]
    tags = [kin[fold].tag for fold in (*circle, circle[0])]
    return source.fault(row, role, OwnAncestorCell(tags))
