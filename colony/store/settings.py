"""The choices of a book: each with its type, its default and what it takes."""

import dataclasses
import re
from collections.abc import Callable
from dataclasses import dataclass, field
from string import Formatter
from typing import Any

from sqlmodel import Session, select

from colony.notation.days import DATE_ORDERS
from colony.notation.house import HouseUnits
from colony.notation.tags import parse_tag, parse_text
from colony.records import Setting
from colony.refusals.books import BadSetting, UnknownSetting
from colony.refusals.notation import BadTag, UnprintableText


def _choice(  # as dataclasses.field
    default: object,
    reads: Callable[[str], object],
    takes: str,
    holds: Callable[[str], None] | None = None,
) -> Any:  # noqa: ANN401
    return field(default=default, metadata={"reads": reads, "takes": takes, "holds": holds})


def _one_of(*words: str) -> Callable[[str], str]:
    return {word: word for word in words}.__getitem__


def _whole(least: int, most: int) -> Callable[[str], int]:
    def read(text: str) -> int:
        number = int(text)
        if not least <= number <= most:
            raise ValueError(text)
        return number

    return read


def _fraction(text: str) -> float:
    number = float(text)
    if not 0.01 <= number <= 5:  # noqa: PLR2004 - less lets nobody in, more is a mistake
        raise ValueError(text)
    return number


def _share(text: str) -> float:
    number = float(text)
    if not 0 <= number <= 1:
        raise ValueError(text)
    return number


def _part(text: str) -> float:
    number = float(text)
    if not 0 <= number <= 0.9:  # noqa: PLR2004 - more would leave the males nothing
        raise ValueError(text)
    return number


def _ph(text: str) -> float:
    number = float(text)
    if number and not 2 <= number <= 12:  # noqa: PLR2004 - what water can have
        raise ValueError(text)
    return number


def _times(text: str) -> float:
    number = float(text)
    if not 1 <= number <= 20:  # noqa: PLR2004 - no tank is twenty rays wide for each ray
        raise ValueError(text)
    return number


def _currency(text: str) -> str:
    if len(text) != 3 or not (text.isascii() and text.isalpha() and text.isupper()):  # noqa: PLR2004 - ISO 4217
        raise ValueError(text)
    return text


def _is_currency(code: str) -> None:
    """Hold a code to ISO 4217 when it is set; a read setting was held to it then."""
    from babel.numbers import is_currency  # noqa: PLC0415 - only who sets it loads it

    if not is_currency(code):
        raise ValueError(code)


def _said(text: str) -> str:
    return parse_text(text, "setting", 300) if text else ""


def _amount(text: str) -> float:
    number = float(text)
    if not 0 <= number <= 1000:  # noqa: PLR2004 - milligrams in a litre of tap water
        raise ValueError(text)
    return number


_PUP_FACTS = {"litter": "26-01", "n": 1, "dam": "Alma", "yy": "26", "yyyy": "2026", "sex": "F"}
_NUMBER_WIDTH = re.compile(r"0[1-4]", re.ASCII)


def _pattern(text: str) -> str:
    """Plain facts only, and {n} once; {n:02} is a number of two digits."""
    parts = list(Formatter().parse(text))
    plain = all(
        name in {None, *_PUP_FACTS}
        and not conversion
        and (not width or (name == "n" and _NUMBER_WIDTH.fullmatch(width)))
        for _, name, width, conversion in parts
    )
    if not plain or [name for _, name, _, _ in parts].count("n") != 1:
        raise ValueError(text)
    try:
        parse_tag(text.format(**_PUP_FACTS))
    except BadTag as wrong:
        raise ValueError(text) from wrong
    return text


