"""The facts of water: how it is changed and was changed, what was read and measured, its limits."""

from colony.notation.care import PARAMETERS, UNIONISED
from colony.notation.fields.field import NOTE, ON, Field

LITRES = Field("litres", "volume_l", help="Litres changed; without: those of its regime.")
CHANGE_FACTS = (ON, NOTE)
"""What is said of a water change, beside the system and how much."""

TESTED_SYSTEM = Field("system", help="The system whose water it is.", needed=True)
VALUES = Field(
    "values",
    help="Values: ph=6.8 nitrate_mg_l=25 temperature_c=27.5 ...",
    hint="ph=6.8 nitrate=25 temperature=27.5",
    needed=True,
)

TEST_FACTS = (ON, NOTE)
"""What is said of a water test, beside the system and its values."""

REGIME_FACTS = (
    Field("percent", "number", help="Percent of a batch change.", least=0.1, most=100),
    Field(
        "every_days",
        "count",
        help="A batch every so many days.",
        option="--every",
        least=1,
        most=365,
    ),
    Field(
        "drip_l_a_day",
        "volume_l",
        help="A constant drip, litres a day: 120L.",
        option="--drip",
    ),
    Field(
        "most_percent_a_day",
        "number",
        help="The most percent that may be changed in a day.",
        first="50.0",
        option="--most",
        least=1,
        most=100,
    ),
)
"""What the breeder says of how a system's water is renewed."""

RESERVE_FACTS = (
    Field("capacity_l", "volume_l", help="What it holds: 2000L.", option="--volume", least=0),
    Field("refill_l", "volume_l", help="What a night brings: 600L.", option="--refill", least=0),
    Field(
        "level_l",
        "volume_l",
        help="What was in it this morning: 1500L, or 0.",
        option="--level",
        least=0,
    ),
)
"""What the breeder says of the reserve of ready water."""

LIMIT_FACTS = (
    Field("species", "species", help="Only for this species."),
    Field("low", "number", help="The least."),
    Field("high", "number", help="The most."),
    Field("source", help="Where the numbers come from.", needed=True),
)
"""What is said of a limit of water, beside what is tested."""

REGIME_COLUMNS = (
    Field("system", "systems", needed=True),
    Field("percent", "number"),
    Field("every_days", "positive"),
    Field("most_percent_a_day", "number", empty=50.0),
    Field("drip_l_a_day", "volume_l"),
    Field("started", "day", needed=True),
)

WATER_CHANGE_COLUMNS = (
    ON.called("changed_on"),
    Field("system", "systems", needed=True),
    Field("litres", "volume_l", needed=True),
    NOTE,
)

RESERVE_COLUMNS = (Field("read_on", "day", needed=True), Field("litres", "count", needed=True))

WATER_TEST_COLUMNS = (
    ON.called("tested_on"),
    Field("system", "systems", needed=True),
    Field("parameter", "word", words=tuple(PARAMETERS), needed=True),
    Field("value", "number", needed=True),
    NOTE,
)

WATER_LIMIT_COLUMNS = (
    Field("parameter", "word", words=(*PARAMETERS, UNIONISED), needed=True),
    *LIMIT_FACTS,
)
