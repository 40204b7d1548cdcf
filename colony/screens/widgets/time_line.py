"""A window of days drawn on a line of weeks."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, timedelta

DAYS_AHEAD = 26 * 7
"""How far the line looks ahead."""


@dataclass(frozen=True)
class TimeLine:
    """A line that begins today and ends some days ahead."""

    today: date
    days: int = DAYS_AHEAD

    def axis(self) -> Callable[[int], str]:
        """The months, each written where it begins."""

        def draw(width: int) -> str:
            line = [" "] * width
            self._write(line, 0, "now")
            day = _next_month(self.today)
            while (at := self._at(day, width)) < width - 3:
                self._write(line, at, f"{day:%b}")
                day = _next_month(day)
            return "".join(line)

        return draw

    def window(self, earliest: date, likely: date, latest: date) -> Callable[[int], str]:
        """The days from the earliest to the latest, and a mark on the likely one."""

        def draw(width: int) -> str:
            first, last = self._at(earliest, width), self._at(latest, width)
            line = ["·" if at % 4 == 0 else " " for at in range(width)]
            for at in range(max(first, 0), min(last + 1, width)):
                line[at] = "▒"
            peak = self._at(likely, width)
            if 0 <= peak < width:
                line[peak] = "█"
            if last >= width > 0:
                line[-1] = "►"
            return "".join(line)

        return draw

    def _at(self, day: date, width: int) -> int:
        return (day - self.today).days * width // self.days

    @staticmethod
    def _write(line: list[str], at: int, word: str) -> None:
        if line[max(at - 1, 0) : at + len(word)] == [" "] * (len(word) + (at > 0)):
            line[at : at + len(word)] = word


def _next_month(day: date) -> date:
    return (day.replace(day=1) + timedelta(days=32)).replace(day=1)
