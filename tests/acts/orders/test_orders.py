"""Orders: what is asked for, what is kept, what is paid, and how it ends."""

from collections.abc import Iterator
from datetime import date, timedelta

import pytest
from sale_house import SaleHouse, sale_house

from colony.acts.animals.animals import end_animal
from colony.acts.animals.page import show_animal
from colony.acts.book.check import check_book
from colony.acts.book.settings import set_setting
from colony.acts.book.undo import undo_last
from colony.acts.orders.buyers import edit_buyer
from colony.acts.orders.handing import arrived, cancel_order, close_order, collect, ship
from colony.acts.orders.orders import (
    OrderPage,
    edit_order,
    list_orders,
    note_offer,
    show_order,
)
from colony.acts.orders.payments import pay
from colony.acts.orders.reserving import adopt_names, release
from colony.acts.pups.ready import ready_pups
from colony.refusals.animals import (
    AnywayNeedsWhy,
    EndsBeforeItBegan,
    NothingToChange,
    StandsAgainst,
)
from colony.refusals.base import Refusal
from colony.refusals.orders import (
    MoreThanPaid,
    NoSuchOrder,
    NothingKept,
    NothingWanted,
    NotKeptFor,
    NotNowWithOrder,
    NotShipped,
    ReservedUntilWhen,
    UnreadableWant,
)


@pytest.fixture
def house(begun_location: str) -> Iterator[SaleHouse]:
    """A house with two buyers and an order for a pair."""
    found = sale_house(begun_location)
    found.buyer("Anna Pond")
    found.buyer("Ben Lake")
    found.order("1F1M leopoldi, 15cm, half sibs, 300 each", deposit="100")
    yield found
    found.book.close()


def page_of(house: SaleHouse, order: str = "1") -> OrderPage:
    """How an order stands."""
    found: OrderPage = house.ask(show_order, order=order, today=house.today).page
    return found


def act(house: SaleHouse, what: object, order: str = "1", **facts: object) -> object:
    """Something is done to an order today."""
    return house.do(what, order=order, **{"on": house.today, **facts}, today=house.today)  # type: ignore[arg-type] # each act takes its own


def test_an_order_says_what_is_wanted_and_what_is_owed(house: SaleHouse) -> None:
    """As it may be typed again, in the units of the house."""
    page = page_of(house)
    assert page.want == "1F1M leopoldi, 15cm, half sibs, 300 each"
    assert (page.state, page.deposit, page.price, page.owed) == ("asked", 100, 600, 500)
    assert house.order(page.want, buyer="Ben").want == page.want
    several = house.order("2F leopoldi, 99.50 each", "1 leopoldi, 12cm")
    assert several.want == "2F leopoldi, 99.50 each + 1 leopoldi, 12cm"


@pytest.mark.parametrize(
    ("wants", "refusal"),
    [((), NothingWanted), (("blue",), UnreadableWant), (("1F goldfish",), Refusal)],
)
def test_an_order_for_nothing_that_can_be_read_is_refused(
    house: SaleHouse, wants: tuple[str, ...], refusal: type[Refusal]
) -> None:
    """And nothing is written."""
    before = house.written()
    with pytest.raises(refusal):
        house.order(*wants)
    assert house.written() == before


def test_a_line_of_the_house_can_be_asked_for(house: SaleHouse) -> None:
    """By its own name, whatever its case."""
    house.edit("25-01-1", line="Pearl")
    assert house.order("1F pearl").want == "1F Pearl"