@dataclass(frozen=True)
class BookSettings:
    """What this book does by default. The numbers are common practice, no source."""

    length_unit: str = _choice("cm", _one_of("mm", "cm", "in"), "mm, cm or in")
    mass_unit: str = _choice("g", _one_of("g", "kg", "oz", "lb"), "g, kg, oz or lb")
    volume_unit: str = _choice("l", _one_of("l", "gal"), "l or gal")
    pup_tag: str = _choice(
        "{litter}-{n}", _pattern, "a pattern with {n}, and {litter}, {dam}, {yy}, {yyyy} or {sex}"
    )
    isolation_days: int = _choice(30, _whole(0, 365), "days from 0 to 365")
    measure_every_days: int = _choice(28, _whole(1, 365), "days from 1 to 365")
    kinship_limit: float = _choice(
        0.125, _share, "kinship of two that may be paired, from 0 to 1; 0.125 are half sibs"
    )
    unknown_sire_share: float = _choice(
        0.05, _part, "share of a sire nobody knows where several are possible, from 0 to 0.9"
    )
    near_term_days: int = _choice(14, _whole(0, 120), "days from 0 to 120")
    nursery_weeks: int = _choice(6, _whole(0, 52), "weeks from 0 to 52")
    backup_days: int = _choice(14, _whole(1, 3660), "how many days keep a copy, from 1 to 3660")
    backup_weeks: int = _choice(8, _whole(0, 520), "how many weeks keep a copy, from 0 to 520")
    backup_months: int = _choice(24, _whole(0, 1200), "how many months keep a copy, from 0 to 1200")
    load_limit: float = _choice(0.3, _fraction, "disc area over floor area, from 0.01 to 5")
    reserve_l: int = _choice(0, _whole(0, 1_000_000), "litres; 0 where water comes as it is used")
    reserve_refill_l: int = _choice(0, _whole(0, 1_000_000), "litres a night")
    change_slack_days: int = _choice(2, _whole(0, 14), "days from 0 to 14")
    change_setup_minutes: int = _choice(10, _whole(0, 240), "minutes from 0 to 240")
    change_l_per_minute: int = _choice(20, _whole(1, 1000), "litres a minute, out and in again")
    temperature_unit: str = _choice("C", _one_of("C", "F"), "C or F")
    ammonia_as: str = _choice("N", _one_of("N", "NH3"), "N or NH3: how your test says ammonia")
    tap_nitrate_mg_l: float = _choice(0.0, _amount, "mg/L from 0 to 1000")
    tap_nitrite_mg_l: float = _choice(0.0, _amount, "mg/L from 0 to 1000")
    tap_ammonia_mg_l: float = _choice(0.0, _amount, "mg/L as nitrogen, from 0 to 1000")
    tap_chlorine_mg_l: float = _choice(0.0, _amount, "mg/L after treatment, from 0 to 1000")
    tap_ph: float = _choice(0.0, _ph, "pH of the new water from 2 to 12; 0 where it is not known")
    refusals_called: int = _choice(3, _whole(1, 60), "days from 1 to 60")
    still_days: int = _choice(42, _whole(7, 365), "days from 7 to 365")
    nursery_stay_days: int = _choice(42, _whole(1, 365), "days from 1 to 365")
    widths_across: float = _choice(2.0, _times, "disc widths across a tank, from 1 to 20")
    widths_along: float = _choice(4.0, _times, "disc widths along a tank, from 1 to 20")
    size_spread: float = _choice(2.0, _times, "widest over narrowest in a tank, from 1 to 20")
    date_order: str = _choice("iso", _one_of(*DATE_ORDERS), "iso, dmy or mdy: how 3/2/2026 is read")

    currency: str = _choice("EUR", _currency, "an ISO 4217 code, such as EUR", _is_currency)
    reserve_days: int = _choice(
        28, _whole(0, 365), "days from 0 to 365 that an animal is kept for an order; 0 for no end"
    )
    shipping_boxes: str = _choice("", _said, "how you pack: boxes, bags, water, one a bag")
    house_name: str = _choice("", _said, "what stands at the head of a receipt")
    house_address: str = _choice("", _said, "the address on a receipt")
    house_details: str = _choice("", _said, "what else a receipt says: licence, tax number, bank")

    @property
    def units(self) -> HouseUnits:
        """The units in which the house writes."""
        return HouseUnits(self.length_unit, self.mass_unit, self.volume_unit, self.temperature_unit)


def read_settings(session: Session) -> BookSettings:
    """The settings of this book; what it does not say has its default."""
    written = {row.key: row.value for row in session.exec(select(Setting))}
    by_name = {f.name: f for f in _fields()}
    return BookSettings(
        **{key: _read(by_name[key], written[key]) for key in by_name.keys() & written.keys()}
    )


def unreadable_settings(session: Session) -> dict[str, str]:
    """Settings whose written value cannot be read, and what each takes."""
    wrong: dict[str, str] = {}
    for choice in _fields():
        setting = session.get(Setting, choice.name)
        try:
            _read(choice, setting.value) if setting else None
        except BadSetting:
            wrong[choice.name] = choice.metadata["takes"]
    return wrong


def write_setting(session: Session, key: str, value: str) -> None:
    """Set one choice of the book.

    Raises
    ------
    UnknownSetting
        There is no such setting.
    BadSetting
        The setting cannot have that value.
    """
    by_name = {f.name: f for f in _fields()}
    if key not in by_name:
        raise UnknownSetting(key, sorted(by_name))
    _read(by_name[key], value, new=True)
    setting = session.get(Setting, key) or Setting(key=key, value=value)
    setting.value = value
    session.add(setting)


def _read(choice: dataclasses.Field[Any], value: str, *, new: bool = False) -> Any:  # noqa: ANN401 - of the choice's type
    try:
        if new and choice.metadata["holds"] is not None:
            choice.metadata["holds"](value)
        return choice.metadata["reads"](value)
    except (ValueError, KeyError, UnprintableText) as wrong:
        raise BadSetting(choice.name, value, choice.metadata["takes"]) from wrong


def _fields() -> tuple[dataclasses.Field[Any], ...]:
    return dataclasses.fields(BookSettings)
