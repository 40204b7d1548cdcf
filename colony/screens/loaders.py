"""What loads each form, place and page: a module is loaded when it is first shown."""

from collections.abc import Callable

from colony.screens.forms.form import Form
from colony.screens.frame.page import Page
from colony.screens.frame.place import Place


def _birth_form() -> type[Form]:
    from colony.screens.litters.birth_form import BirthForm

    return BirthForm


def _widths_form() -> type[Form]:
    from colony.screens.pups.widths_form import WidthsForm

    return WidthsForm


def _move_form() -> type[Form]:
    from colony.screens.tanks.move_form import MoveForm

    return MoveForm


def _sign_form() -> type[Form]:
    from colony.screens.pairings.sign_form import SignForm

    return SignForm


def _partners_form() -> type[Form]:
    from colony.screens.pairings.partners_form import PartnersForm

    return PartnersForm


def _check_form() -> type[Form]:
    from colony.screens.pairings.check_form import CheckForm

    return CheckForm


def _fed_form() -> type[Form]:
    from colony.screens.pups.fed_form import FedForm

    return FedForm


def _end_form() -> type[Form]:
    from colony.screens.animals.end_form import EndForm

    return EndForm


def _join_form() -> type[Form]:
    from colony.screens.pairings.join_form import JoinForm

    return JoinForm


def _part_form() -> type[Form]:
    from colony.screens.pairings.separate_form import PartForm

    return PartForm


def _hold_form() -> type[Form]:
    from colony.screens.health.hold_form import HoldForm

    return HoldForm


def _release_form() -> type[Form]:
    from colony.screens.health.release_form import ReleaseForm

    return ReleaseForm


def _correct_form() -> type[Form]:
    from colony.screens.animals.correct_form import CorrectForm

    return CorrectForm


def _arrival_form() -> type[Form]:
    from colony.screens.animals.arrival_form import ArrivalForm

    return ArrivalForm


def _skip_form() -> type[Form]:
    from colony.screens.care.skip_form import SkipForm

    return SkipForm


def _count_form() -> type[Form]:
    from colony.screens.care.count_form import CountForm

    return CountForm


def _answer_form() -> type[Form]:
    from colony.screens.health.answer_form import AnswerForm

    return AnswerForm


def _meal_form() -> type[Form]:
    from colony.screens.care.meal_form import MealForm

    return MealForm


def _test_form() -> type[Form]:
    from colony.screens.care.water_test_form import WaterTestForm

    return WaterTestForm


def _tank_form() -> type[Form]:
    from colony.screens.tanks.tank_form import TankForm

    return TankForm


def _buyer_form() -> type[Form]:
    from colony.screens.orders.buyer_form import BuyerForm

    return BuyerForm


def _order_form() -> type[Form]:
    from colony.screens.orders.order_form import OrderForm

    return OrderForm


def _keep_form() -> type[Form]:
    from colony.screens.orders.keep_form import KeepForm

    return KeepForm


def _paid_form() -> type[Form]:
    from colony.screens.orders.paid_form import PaidForm

    return PaidForm


def _ship_form() -> type[Form]:
    from colony.screens.orders.ship_form import ShipForm

    return ShipForm


def _over_form() -> type[Form]:
    from colony.screens.orders.over_form import OverForm

    return OverForm


FORM_CLASSES: dict[str, Callable[[], type[Form]]] = {
    "birth": _birth_form,
    "widths": _widths_form,
    "move": _move_form,
    "sign": _sign_form,
    "partners": _partners_form,
    "check": _check_form,
    "fed": _fed_form,
    "end": _end_form,
    "join": _join_form,
    "part": _part_form,
    "hold": _hold_form,
    "release": _release_form,
    "correct": _correct_form,
    "arrival": _arrival_form,
    "skip": _skip_form,
    "count": _count_form,
    "meal": _meal_form,
    "test": _test_form,
    "answer": _answer_form,
    "buyer": _buyer_form,
    "order": _order_form,
    "keep": _keep_form,
    "paid": _paid_form,
    "ship": _ship_form,
    "over": _over_form,
    "tank": _tank_form,
}


def _day_place() -> type[Place]:
    from colony.screens.book.day import Today

    return Today


def _animals_place() -> type[Place]:
    from colony.screens.animals.animals import Rays

    return Rays


def _litters_place() -> type[Place]:
    from colony.screens.litters.litters import Births

    return Births


def _pairings_place() -> type[Place]:
    from colony.screens.pairings.pairings import Pairs

    return Pairs


def _pups_place() -> type[Place]:
    from colony.screens.pups.pups import GrowOut

    return GrowOut


def _tanks_place() -> type[Place]:
    from colony.screens.tanks.tanks import House

    return House


def _round_place() -> type[Place]:
    from colony.screens.care.round import Round

    return Round


def _orders_place() -> type[Place]:
    from colony.screens.orders.orders import Sales

    return Sales


def _history_place() -> type[Place]:
    from colony.screens.book.history import Log

    return Log


PLACE_CLASSES: dict[str, Callable[[], type[Place]]] = {
    "day": _day_place,
    "animals": _animals_place,
    "litters": _litters_place,
    "pairings": _pairings_place,
    "pups": _pups_place,
    "tanks": _tanks_place,
    "round": _round_place,
    "orders": _orders_place,
    "history": _history_place,
}


def _plan_page() -> type[Page]:
    from colony.screens.pairings.plan import PairingPlan

    return PairingPlan


def _moves_page() -> type[Page]:
    from colony.screens.tanks.move_plan import MovePlan

    return MovePlan


def _animal_page() -> type[Page]:
    from colony.screens.animals.page import AnimalPage

    return AnimalPage


def _litter_page() -> type[Page]:
    from colony.screens.litters.page import LitterPage

    return LitterPage


def _tank_page() -> type[Page]:
    from colony.screens.tanks.page import TankPage

    return TankPage


def _partners_page() -> type[Page]:
    from colony.screens.pairings.partners import Partners

    return Partners


def _order_page() -> type[Page]:
    from colony.screens.orders.page import OrderDetails

    return OrderDetails


def _kin_page() -> type[Page]:
    from colony.screens.orders.kin_grid import KinGrid

    return KinGrid


PAGE_CLASSES: dict[str, Callable[[], type[Page]]] = {
    "plan": _plan_page,
    "moves": _moves_page,
    "animal": _animal_page,
    "litter": _litter_page,
    "tank": _tank_page,
    "partners": _partners_page,
    "order": _order_page,
    "kin": _kin_page,
}
