"""How fast the screens paint on a book of 20,000 animals.

Run by hand: ``python tests/benchmarks/screen_speed.py [RUNS]``. The first paint of home, its
lines on it, is held against the first paint of an empty textual app with the same imports:
whole fresh processes, taking turns, so that a busy machine slows both; at most 2.5 times.
A letter typed in the search has to be on the screen with what it finds within 100 ms, at the
95th percentile; it is judged by processor time, all threads together, so that a busy machine
tells the same. Leaves with 1 if one is slower.
"""

import asyncio
import subprocess
import sys
import tempfile
import time
from datetime import date
from pathlib import Path
from statistics import median, quantiles
from typing import cast

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT), str(Path(__file__).parent)]

from large_book import write_large_book
from textual.widgets import Input

from colony.screens.app import ColonyApp
from colony.screens.frame.session import BookSession
from colony.screens.start import keep_keys_quick
from colony.screens.widgets.entry_list import EntryList
from colony.store.book import open_book

TODAY, ANIMALS = date(2026, 3, 2), 20_000
PAINT_LIMIT, SEARCH_LIMIT_MS = 2.5, 100
SIZE = (80, 24)
TYPED = (
    "l",
    "le",
    "leo",
    "2",
    "25",
    "25-0",
    "w0",
    "w01",
    "7",
    "26-4",
    "m",
    "zz",
    "present",
    "25-01",
    "leopoldi",
    "14",
    "w11",
    "f",
    "q",
    "wild",
    "25-1234-5",
)

EMPTY = """
import sys, time
began = time.perf_counter()
import colony.screens.app, colony.screens.book.day, colony.store.book
from textual.app import App
class Empty(App):
    def on_mount(self):
        self.call_after_refresh(self.exit)
import asyncio
async def run():
    async with Empty().run_test(size=(80, 24)) as pilot:
        await pilot.pause()
asyncio.run(run())
print(time.perf_counter() - began)
"""

HOME = """
import sys, time
began = time.perf_counter()
import asyncio, datetime
from colony.screens.app import ColonyApp
from colony.screens.frame.session import BookSession
from colony.screens.widgets.entry_list import EntryList
from colony.store.book import open_book
from colony.screens.start import keep_keys_quick
keep_keys_quick()
book_session = BookSession(open_book(sys.argv[1]), clock=lambda: datetime.date.fromisoformat(sys.argv[2]))
book_session.begin()
async def run():
    async with ColonyApp(book_session).run_test(size=(80, 24)) as pilot:
        print("frame", time.perf_counter() - began)
        entries = pilot.app.screen.query_one(EntryList)
        while not entries.entries:
            await asyncio.sleep(0.002)
        await pilot.pause()
        print("lines", time.perf_counter() - began)
        while pilot.app.busy:
            await asyncio.sleep(0.01)
        print("all", time.perf_counter() - began)
asyncio.run(run())
"""


def printed(program: str, *words: str) -> list[float]:
    """Numbers that a fresh process prints."""
    command = [sys.executable, "-c", program, *words]
    done = subprocess.run(command, check=True, capture_output=True, text=True, cwd=ROOT)
    return [float(line.split()[-1]) for line in done.stdout.splitlines()]


def first_paint(book: Path, runs: int) -> tuple[float, ...]:
    """Median seconds: an empty app; the frame of home, its first lines, and all it has to say."""
    printed(EMPTY)
    taken = [(*printed(EMPTY), *printed(HOME, str(book), str(TODAY))) for _ in range(runs)]
    return tuple(median(times) for times in zip(*taken, strict=True))


async def search_ms(book: Path) -> tuple[list[float], list[float]]:
    """Milliseconds from each key to the repainted list, by the clock and of the processor."""
    book_session = BookSession(open_book(str(book)), clock=lambda: TODAY)
    book_session.begin()
    spent, busy = [], []
    async with ColonyApp(book_session).run_test(size=SIZE) as pilot:
        app = cast("ColonyApp", pilot.app)
        await _rest(app)
        await app.action_go("animals")
        await _rest(app)
        entries = app.screen.query_one(EntryList)
        for letter in " ".join(TYPED):
            began, worked, filled = time.perf_counter(), time.process_time(), entries.filled
            app.screen.query_one(Input).insert_text_at_cursor(letter)
            while entries.filled == filled:  # noqa: ASYNC110 - a list tells nobody that it is filled
                await asyncio.sleep(0.001)
            await pilot.pause()
            if letter != " ":
                spent.append((time.perf_counter() - began) * 1000)
                busy.append((time.process_time() - worked) * 1000)
            else:
                app.screen.query_one(Input).value = ""
            await _rest(app)
    return spent, busy


async def _rest(app: ColonyApp) -> None:
    """Wait until nothing is read any more, and a moment more, as between two keys."""
    await asyncio.sleep(0.15)
    while app.busy:  # noqa: ASYNC110 - the same
        await asyncio.sleep(0.01)


def main() -> int:
    """Measure both, say both, and tell whether both keep their limit."""
    keep_keys_quick()
    runs = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    with tempfile.TemporaryDirectory() as folder:
        book = Path(folder) / "large.colony"
        write_large_book(book, TODAY, animals=ANIMALS)
        empty, frame, lines, everything = first_paint(book, runs)
        spent, busy = asyncio.run(search_ms(book))
    p95, p95_busy = (quantiles(one, n=20)[-1] for one in (spent, busy))
    print(f"empty app {empty:.2f} s; home: frame {frame:.2f} s, lines {lines:.2f} s")
    print(f"first paint of home with lines: {lines / empty:.2f} (at most {PAINT_LIMIT})")
    print(f"everything home has to say, two weeks ahead computed: {everything:.2f} s")
    print(f"search by the clock: median {median(spent):.0f} ms, p95 {p95:.0f} ms")
    print(f"search of the processor: p95 {p95_busy:.0f} ms (at most {SEARCH_LIMIT_MS})")
    return int(lines / empty > PAINT_LIMIT or p95_busy > SEARCH_LIMIT_MS)


if __name__ == "__main__":
    sys.exit(main())
