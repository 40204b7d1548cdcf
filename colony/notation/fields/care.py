"""The facts of the round: how often work is due, that it was done, and moves to do."""

from colony.notation.care import TASK_PLACES
from colony.notation.fields.field import NOTE, ON, Field, choice
from colony.notation.words import ROLES

TASK = Field("task", what="task of the round", needed=True, longest=40)
TASK_FACTS = (
    Field(
        "per",
        "word",
        help=f"Where it is done: {choice(TASK_PLACES)}",
        words=TASK_PLACES,
        empty=TASK_PLACES[0],
    ),
    Field("caution", help="What to mind when it is done; it is shown with the work."),
)
"""What is said of a task of the house's own, beside its name."""

HOUSE_TASK_COLUMNS = (Field("name", needed=True, longest=40), *TASK_FACTS)

PLACE = Field("place", label="Where", needed=True)
SKIPPED_WHY = Field("why", label="Why", what="reason", help="Why it is let go today.", needed=True)

COUNT_FACTS = (Field("tank", "tanks", help="The tank.", needed=True),)
COUNTED = Field("counted", "count", help="How many were seen.", needed=True, least=0, most=10_000)

DONE_FACTS = (ON, NOTE)
"""What is said of work that was done, beside the task and the places."""

SKIP_FACTS = (SKIPPED_WHY, ON)
"""What is said of work that is let go for a day, beside the task and the places."""

WHERE_FACTS = (
    Field("tank", "tanks", help="Only for this tank."),
    Field("system", "systems", help="Only for this system."),
    Field(
        "role",
        "word",
        what="role",
        help=f"Only for tanks of this role: {choice(ROLES)}",
        words=ROLES,
    ),
)
"""For which tanks a rhythm holds."""

HOW_OFTEN_FACTS = (
    Field(
        "times_a_day",
        "count",
        help="Times a day.",
        first="1",
        option="--times",
        least=1,
        most=24,
    ),
    Field(
        "every_days",
        "count",
        help="Once every so many days.",
        first="1",
        option="--every",
        least=1,
        most=365,
    ),
)
"""How often a task is due."""

ANSWERED_PLACE = Field(
    "place", label="Where", help="The system, tank or animal of the alarm.", needed=True
)
ANSWER = Field(
    "answer",
    label="Done",
    what="answer",
    help="What was done about it.",
    hint="half the water changed; the vet was called",
    needed=True,
)
WHICH_ALARM = Field(
    "alarm", label="Which", help="Only this one, by its first words.", hint="all of that place"
)
ANSWER_FACTS = (ANSWERED_PLACE, ANSWER, WHICH_ALARM)
"""What is said of an alarm that is answered."""

ALARM_ANSWER_COLUMNS = (
    Field("alarm", needed=True),
    ANSWERED_PLACE,
    Field("evidence", needed=True),
    Field("answered_on", "day", needed=True),
    ANSWER,
)

RHYTHM_COLUMNS = (
    TASK,
    Field("role", "word", words=ROLES),
    Field("system", "systems"),
    Field("tank", "tanks"),
    Field("times_a_day", "positive", empty=1),
    Field("every_days", "positive", empty=1),
    Field("started", "day", needed=True),
)

CARE_DONE_COLUMNS = (
    ON.called("done_on"),
    TASK,
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
