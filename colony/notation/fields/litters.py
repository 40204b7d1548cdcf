"""The facts of a litter."""

from colony.notation.fields.field import NOTE, Field

LITTER_COLUMNS = (
    Field("code", "tag", needed=True),
    Field("dam", "animals", needed=True, sex="F"),
    Field("sires", "sires", empty=(), sex="M"),
    Field("born", "day", needed=True),
    Field("live", "count", needed=True),
    Field("dead", "count", empty=0),
    Field("pups_may_differ", "yes_no", empty=False),
    Field("pairing", "pairings"),
    Field("tank", "tanks"),
    NOTE,
)
