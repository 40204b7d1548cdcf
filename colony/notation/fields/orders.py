"""The facts of a buyer, an order, what is reserved and what is paid."""

from colony.notation.fields.field import ANIMAL, NOTE, ON, Field, choice
from colony.notation.orders import BUYER_KINDS, EXPENSE_KINDS, ORDER_EVENTS, PAYMENT_KINDS
from colony.notation.words import SEXES

NAME = Field("name", "personal", help="Who it is.", what="buyer's name", needed=True)
CONTACT = Field("contact", "personal", help="How to reach them: mail, telephone.")
ADDRESS = Field("address", "personal", help="Where the animals go.")
PAPERS = Field("papers", "personal", help="The permits and papers they hold.")
ABOUT = Field("note", "personal", help="A note.")
PERSONAL = (NAME, CONTACT, ADDRESS, PAPERS, ABOUT)
"""What is personal: it stands outside the journal."""

KIND = Field(
    "kind",
    "word",
    help=choice(BUYER_KINDS),
    hint=", ".join(BUYER_KINDS),
    words=BUYER_KINDS,
    first="keeper",
    needed=True,
)
COUNTRY = Field("country", help="The country the animals go to.")
REGION = Field("region", help="The state or region within it.")
PAPERS_UNTIL = Field(
    "papers_until", "day", ahead=True, help="The last day on which their papers hold."
)
BUYER_FACTS = (CONTACT, KIND, COUNTRY, REGION, ADDRESS, PAPERS, PAPERS_UNTIL, ABOUT)
"""What is said of a buyer, beside the name."""

BUYER_COLUMNS = (
    Field("code", needed=True),
    NAME.called("name", needed=False),
    *PERSONAL[1:-1],
    KIND,
    COUNTRY,
    REGION,
    PAPERS_UNTIL,
    Field("ended_on", "day"),
    Field("forgotten_on", "day"),
    ABOUT,
)

NEEDED_BY = Field(
    "needed_by",
    "day",
    label="By",
    help="The last day that will do.",
    option="--by",
    ahead=True,
    hint="the last day that will do",
)
WANTS = Field(
    "wants",
    label="Wants",
    help="What is wanted: '2F1M motoro, 12cm, unrelated, 250 each'; repeat.",
    hint="2F1M motoro, 12cm, unrelated",
    option="--want",
    needed=True,
    several=True,
)
DEPOSIT = Field("deposit", help="The deposit that was paid with it.", hint="100")
ORDER_FACTS = (WANTS, NEEDED_BY, DEPOSIT, NOTE, ON.called("on", help="The day it was asked for."))
"""What is said of a new order, beside who asks."""

ORDER_COLUMNS = (
    Field("code", needed=True),
    Field("buyer", "buyers", needed=True),
    Field("asked_on", "day", needed=True),
    NEEDED_BY,
    Field("kinship", "number"),
    Field("currency", needed=True),
    NOTE,
)
OF_ORDER = Field("order", "orders", needed=True)
ORDER_WANT_COLUMNS = (
    OF_ORDER,
    Field("sex", "word", words=SEXES, needed=True),
    Field("wanted", "positive", needed=True),
    Field("species", "species"),
    Field("line"),
    Field("width_mm", "length_mm"),
    Field("price_minor", "count"),
)
ORDER_EVENT_COLUMNS = (
    OF_ORDER,
    Field("event", "word", words=ORDER_EVENTS, needed=True),
    ON.called("happened_on"),
    NOTE,
)
RESERVATION_COLUMNS = (
    OF_ORDER,
    ANIMAL,
    ON.called("since"),
    Field("until", "day"),
    Field("ended_on", "day"),
)
UNTIL = Field(
    "until",
    "day",
    ahead=True,
    help="The last day that it is kept for them.",
    hint="as the settings say",
)
RESERVE_FACTS = (UNTIL, ON)
PAY_KIND = Field(
    "kind",
    "word",
    help=choice(PAYMENT_KINDS),
    hint=", ".join(PAYMENT_KINDS),
    words=PAYMENT_KINDS,
    first="payment",
    needed=True,
)
PAY_FACTS = (PAY_KIND, ON, NOTE)
PAYMENT_COLUMNS = (
    OF_ORDER,
    ON.called("paid_on"),
    PAY_KIND,
    Field("amount_minor", "positive", needed=True),
    NOTE,
)
LEAVES_ON = ON.called("on", label="Leaves on", help="The day on which they leave.", ahead=True)
WEATHER = Field(
    "weather",
    help="Cold or heat on the way, as you heard of it; it stands against the day.",
    hint="frost, heat: what stands against the day",
)
SHIPMENT_COLUMNS = (
    OF_ORDER,
    ON.called("leaves_on"),
    Field("hours", "positive", needed=True),
    Field("arrived_on", "day"),
    Field("lost", "count"),
    Field("claim"),
    WEATHER,
)

PRICED_SPECIES = Field("species", "species", help="Of this species.")
PRICED_LINE = Field("line", help="Of this line of the house.")
PRICED_SEX = Field("sex", "word", help="Of this sex: F, M or U.", hint="F, M or U", words=SEXES)
FROM_WIDTH = Field(
    "from_width_mm",
    "length_mm",
    label="From width",
    help="From this disc width on.",
    option="--from-width",
)
VALID_UNTIL = Field(
    "valid_until", "day", ahead=True, help="The last day it holds.", option="--until"
)
PRICE_FACTS = (
    Field("animal", "animals", help="Of this one animal."),
    PRICED_SPECIES,
    PRICED_LINE,
    PRICED_SEX,
    FROM_WIDTH,
    ON.called("on", help="The first day it holds."),
    VALID_UNTIL,
)
"""What a price is of, beside how much."""

PRICE_COLUMNS = (
    Field("animal", "animals"),
    PRICED_SPECIES,
    PRICED_LINE,
    PRICED_SEX,
    FROM_WIDTH,
    Field("price_minor", "count", needed=True),
    Field("currency", needed=True),
    ON.called("valid_from"),
    VALID_UNTIL,
)
SPENT_ON_WHAT = Field(
    "kind",
    "word",
    help=choice(EXPENSE_KINDS),
    hint=", ".join(EXPENSE_KINDS),
    words=EXPENSE_KINDS,
    needed=True,
)
EXPENSE_FACTS = (
    Field("species", "species", help="For this species alone."),
    ON,
    NOTE,
)
EXPENSE_COLUMNS = (
    ON.called("spent_on"),
    SPENT_ON_WHAT,
    Field("amount_minor", "positive", needed=True),
    Field("currency", needed=True),
    Field("species", "species"),
    NOTE,
)