def test_those_with_money_paid_come_first_then_the_first_asked(house: SaleHouse) -> None:
    """The queue is by deposit, then by day."""
    house.order("1F leopoldi", buyer="Ben", on=house.today - timedelta(days=9))
    house.order("1M leopoldi", buyer="Ben", on=house.today - timedelta(days=20))
    pages = house.ask(list_orders, today=house.today)
    assert [page.order for page in pages] == [1, 3, 2]
    assert [p.order for p in house.ask(list_orders, buyer="Anna", today=house.today)] == [1]
    act(house, cancel_order, "2")
    only: dict[str, bool] = {"only_open": True}
    assert [p.order for p in house.ask(list_orders, **only, today=house.today)] == [1, 3]
    assert [p.order for p in house.ask(list_orders, today=house.today)] == [1, 3, 2]
    assert [p.order for p in house.ask(list_orders, state="cancelled", today=house.today)] == [2]


def test_a_pair_is_kept_paid_collected_and_gone(house: SaleHouse) -> None:
    """From what was asked to an animal in a box: each state by what happened."""
    act(house, note_offer, note="25-01-1 and 25-02-3")
    assert page_of(house).state == "offered"
    page = house.keep("1", "25-01-1", "25-02-3")
    assert (page.state, page.tags, page.warnings) == ("reserved", ["25-01-1", "25-02-3"], ())
    assert page.kept_until == house.today + timedelta(days=28)
    act(house, pay, amount="500")
    assert page_of(house).state == "paid"
    done = act(house, close_order)
    assert isinstance(done, OrderPage)
    assert (done.state, done.owed, done.warnings) == ("closed", 0, ())
    animal = house.ask(show_animal, tag="25-01-1", today=house.today)
    assert (animal.facts["status"], animal.facts["ended_why"]) == ("sold", "order 1")
    events = house.ask(show_order, order="1", today=house.today).events
    assert [each.event for each in events] == [
        *("deposit", "offered", "reserved", "paid", "collected", "closed")
    ]
    assert house.ask(check_book, today=house.today) == []
    with house.book.act("book undo") as session:
        undo_last(session)
    assert (page_of(house).state, page_of(house).tags) == ("paid", ["25-01-1", "25-02-3"])
    assert house.ask(show_animal, tag="25-01-1", today=house.today).facts["status"] == "present"


def test_a_sale_that_is_written_late_is_of_its_own_day(house: SaleHouse) -> None:
    """What was kept and fetched yesterday is written today; before its birth nothing was."""
    yesterday = house.today - timedelta(days=1)
    house.keep("1", "25-01-1")
    with pytest.raises(EndsBeforeItBegan):
        act(house, close_order, on=date(2020, 1, 1))
    done = act(house, close_order, on=yesterday)
    assert isinstance(done, OrderPage)
    assert (done.state, done.tags) == ("closed", ["25-01-1"])
    animal = house.ask(show_animal, tag="25-01-1", today=house.today)
    assert animal.facts["ended_on"] == yesterday


def test_what_is_kept_is_not_sold_or_kept_for_another_without_a_reason(house: SaleHouse) -> None:
    """The guard names the order and the buyer; the book keeps the reason, not the name."""
    house.order("1F leopoldi", buyer="Ben")
    house.keep("1", "25-01-1")
    with pytest.raises(StandsAgainst, match=r"reserved for order 1 \(Anna Pond\)"):
        house.do(
            end_animal, tag="25-01-1", how="sold", on=house.today, why="Ben", today=house.today
        )
    with pytest.raises(StandsAgainst, match="reserved for order 1"):
        house.keep("2", "25-01-1")
    with pytest.raises(AnywayNeedsWhy):
        house.keep("2", "25-01-1", anyway=True)
    page = house.keep("2", "25-01-1", anyway=True, why="Anna waits gladly")
    assert page.tags == ["25-01-1"]
    assert (page_of(house).state, page_of(house).tags) == ("asked", [])
    (kept,) = house.rows("SELECT what, why FROM overruling")
    assert kept == ("reserved for order 1", "Anna waits gladly")
    house.do(
        end_animal, tag="25-01-1", how="sold", on=house.today, why="ben lake", today=house.today
    )
    assert (page_of(house, "2").state, page_of(house, "2").tags) == ("asked", [])


