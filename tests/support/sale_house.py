"""A house that sells: two unrelated pairs with grown pups, a half-related litter, and a buyer."""

from farm import Farm

from colony.acts.orders.buyers import add_buyer
from colony.acts.orders.orders import OrderPage, add_order
from colony.acts.orders.reserving import reserve


class SaleHouse(Farm):
    """A farm with pups that are ready, and verbs of the sale."""

    def buyer(self, name: str = "Anna Pond", **facts: object) -> None:
        """Somebody who buys."""
        self.do(add_buyer, name=name, facts=facts)

    def order(self, *wants: str, buyer: str = "Anna", **facts: object) -> OrderPage:
        """What somebody asks for today."""
        page: OrderPage = self.do(
            add_order, buyer=buyer, wants=wants, **{"on": self.today, **facts}, today=self.today
        )
        return page

    def keep(self, order: str, *tags: str, **facts: object) -> OrderPage:
        """Animals are kept for an order."""
        page: OrderPage = self.do(
            reserve, order=order, tags=tags, **{"on": self.today, **facts}, today=self.today
        )
        return page


def sale_house(location: str) -> SaleHouse:
    """Pups 25-01 of Alma x Bruno, 25-02 of Cora x Dino, 25-03 of Ella x Bruno; all of them ready."""
    house = SaleHouse(location)
    house.tank("B1", size="1500cm")
    for dam in ("Alma", "Cora", "Ella"):
        house.female(dam, tank="B1")
    for sire in ("Bruno", "Dino"):
        house.male(sire, tank="B1")
    for dam, sire in (("Alma", "Bruno"), ("Cora", "Dino"), ("Ella", "Bruno")):
        recorded = house.litter(dam, "2F2M", sires=sire, born="200d ago", tank="B1")
        for tag in recorded.pups:
            house.measure(tag, "19cm", on="1d ago")
            for food in ("prawn", "fish"):
                for day in ("40d ago", "1d ago"):
                    house.feed(tag, food, on=day)
    return house
