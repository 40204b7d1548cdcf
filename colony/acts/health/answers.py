"""Answer an alarm: what was done about it is kept, and it is not told again as it stands."""

from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from colony.acts.book.day import alarms_today
from colony.planning.alarms.alarms import Alarm
from colony.records import AlarmAnswer
from colony.refusals.care import NoSuchAlarm
from colony.store.journal.journal import tell


@dataclass(frozen=True)
class Answered:
    """The alarms that were answered, as they were told."""

    place: str
    alarms: tuple[str, ...]


def answer_alarm(
    session: Session, *, place: str, answer: str, alarm: str | None = None, today: date
) -> Answered:
    """Keep what was done about the alarms of a place, or about one of them.

    An alarm whose evidence changes is told again.

    Raises
    ------
    NoSuchAlarm
        The day tells no such alarm of that place.
    """
    told = alarms_today(session, today=today)
    meant = [each for each in told if _is_meant(each, place, alarm)]
    if not meant:
        raise NoSuchAlarm(place, alarm, list(dict.fromkeys(each.where for each in told)))
    for each in meant:
        session.add(
            AlarmAnswer(
                alarm=each.what,
                place=each.where,
                evidence=each.evidence,
                answered_on=today,
                answer=answer,
            )
        )
    session.flush()
    tell(session, f"{meant[0].where}: {', '.join(each.what for each in meant)} answered: {answer}")
    return Answered(meant[0].where, tuple(each.what for each in meant))


def _is_meant(told: Alarm, place: str, alarm: str | None) -> bool:
    same_place = told.where.casefold() == place.strip().casefold()
    return same_place and (alarm is None or told.what.startswith(alarm.strip().casefold()))