def test_what_is_held_unready_or_kept_back_is_not_handed_over(house: SaleHouse) -> None:
    """Each is named; a reason overrules them, and stands in the book."""
    young = house.litter("Cora", "1F", sires="Dino", born="10d ago", tank="B1").pups[0]
    house.keep("1", young, "25-02-3")
    house.hold("25-02-3")
    with pytest.raises(StandsAgainst) as refused:
        act(house, close_order)
    assert "25-02-3: health hold" in refused.value.sentence
    assert f"{young}: waits on age, width" in refused.value.sentence
    assert page_of(house).state == "reserved"
    done = act(house, collect, anyway=True, why="the buyer is a vet")
    assert isinstance(done, OrderPage)
    assert done.state == "collected"
    assert {why for (why,) in house.rows("SELECT why FROM overruling")} == {"the buyer is a vet"}


def test_a_reservation_ends_on_its_day_unless_it_is_prolonged(house: SaleHouse) -> None:
    """From the day after its last nobody waits for it any more, and the pup is for sale again."""
    house.keep("1", "25-01-1", until=house.today + timedelta(days=3))
    ready = house.ask(ready_pups, everybody=True, today=house.today)
    assert next(p for p in ready if p.tag == "25-01-1").reserved_for == "Anna Pond"
    house.keep("1", "25-01-1", until=house.today + timedelta(days=5))
    house.today += timedelta(days=5)
    assert page_of(house).tags == ["25-01-1"]
    house.today += timedelta(days=1)
    assert (page_of(house).state, page_of(house).tags) == ("asked", [])
    free = house.ask(ready_pups, today=house.today)
    assert "25-01-1" in {pup.tag for pup in free}
    assert house.keep("1", "25-01-1").state == "reserved"
    with pytest.raises(ReservedUntilWhen):
        house.keep("1", "25-01-1", until=house.today - timedelta(days=1))


def test_a_warning_tells_who_is_too_related_or_not_asked_for(house: SaleHouse) -> None:
    """Full sibs where half sibs were asked for; a third where two were."""
    page = house.keep("1", "25-01-1", "25-01-3")
    assert page.warnings == ("25-01-1 and 25-01-3: kinship 0.25, and half sibs was asked for.",)
    page = house.keep("1", "25-02-1")
    assert "25-02-1: not what order 1 asks for." in page.warnings


def test_who_dies_is_kept_for_nobody_and_the_order_waits_again(house: SaleHouse) -> None:
    """The other one is kept still; when it goes too, the order is asked for again."""
    house.keep("1", "25-01-1", "25-02-3")
    house.end("25-01-1")
    assert (page_of(house).state, page_of(house).tags) == ("reserved", ["25-02-3"])
    with pytest.raises(NotKeptFor):
        act(house, release, tags=["25-01-3"])
    act(house, release)
    assert page_of(house).state == "asked"


def test_an_order_that_comes_to_nothing_frees_its_animals_and_names_the_money(
    house: SaleHouse,
) -> None:
    """What was paid is given back or kept by word: the book asks."""
    house.keep("1", "25-01-1")
    done = act(house, cancel_order, note="moved away")
    assert isinstance(done, OrderPage)
    assert (done.state, done.tags) == ("cancelled", [])
    assert "EUR 100.00 was paid" in done.warnings[0]
    act(house, pay, amount="100", kind="refund")
    assert page_of(house).paid == 0
    with pytest.raises(MoreThanPaid):
        act(house, pay, amount="1", kind="refund")
    with pytest.raises(NotNowWithOrder, match="cancelled and cannot be reserved"):
        house.keep("1", "25-01-1")


