"""The facts of water: how it is changed and was changed, what was read and measured, its limits."""

from colony.notation.care import PARAMETERS, UNIONISED
from colony.notation.fields.field import NOTE, Field

REGIME_COLUMNS = (
    Field("system", "systems", needed=True),
    Field("percent", "number"),
    Field("every_days", "positive"),
    Field("most_percent_a_day", "number", empty=50.0),
    Field("drip_l_a_day", "volume_l"),
    Field("started", "day", needed=True),
)

WATER_CHANGE_COLUMNS = (
    Field("changed_on", "day", needed=True),
    Field("system", "systems", needed=True),
    Field("litres", "volume_l", needed=True),
    NOTE,
)

RESERVE_COLUMNS = (Field("read_on", "day", needed=True), Field("litres", "count", needed=True))

WATER_TEST_COLUMNS = (
    Field("tested_on", "day", needed=True),
    Field("system", "systems", needed=True),
    Field("parameter", "word", words=tuple(PARAMETERS), needed=True),
    Field("value", "number", needed=True),
    NOTE,
)

WATER_LIMIT_COLUMNS = (
    Field("parameter", "word", words=(*PARAMETERS, UNIONISED), needed=True),
    Field("species", "species"),
    Field("low", "number"),
    Field("high", "number"),
    Field("source", needed=True),
)
