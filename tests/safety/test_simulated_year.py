"""A year of random acts, by commands and as the forms call them: no guard was passed by.

What stands in the rows at the end is judged by a list of plain rules of its own, written here:
it knows nothing of the table of guards.
"""

import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest
from clock import stop_clock
from farm import Farm

from colony.acts.animals.animals import end_animal
from colony.acts.book.check import check_book
from colony.acts.pairings.pairings import start_pairing
from colony.acts.tanks.tanks import add_tank, move, set_system
from colony.commands.cli.failures import run
from colony.refusals.base import Refusal

FIRST = date(2026, 3, 9)
ACTS = 90
BUYERS = ("Brook House", "Pond Ltd")
WHY = "it was decided so"


@dataclass
class Year:
    """One farm, its day, and chance."""

    farm: Farm
    chance: random.Random
    patch: pytest.MonkeyPatch

    def go_on(self) -> None:
        """A few days later."""
        self.farm.today += timedelta(days=self.chance.randrange(0, 8))
        stop_clock(self.patch, self.farm.today)

    def someone(self, sex: str | None = None) -> str:
        """Anybody who was ever here, of a sex if one is asked for."""
        found = self.farm.rows("SELECT tag FROM animal WHERE ? IN ('', sex) ORDER BY id", sex or "")
        return str(self.chance.choice(found)[0])

    def decides(self) -> dict[str, Any]:
        """Now and then the breeder overrules, mostly with a reason."""
        if self.chance.random() < 0.6:
            return {}
        return {"anyway": True, "why": self.chance.choice((WHY, WHY, None))}

    def command(self, *words: str) -> None:
        """The same at a command line."""
        decided = self.decides()
        more = ["--anyway"] * bool(decided) + ["--why", WHY] * bool(decided.get("why"))
        assert run([*words, *more]) in {0, 1, 2}


def pairs(year: Year) -> None:
    """By the command, or as the form does it."""
    dam, sire = year.someone("F"), year.someone("M")
    if year.chance.random() < 0.5:
        year.command("pairing", "start", dam, sire)
    else:
        today = year.farm.today
        facts = {"dam": dam, "sires": [sire], "on": today, "today": today}
        year.farm.do(start_pairing, **facts, **year.decides())


def parts(year: Year) -> None:
    """A pairing ends."""
    run(["pairing", "end", year.someone("F")])


def sells(year: Year) -> None:
    """To one of two buyers; both ways."""
    tag, buyer = year.someone(), year.chance.choice(BUYERS)
    if year.chance.random() < 0.5:
        run(["animal", "end", tag, "sold", "--why", buyer, "--yes"])
    else:
        today = year.farm.today
        decided = {"anyway": year.chance.random() < 0.3, "why": buyer}
        year.farm.do(end_animal, tag=tag, how="sold", on=today, today=today, **decided)


def moves(year: Year) -> None:
    """Somebody goes somewhere."""
    tank = year.chance.choice(("N1", "N2", "Q1"))
    if year.chance.random() < 0.5:
        year.command("tank", "move", year.someone(), tank)
    else:
        today = year.farm.today
        facts = {"tags": [year.someone()], "tank": tank, "on": today, "today": today}
        year.farm.do(move, **facts, **year.decides())


def brings(year: Year) -> None:
    """A wild one comes, and is put somewhere."""
    tag = f"W{year.chance.randrange(10_000)}"
    tank = year.chance.choice(("N1", "Q1"))
    words = ["animal", "add", tag, "--species", year.chance.choice(("leopoldi", "motoro"))]
    sex = year.chance.choice("FM")
    year.command(
        *words,
        "--sex",
        sex,
        "--origin",
        "wild",
        "--arrived",
        "today",
        "--born",
        "2019",
        "--tank",
        tank,
    )


def bears(year: Year) -> None:
    """A litter is born."""
    run(["litter", "record", "--dam", year.someone("F"), "--pups", "1F1M"])


def holds(year: Year) -> None:
    """Somebody who is here is held, let go, reserved, or kept back."""
    here = year.farm.rows("SELECT tag FROM animal WHERE status = 'present' ORDER BY id")
    tag = str(year.chance.choice(here)[0])
    run(
        year.chance.choice(
            (
                ["animal", "hold", tag, "--why", "a sore"],
                ["animal", "release", tag],
                ["animal", "edit", tag, "--reserved-for", year.chance.choice(BUYERS)],
                ["animal", "edit", tag, "--hold-back"],
                ["animal", "edit", tag, "--for-sale"],
            )
        )
    )


DONE: tuple[Callable[[Year], None], ...] = (pairs, pairs, parts, sells, moves, brings, bears, holds)


@pytest.mark.parametrize("seed", [1, 2])
def test_a_year_of_random_acts_passes_no_guard_by(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, seed: int
) -> None:
    """Nothing is wrong in the book, and nothing was done that a plain list of rules forbids."""
    farm = Farm(tmp_path / "year.colony")
    monkeypatch.setenv("COLONY_BOOK", farm.location)
    farm.tank("N1", "900cm")
    farm.tank("N2", "900cm")
    farm.do(set_system, name="Quiet")
    farm.do(add_tank, code="Q1", system="Quiet", role="intake", diameter_mm=5000)
    for tag in ("Alma", "Bella"):
        farm.female(tag, born="2016", tank="N1")
    farm.male("Bruno", born="2016", tank="N1")
    for tag, sex in (("Cleo", "F"), ("Kimo", "M"), ("Ivo", "M")):
        farm.animal(
            tag, sex=sex, born="2020", species="leopoldi", dam="Alma", sires="Bruno", tank="N2"
        )
    farm.male("Otto", species="motoro", tank="N2")
    year = Year(farm, random.Random(seed), monkeypatch)  # noqa: S311 - a year that can be lived again
    for _ in range(ACTS):
        year.go_on()
        try:
            year.chance.choice(DONE)(year)
        except Refusal:
            continue
    wrong = [each for each in farm.ask(check_book, today=farm.today) if each.level == "wrong"]
    assert [each for each in wrong if each.check != "clock"] == []
    assert list(forbidden(farm)) == []
    assert len(farm.rows("SELECT id FROM pairing")) > 2
    assert farm.rows("SELECT id FROM animal WHERE status = 'sold'")
    assert farm.rows("SELECT id FROM overruling")


