"""The facts of the round: how often work is due, that it was done, and moves to do."""

from colony.notation.care import TASKS
from colony.notation.fields.field import NOTE, Field
from colony.notation.words import ROLES

RHYTHM_COLUMNS = (
    Field("task", "word", words=tuple(TASKS), needed=True),
    Field("role", "word", words=ROLES),
    Field("system", "systems"),
    Field("tank", "tanks"),
    Field("times_a_day", "positive", empty=1),
    Field("every_days", "positive", empty=1),
    Field("started", "day", needed=True),
)

CARE_DONE_COLUMNS = (
    Field("done_on", "day", needed=True),
    Field("task", "word", words=tuple(TASKS), needed=True),
    Field("system", "systems"),
    Field("tank", "tanks"),
    Field("skipped_why"),
    NOTE,
)

MOVE_TO_DO_COLUMNS = (
    Field("animal", "animals", needed=True),
    Field("tank", "tanks", needed=True),
    Field("accepted_on", "day", needed=True),
    Field("due_by", "day", needed=True),
    Field("why", needed=True),
    Field("done_on", "day"),
    Field("dropped_on", "day"),
)