def test_a_shipment_is_planned_back_from_its_day_and_then_leaves(house: SaleHouse) -> None:
    """What stands against it is said beforehand, and refuses on the day."""
    with pytest.raises(NothingKept):
        act(house, ship, hours=20)
    house.keep("1", "25-01-1", "25-02-3")
    house.hold("25-01-1")
    leaves = house.today + timedelta(days=10)
    house.do(set_setting, key="shipping_boxes", value="one a bag, two bags a box")
    house.do(edit_buyer, buyer="Anna", facts={"papers": "7", "papers_until": house.today})
    frost: dict[str, str] = {"weather": "frost in the hills"}
    planned = house.do(ship, order="1", on=leaves, hours=60, **frost, today=house.today)
    assert any("one a bag" in step.what for step in planned.work)
    assert any("papers of Anna Pond hold until" in sentence for sentence in planned.against)
    assert "On the way: frost in the hills." in planned.against
    assert (planned.gone, planned.order.state) == (False, "reserved")
    assert planned.work[0].on == leaves - timedelta(days=7)
    assert any("health hold" in sentence for sentence in planned.against)
    assert any("60 hours" in sentence for sentence in planned.order.warnings)
    with pytest.raises(NotShipped):
        act(house, arrived)
    house.today = leaves
    with pytest.raises(StandsAgainst, match="health hold"):
        act(house, ship, hours=20)
    gone = house.do(ship, order="1", on=leaves, hours=20, anyway=True, why="healed", today=leaves)
    assert (gone.gone, gone.order.state) == (True, "shipped")
    page = house.do(arrived, order="1", on=leaves, lost=1, claim="carrier, 300", today=leaves)
    assert page.state == "shipped"
    assert act(house, close_order).warnings == ("EUR 500.00 is still owed.",)  # type: ignore[attr-defined] # an OrderPage
    found = house.ask(show_order, order="1", today=leaves).shipment
    assert (found.lost, found.claim, found.arrived_on) == (1, "carrier, 300", leaves)
    assert len(house.rows("SELECT id FROM shipment")) == 1


def test_an_order_is_corrected(house: SaleHouse) -> None:
    """What it asks for, by when, its note; nothing said is refused."""
    by = date(2026, 9, 1)
    page = house.do(
        edit_order, order="#1", wants=["2F leopoldi"], needed_by=by, note="hurry", today=house.today
    )
    assert (page.want, page.by, page.note, page.kinship) == ("2F leopoldi", by, "hurry", None)
    with pytest.raises(NothingToChange):
        house.do(edit_order, order="1", today=house.today)
    with pytest.raises(NoSuchOrder):
        house.do(edit_order, order="9", note="x", today=house.today)


def test_the_word_of_an_animal_becomes_an_order_of_a_buyer_of_that_name(house: SaleHouse) -> None:
    """Its key stays; a name that is known is no second buyer, and an empty one lets go."""
    house.edit("25-01-1", reserved_for="Carla Reed")
    facts = house.ask(show_animal, tag="25-01-1", today=house.today).facts
    assert facts["reserved_for"] == "Carla Reed"
    house.edit("25-01-2", reserved_for="carla reed")
    assert len(house.rows("SELECT id FROM buyer")) == 3
    assert [p.tags for p in house.ask(list_orders, buyer="Carla", today=house.today)] == [
        ["25-01-1"],
        ["25-01-2"],
    ]
    house.edit("25-01-1", reserved_for="")
    facts = house.ask(show_animal, tag="25-01-1", today=house.today).facts
    assert facts["reserved_for"] is None


def test_names_of_an_older_book_hold_and_are_taken_over(house: SaleHouse) -> None:
    """They guard as they did; one act makes orders of them."""
    house.write("UPDATE animal SET reserved_for = 'Old Friend' WHERE tag = '25-01-1'")
    with pytest.raises(StandsAgainst, match="reserved for Old Friend"):
        house.do(end_animal, tag="25-01-1", how="sold", on=house.today, today=house.today)
    assert house.do(adopt_names, today=house.today) == 1
    assert house.rows("SELECT reserved_for FROM animal WHERE tag = '25-01-1'") == [(None,)]
    assert [p.tags for p in house.ask(list_orders, buyer="Old", today=house.today)] == [["25-01-1"]]
    assert house.do(adopt_names, today=house.today) == 0
