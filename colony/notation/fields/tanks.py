"""The facts of a system of shared water, of a tank, and of an animal's stay in one."""

from colony.notation.fields.field import NOTE, ON, Field
from colony.notation.words import ROLES

SYSTEM_FACTS = (
    Field("volume_l", "volume_l", help="Volume: 1800L, 480gal.", option="--volume"),
    Field("started", "day", help="The day its filter began to mature."),
    NOTE,
)
"""What the breeder says of a system, beside its name."""

SYSTEM_COLUMNS = (Field("name", needed=True), *SYSTEM_FACTS)

TANK_SIZES = (
    Field("length_mm", "length_mm", help="Inner length: 240cm, 96in.", option="--length"),
    Field("width_mm", "length_mm", help="Inner width.", option="--width"),
    Field(
        "diameter_mm",
        "length_mm",
        help="Inner diameter of a round tank.",
        hint="of a round tank, in place of both",
        option="--diameter",
    ),
    Field(
        "water_height_mm", "length_mm", label="Water", help="Height of the water.", option="--water"
    ),
    Field("volume_l", "volume_l", help="Volume: 1800L, 480gal.", option="--volume"),
)
"""Inner measures of a tank."""

TANK_FACTS = (
    Field("code", "tag", help="The code on the tank.", needed=True),
    Field(
        "system",
        "systems",
        help="The system whose water it shares.",
        hint="whose water it shares",
        needed=True,
    ),
    Field(
        "role",
        "word",
        help="breeding, nursery, grow-out, intake or hospital.",
        hint=", ".join(ROLES),
        words=ROLES,
        needed=True,
    ),
    *TANK_SIZES,
    Field(
        "walking_order",
        "count",
        label="Walk",
        help="Its place on your walk through the house.",
        hint="place in your round",
        option="--order",
        least=1,
        most=100_000,
    ),
    NOTE,
)
"""What the breeder says of a new tank."""

TANK_COLUMNS = (*TANK_FACTS[:-1], Field("retired_on", "day"), NOTE)

FED_TANK = Field("tank", "tanks", help="The tank that is fed.", needed=True)

MOVED = Field(
    "tags",
    "tags",
    label="Animals",
    help="Animals, then the tank: TAG ... TANK.",
    hint="tags, with spaces between",
    needed=True,
)
INTO = Field("tank", "tanks", label="Into", hint="tank", needed=True)
MOVE_FACTS = (
    ON,
    Field(
        "why",
        label="Why",
        what="reason",
        help="Why; needed to leave isolation before its end.",
        hint="asked where isolation ends early",
    ),
)
"""What is said of a move, beside who moves and into which tank."""

PLACEMENT_COLUMNS = (
    Field("animal", "animals", needed=True),
    Field("tank", "tanks", needed=True),
    Field("entered_on", "day", needed=True),
    Field("left_on", "day"),
    Field("why"),
)
