"""The words of care: tasks of the round, what was eaten, signs of health, what a test measures."""

from dataclasses import dataclass, replace


@dataclass(frozen=True)
class Task:
    """A task of the round: done at each tank, or once for a system; or only where animals are.

    One that `takes` something is done by the act that writes that down: without it nobody
    could tell a task that was done from one that was ticked.
    """

    name: str
    per: str = "tank"
    needs_animals: bool = True
    takes: str = ""
    act: str = ""
    caution: str = ""


TASKS = {
    task.name: task
    for task in (
        Task("headcount", takes="the number that was seen", act="round count"),
        Task("look-over"),
        Task("feeding", takes="the food", act="food give"),
        Task("clean-up"),
        Task("sock check", per="system", needs_animals=False),
        Task("drum check", per="system", needs_animals=False),
        Task("pad swap", per="system", needs_animals=False),
        Task("back-flush", per="system", needs_animals=False),
        Task(
            "water test",
            per="system",
            needs_animals=False,
            takes="what was measured",
            act="water test",
        ),
        Task("water change", per="system", needs_animals=False),
    )
}
"""The tasks that every house begins with, in the order in which they are done at one place."""

EVERYTHING = "all"
"""In place of a task: whatever is open there."""

TASK_PLACES = ("tank with animals", "tank", "system")
"""Where a task of the house's own is done; that of a system is done once for all its tanks."""


def house_task(name: str, per: str, caution: str | None) -> Task:
    """A task of the house's own list; of a usual one, it is the usual one with this caution."""
    usual = TASKS.get(name)
    if usual is not None:
        return replace(usual, caution=caution or "")
    return Task(name, per.split(maxsplit=1)[0], per == TASK_PLACES[0], caution=caution or "")


TAKEN = ("all", "some", "none")
"""What a tank took of the food it was offered."""

WELL = "well"
"""What a look-over says where nothing was seen."""

SIGNS = (
    WELL,
    "not eating",
    "thin",
    "swollen",
    "disc edge curled",
    "pale",
    "red patches",
    "wound",
    "white film or spots",
    "cloudy eye",
    "fast breathing",
    "lethargic",
    "restless",
    "tail or sting damaged",
    "trailing droppings",
    "other",
)
"""What a look-over can find; "well" says that it was looked at and nothing was seen."""


@dataclass(frozen=True)
class Parameter:
    """One thing a water test measures: its unit, what is sane, and whether dilution lowers it."""

    unit: str
    least: float
    most: float
    diluted: bool = False


PARAMETERS = {
    "temperature_c": Parameter("C", 0, 50),
    "ph": Parameter("", 2, 12),
    "ammonia_mg_l": Parameter("mg/L", 0, 100, diluted=True),
    "nitrite_mg_l": Parameter("mg/L", 0, 100, diluted=True),
    "nitrate_mg_l": Parameter("mg/L", 0, 2000, diluted=True),
    "oxygen_mg_l": Parameter("mg/L", 0, 40),
    "conductivity_us_cm": Parameter("uS/cm", 0, 100_000),
    "hardness_dgh": Parameter("dGH", 0, 100),
    "alkalinity_dkh": Parameter("dKH", 0, 100),
    "ammonia_nh3_mg_l": Parameter("mg/L", 0, 120, diluted=True),
    "chlorine_mg_l": Parameter("mg/L", 0, 20, diluted=True),
}
"""What can be tested. `ammonia_mg_l` is total ammonia as nitrogen, `ammonia_nh3_mg_l` as NH3;
`conductivity_us_cm` is at 25 C."""

UNIONISED = "unionised_ammonia_mg_l"
"""Computed as NH3 from total ammonia, pH and temperature; a limit can be set on it too."""
