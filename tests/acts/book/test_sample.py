"""The sample colony is a farm that could be."""

import time
from collections import Counter
from datetime import date
from pathlib import Path

import pytest
from sqlmodel import Session, select

import colony.acts.book.sample as sample_act
from colony.acts.book.check import check_book
from colony.acts.book.sample import make_sample_book
from colony.acts.litters.due import due_litters
from colony.acts.orders.prices import list_expenses
from colony.acts.pups.ready import ready_pups
from colony.acts.tanks.loads import list_tanks
from colony.planning.orders.states import STATES
from colony.records import Animal, Hold, Litter, Measurement, Placement, PossibleSire, System, Tank
from colony.refusals.books import BookAlreadyThere, FolderNotThere
from colony.refusals.exchange import NotAColonyFolder
from colony.store.book import open_book
from colony.store.readers.orders.buyers import read_buyers
from colony.store.readers.orders.kept import read_kept
from colony.store.readers.orders.orders import read_orders
from colony.store.readers.pedigree import read_lineage

DAYS = (date(2026, 3, 2), date(2027, 2, 28), date(2031, 12, 31))


def session_of(folder: Path, today: date) -> Session:
    """A sample book of a day, open to read."""
    location = str(folder / f"{today}.colony")
    make_sample_book(location=location, today=today)
    return Session(open_book(location).engine)


@pytest.fixture(scope="module", params=DAYS, ids=str)
def farm(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> tuple[Session, date]:
    """The sample colony on one of several days."""
    today: date = request.param
    return session_of(tmp_path_factory.mktemp("sample"), today), today


def test_it_is_as_large_as_a_working_farm(farm: tuple[Session, date]) -> None:
    """About 60 adults of 4 species, 300 pups past and present, 45 tanks in 6 systems."""
    session, _ = farm
    animals = session.exec(select(Animal)).all()
    pups = [animal for animal in animals if animal.tag.startswith("L")]
    adults = [animal for animal in animals if animal.mature_since or animal.tag.isalpha()]
    assert 55 <= len(adults) <= 75
    assert 270 <= len(pups) <= 330
    assert len({animal.species_id for animal in adults}) == 4
    assert len({animal.line for animal in adults if animal.line}) >= 5
    assert len(session.exec(select(Tank)).all()) == 45
    assert len(session.exec(select(System)).all()) == 6
    roles = {tank.role for tank in session.exec(select(Tank))}
    assert roles == {"breeding", "nursery", "grow-out", "intake", "hospital"}


def test_nothing_in_it_is_wrong_or_odd_on_any_day(farm: tuple[Session, date]) -> None:
    """`book check` finds nothing, whatever day the dates are moved to."""
    session, today = farm
    # The journal is of the real clock, which may be ahead of the day tried.
    found = [one for one in check_book(session, today=today) if one.check != "clock"]
    assert {one.level for one in found} == {"accepted"}
    assert {one.where for one in found} == {"Birke", "Ines", "Juno", "Perla"}


def test_something_is_always_due_overdue_ready_and_not_yet(farm: tuple[Session, date]) -> None:
    """Whoever opens the sample sees each kind of work of the week."""
    session, today = farm
    due = due_litters(session, today=today)
    assert {"overdue", "confirmed", "expected"} <= {litter.state for litter in due}
    assert any(litter.earliest <= today <= litter.latest for litter in due)
    pups = ready_pups(session, everybody=True, today=today)
    assert 5 <= sum(pup.ready for pup in pups) < len(pups) - 5


def test_one_or_two_tanks_are_too_full_and_the_others_are_not(farm: tuple[Session, date]) -> None:
    """Loads are those of a house that is run with care."""
    session, today = farm
    tanks = list_tanks(session, today=today)
    assert 1 <= sum(bool(tank.breaks) for tank in tanks) <= 2
    assert sum(bool(tank.animals) for tank in tanks) >= 30
    assert any(tank.isolated_until for tank in tanks)


def test_it_has_doubt_holds_and_every_kind_of_end(farm: tuple[Session, date]) -> None:
    """One unknown sire, pups that may differ, one settled by a test, open holds, sold and dead."""
    session, _ = farm
    shares = Counter(row.litter_id for row in session.exec(select(PossibleSire)))
    doubtful = [one for one in session.exec(select(Litter)) if shares[one.id] > 1]
    assert {one.pups_may_differ for one in doubtful} == {True, False}
    animals = session.exec(select(Animal)).all()
    assert any(a.sire_id and a.litter_id in {one.id for one in doubtful} for a in animals)
    assert {hold.ended is None for hold in session.exec(select(Hold))} == {True, False}
    assert {animal.status for animal in animals} == {"present", "sold", "died", "gone"}
    assert any(animal.held_back for animal in animals)


def test_it_sells_to_a_dozen_buyers_in_every_state(farm: tuple[Session, date]) -> None:
    """Plainly invented ones; some animals are kept, some went, and money was paid."""
    session, today = farm
    buyers = read_buyers(session)
    assert len(buyers) == 12
    assert all((buyer.contact or "").endswith("@example.org") for buyer in buyers)
    orders = read_orders(session, today)
    assert {order.state for order in orders} == set(STATES)
    assert any(order.money.owed for order in orders)
    assert len(read_kept(session, today)) == 3
    assert list_expenses(session)


def test_some_animals_are_inbred_and_most_are_not(farm: tuple[Session, date]) -> None:
    """Four generations with a few close pairs: full sibs give 0.25 (Wright 1922)."""
    session, _ = farm
    lineage = read_lineage(session)
    ids = [row.id for row in lineage.herd.rows]
    found = dict(zip((r.tag for r in lineage.herd.rows), lineage.inbreeding(ids), strict=True))
    assert found["Hanna"] == pytest.approx(0.25)
    assert sum(f == 0 for f in found.values()) > len(found) / 3
    assert sum(f > 0.1 for f in found.values()) > 20


def test_events_lie_within_the_life_of_each_animal(farm: tuple[Session, date]) -> None:
    """Nobody is measured, moved or a parent before birth or after its end."""
    session, today = farm
    lives = {a.id: (a.born or date.min, a.ended_on or today) for a in session.exec(select(Animal))}
    for one in session.exec(select(Measurement)):
        born, ended = lives[one.animal_id]
        assert born <= one.measured_on <= ended
    for stay in session.exec(select(Placement)):
        born, ended = lives[stay.animal_id]
        assert born <= stay.entered_on <= ended
    for litter in session.exec(select(Litter)):
        born, ended = lives[litter.dam_id]
        assert born < litter.born <= ended


def test_a_sample_replaces_nothing_and_leaves_no_part_behind(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A path that is taken or not there is refused; so is a sample whose files are not there."""
    taken = tmp_path / "taken"
    taken.write_text("mine")
    with pytest.raises(BookAlreadyThere):
        make_sample_book(location=str(taken), today=DAYS[0])
    with pytest.raises(FolderNotThere):
        make_sample_book(location=str(taken / "below"), today=DAYS[0])
    monkeypatch.setattr(sample_act, "sample_folder", lambda: tmp_path)
    with pytest.raises(NotAColonyFolder):
        make_sample_book(location=str(tmp_path / "new.colony"), today=DAYS[0])
    assert [(path.name, path.read_text()) for path in tmp_path.iterdir()] == [("taken", "mine")]


def test_a_sample_is_made_in_seconds(tmp_path: Path) -> None:
    """Under 5 s of the processor: what else a machine is busy with does not count."""
    began = time.process_time()
    make_sample_book(location=str(tmp_path / "book.colony"), today=DAYS[0])
    assert time.process_time() - began < 5
