"""The rules within one row, each declared once: its SQL, the same in Python, and its sentence.

Every table has its `RULES` in its class. From them come the CHECK constraints of the table,
what `book check` looks for, and what an import says of a row. As with a CHECK, a rule is kept
where what it compares is not known (NULL). No SQL is loaded here.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

Values = Mapping[str, Any]


@dataclass(frozen=True)
class Rule:
    """What each row of a table keeps to; the first of its `columns` is the one at fault.

    `dialect` names the only database whose CHECK it is. A rule that is not `in_schema` has no
    CHECK: the program keeps it, and `book check` looks for rows that do not.
    """

    name: str
    columns: tuple[str, ...]
    sql: str
    keeps: Callable[[Values], bool]
    sentence: str
    dialect: str | None = None
    in_schema: bool = True

    @property
    def field(self) -> str:
        """The column at fault, as a breeder's file calls it."""
        return field_of(self.columns[0])


Rules = tuple[Rule, ...]


def field_of(column: str) -> str:
    """What a breeder's file calls a column; one that refers to a row names that row."""
    return column.removesuffix("_id")


def rules_of(record: type) -> Rules:
    """The rules of a table by its class."""
    rules: Rules = getattr(record, "RULES", ())
    return rules


def broken(record: type, **row: Any) -> str | None:  # noqa: ANN401 - the values of any columns
    """What a row would break, in a sentence: of the rules about these columns alone, the first.

    So an act refuses beforehand what the database would refuse, by the same declaration.
    """
    return next(
        (
            rule.sentence
            for rule in rules_of(record)
            if row.keys() >= set(rule.columns) and not rule.keeps(row)
        ),
        None,
    )


def quoted(words: Sequence[str]) -> str:
    """Words as SQL lists them."""
    return ", ".join(f"'{word}'" for word in words)


def one_of(column: str, choices: Sequence[str]) -> Rule:
    """Hold a text to a list of words."""
    return Rule(
        f"{column}_is_known",
        (column,),
        f"{column} IN ({quoted(choices)})",
        lambda row: row[column] is None or row[column] in choices,
        f"{column} is one of: {', '.join(choices)}",
    )


def is_day(column: str) -> Rule:
    """Hold a date to real calendar days; SQLite has no date type of its own.

    Without its ``+0 days`` SQLite takes 30 February as it stands.
    """
    return Rule(
        f"{column}_is_a_day",
        (column,),
        f"{column} IS date({column}, '+0 days')",
        lambda row: row[column] is None or _is_calendar_day(row[column]),
        f"{column} is a day of the calendar, such as 2026-03-09",
        dialect="sqlite",
    )


def is_flag(column: str) -> Rule:
    """Hold a yes/no to yes and no; SQLite has no boolean of its own."""
    return Rule(
        f"{column}_is_yes_or_no",
        (column,),
        f"{column} IN (true, false)",
        lambda row: row[column] is None or row[column] in (True, False),
        f"{column} is yes or no",
    )


def positive(column: str) -> Rule:
    """Hold a measure above nothing."""
    return Rule(
        f"{column}_is_positive",
        (column,),
        f"{column} > 0",
        lambda row: row[column] is None or row[column] > 0,
        f"{column} is above 0",
    )


def not_negative(column: str, name: str) -> Rule:
    """Hold a measure to nothing or more."""
    return Rule(
        name,
        (column,),
        f"{column} >= 0",
        lambda row: row[column] is None or row[column] >= 0,
        f"{column} is 0 or more",
    )


def between(column: str, least: float, most: float, name: str) -> Rule:
    """Hold a number within bounds, both of them allowed."""
    return Rule(
        name,
        (column,),
        f"{column} BETWEEN {least:g} AND {most:g}",
        lambda row: row[column] is None or least <= row[column] <= most,
        f"{column} is a number from {least:g} to {most:g}",
    )


def has_length(column: str, least: int, most: int | None, name: str) -> Rule:
    """Hold a text to so many characters; `most` is None where any number will do."""
    if most is None:
        sql, length = f"> {least - 1}", f"at least {least}"
    elif most == least:
        sql, length = f"= {least}", str(least)
    else:
        sql, length = f"BETWEEN {least} AND {most}", f"from {least} to {most}"
    return Rule(
        name,
        (column,),
        f"length({column}) {sql}",
        lambda row: row[column] is None or least <= len(row[column]) <= (most or len(row[column])),
        f"{column} has {length} characters",
    )


def in_order(first: str, then: str, name: str = "", *, strictly: bool = False) -> Rule:
    """Hold two days or numbers in order."""

    def keeps(row: Values) -> bool:
        low, high = row[first], row[then]
        return low is None or high is None or (low < high if strictly else low <= high)

    return Rule(
        name or f"{then}_follows_{first}",
        (then, first),
        f"{then} {'>' if strictly else '>='} {first}",
        keeps,
        f"{then} must {'come after' if strictly else 'not come before'} {first}",
    )


def one_alone(first: str, other: str, name: str, sentence: str) -> Rule:
    """Hold a row to exactly one of two columns."""
    sql = f"({first} IS NULL) <> ({other} IS NULL)"
    return Rule(name, (first, other), sql, lambda row: _known(row, first, other) == 1, sentence)


def not_both(first: str, other: str, name: str, sentence: str) -> Rule:
    """Hold a row to at most one of two columns; the second is the one at fault."""
    sql = f"{first} IS NULL OR {other} IS NULL"
    return Rule(name, (other, first), sql, lambda row: _known(row, first, other) < _BOTH, sentence)


def one_at_least(first: str, other: str, name: str, sentence: str) -> Rule:
    """Hold a row to one of two columns, or both."""
    sql = f"{first} IS NOT NULL OR {other} IS NOT NULL"
    return Rule(name, (first, other), sql, lambda row: _known(row, first, other) > 0, sentence)


def both_or_none(first: str, other: str, name: str, sentence: str) -> Rule:
    """Hold a row to both of two columns or none; the second is the one at fault."""
    sql = f"({first} IS NULL) = ({other} IS NULL)"
    return Rule(name, (other, first), sql, lambda row: _known(row, first, other) != 1, sentence)


_BOTH = 2


def _known(row: Values, *columns: str) -> int:
    return sum(row[column] is not None for column in columns)


def _is_calendar_day(value: object) -> bool:
    try:
        return isinstance(value, date) or date.fromisoformat(str(value)).isoformat() == value
    except ValueError:
        return False
