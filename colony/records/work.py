"""What is still to be done by hand: accepted moves; and how alarms were answered."""

from datetime import date
from typing import ClassVar

from sqlmodel import Field, SQLModel

from colony.records.columns import STRICT, checks
from colony.records.rules import Rules, is_day, not_both


class AlarmAnswer(SQLModel, table=True):
    """What was done about an alarm; as long as its evidence is the same it is not told again."""

    __tablename__ = "alarm_answer"
    RULES: ClassVar[Rules] = (is_day("answered_on"),)
    __table_args__ = (*checks(RULES), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    alarm: str = Field(description="What was told, as the day tells it.")
    place: str = Field(index=True, description="A system, a tank or an animal.")
    evidence: str = Field(description="By what it was known.")
    answered_on: date = Field(description="The day of the answer.")
    answer: str = Field(description="What was done, or why nothing is.")


class MoveToDo(SQLModel, table=True):
    """One accepted move. Nothing moves by itself: the move itself is recorded when it is done."""

    __tablename__ = "move_to_do"
    RULES: ClassVar[Rules] = (
        is_day("accepted_on"),
        is_day("due_by"),
        is_day("done_on"),
        is_day("dropped_on"),
        not_both("done_on", "dropped_on", "done_or_dropped", "A move is done or dropped, not both"),
    )
    __table_args__ = (*checks(RULES), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    animal_id: int = Field(foreign_key="animal.id", index=True)
    tank_id: int = Field(foreign_key="tank.id")
    accepted_on: date
    due_by: date
    why: str
    done_on: date | None = None
    dropped_on: date | None = None
