"""Which foods each growing pup takes, and since when."""

from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from colony.planning.pups.feeding import accepted_since, first_feed
from colony.store.readers.animals.lives import read_lives
from colony.store.readers.pups.growing import read_pups


@dataclass(frozen=True)
class AcceptanceLine:
    """One pup: its first feed, the foods it takes, and what the feeding gate asks for."""

    tag: str
    tank: str | None
    age_days: int | None
    first_feed: date | None
    takes: dict[str, date]
    foods_needed: int
    days_needed: int


def list_acceptance(session: Session, *, today: date) -> list[AcceptanceLine]:
    """Every growing pup; those that never fed come first, the oldest of them in front."""
    lives = read_lives(session)
    lines = []
    for pup in read_pups(session, lives, today):
        rules = lives.of(pup.species or None).ready_rules()
        lines.append(
            AcceptanceLine(
                tag=pup.tag,
                tank=pup.tank or None,
                age_days=(today - pup.born).days if pup.born else None,
                first_feed=first_feed(pup.feedings),
                takes=accepted_since(pup.feedings, today),
                foods_needed=rules.min_foods,
                days_needed=rules.feeding_days,
            )
        )
    return sorted(
        lines, key=lambda line: (line.first_feed is not None, -(line.age_days or 0), line.tag)
    )