def forbidden(farm: Farm) -> list[str]:
    """What stands in the rows and should not, unless a reason for it stands beside it."""
    reasons = {
        (animal, guard, day)
        for first, second, guard, day in farm.rows(
            "SELECT animal_id, other_id, guard, decided_on FROM overruling WHERE why <> ''"
        )
        for animal in (first, second)
    }
    done = (*_paired(farm), *_sold(farm), *_brought(farm), *_born(farm))
    return [
        f"{guard}: {what}" for *key, what in done for guard in key[1:2] if tuple(key) not in reasons
    ]


Act = tuple[int, str, str, str]
"""The animal, the guard that it passed by, the day, and what was done."""


def _held(farm: Farm, animal: int, day: str) -> bool:
    """Whether it was held that day by a hold of an earlier one."""
    holds = farm.rows(
        "SELECT id FROM hold WHERE animal_id = ? AND started < ? AND coalesce(ended, '9999') > ?",
        animal,
        day,
        day,
    )
    return bool(holds)


def _paired(farm: Farm) -> Iterator[Act]:
    parents = _parents(farm)
    species = dict(farm.rows("SELECT id, species_id FROM animal"))
    for dam, sire, day in farm.rows(
        "SELECT dam_id, sire_id, started FROM pairing JOIN pairing_sire ON pairing_id = pairing.id"
    ):
        if _kinship(parents, dam, sire) > 0.125:
            yield dam, "kin", day, f"{dam} with {sire}"
        if species[dam] != species[sire]:
            yield dam, "species", day, f"{dam} with {sire}"
        for animal in (dam, sire):
            if _held(farm, animal, day):
                yield animal, "hold", day, f"{dam} with {sire}"


def _sold(farm: Farm) -> Iterator[Act]:
    for animal, reserved, kept, day, why in farm.rows(
        "SELECT id, reserved_for, held_back, ended_on, ended_why FROM animal WHERE status = 'sold'"
    ):
        if reserved and reserved != why.removeprefix("left isolation early: "):
            yield animal, "reserved", day, f"{animal} to {why}"
        if kept:
            yield animal, "held_back", day, f"{animal} to {why}"
        if _held(farm, animal, day):
            yield animal, "hold", day, f"{animal} to {why}"


def _brought(farm: Farm) -> Iterator[Act]:
    for animal, day, arrived in farm.rows(
        "SELECT animal_id, entered_on, arrived FROM placement JOIN animal ON animal.id = animal_id"
        " JOIN tank ON tank.id = tank_id WHERE origin = 'wild' AND tank.role <> 'intake'"
        " AND NOT EXISTS (SELECT 1 FROM placement before WHERE before.animal_id = animal.id"
        " AND before.entered_on < placement.entered_on)"
    ):
        if date.fromisoformat(day) < date.fromisoformat(arrived) + timedelta(days=30):
            yield animal, "arrival", day, f"{animal} into shared water"


def _born(farm: Farm) -> Iterator[Act]:
    for dam, day, born in farm.rows(
        "SELECT litter.dam_id, litter.born, animal.born FROM litter"
        " JOIN animal ON animal.id = litter.dam_id WHERE animal.born IS NOT NULL"
    ):
        if date.fromisoformat(day) < date.fromisoformat(born) + timedelta(days=350):
            yield dam, "child", day, f"{dam} bore as a child"


def _parents(farm: Farm) -> dict[int, tuple[int | None, list[tuple[int | None, float]]]]:
    """The dam of each, and its possible sires with their shares."""
    of_litter: dict[int, list[tuple[int | None, float]]] = {}
    for litter, sire, share in farm.rows(
        "SELECT litter_id, sire_id, share FROM possible_sire WHERE litter_id IS NOT NULL"
    ):
        of_litter.setdefault(litter, []).append((sire, share))
    dams = dict(farm.rows("SELECT id, dam_id FROM litter"))
    return {
        animal: (dams[litter], of_litter.get(litter, []))
        if litter
        else (dam, [(sire, 1.0)] if sire else [])
        for animal, dam, sire, litter in farm.rows(
            "SELECT id, dam_id, sire_id, litter_id FROM animal"
        )
    }


def _kinship(
    parents: dict[int, tuple[int | None, list[tuple[int | None, float]]]],
    first: int | None,
    second: int | None,
) -> float:
    """Kinship by its definition, the younger traced to its parents (Malecot 1948)."""
    if first is None or second is None:
        return 0.0
    if first == second:
        dam, sires = parents[first]
        return 0.5 * (1 + sum(share * _kinship(parents, dam, sire) for sire, share in sires))
    older, younger = sorted((first, second))
    dam, sires = parents[younger]
    of_sires = sum(share * _kinship(parents, older, sire) for sire, share in sires)
    return 0.5 * (_kinship(parents, older, dam) + of_sires)
