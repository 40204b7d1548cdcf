"""The forms by name: the key that brings each, its title, the act it writes, and what it is for."""

from dataclasses import dataclass


@dataclass(frozen=True)
class FormEntry:
    """One form; `often` says that its key is shown in the bottom line everywhere."""

    key: str
    title: str
    act: str
    about: str
    often: bool = False


FORMS = {
    "birth": FormEntry(
        "b", "Birth", "litter record", "Write down a birth: the litter and its pups.", often=True
    ),
    "widths": FormEntry(
        "w", "Widths", "pup measure", "Measure pups one after another.", often=True
    ),
    "move": FormEntry("m", "Move", "tank move", "Move animals into a tank.", often=True),
    "sign": FormEntry("s", "Sign", "pairing sign", "Write down a mating sign.", often=True),
    "partners": FormEntry("p", "Partners", "", "Rank the best partners of an animal.", often=True),
    "check": FormEntry("k", "Check", "pairing check", "Write down what was found of a female."),
    "fed": FormEntry("f", "Fed", "pup feed", "Write down a food that was offered."),
    "end": FormEntry("e", "End", "animal end", "An animal was sold, died or is gone."),
    "join": FormEntry("j", "Join", "pairing start", "Put a dam with her sires."),
    "part": FormEntry("x", "Part", "pairing end", "Separate a dam from her sires."),
    "hold": FormEntry("h", "Hold", "animal hold", "Hold an animal from breeding and sale."),
    "release": FormEntry("H", "Release", "animal release", "End the hold of an animal."),
    "correct": FormEntry("d", "Correct", "animal edit", "Correct a fact of an animal."),
    "arrival": FormEntry("n", "New ray", "animal add", "Write down an animal from elsewhere."),
    "skip": FormEntry(
        "", "Skip", "round skip", "Let work of the round go for a day, with the reason."
    ),
    "count": FormEntry("", "Headcount", "round count", "Write down how many were seen in a tank."),
    "meal": FormEntry("", "Meal", "food give", "Write down what a tank was offered and took."),
    "test": FormEntry("", "Water test", "water test", "Write down what was measured in a system."),
    "answer": FormEntry("", "Answer", "round answer", "Keep what was done about an alarm."),
    "buyer": FormEntry("B", "New buyer", "buyer add", "Write down a buyer."),
    "order": FormEntry("N", "New order", "order add", "Write down what a buyer asks for."),
    "keep": FormEntry("K", "Keep", "order reserve", "Keep animals for an order."),
    "paid": FormEntry("P", "Paid", "order pay", "Write down money for an order."),
    "ship": FormEntry("S", "Ship", "order ship", "Ship an order, or plan the day."),
    "over": FormEntry("C", "Close", "order close", "An order was collected, or is over."),
    "tank": FormEntry("T", "New tank", "tank add", "Write down a tank."),
}
"""Every form."""

FORM_OF = {form.act: form for form in FORMS.values() if form.act}
"""The form that writes an act."""

FORM_NAMES = {form.act: name for name, form in FORMS.items() if form.act}
"""What each such form is called."""
