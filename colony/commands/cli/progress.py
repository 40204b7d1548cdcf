"""What is told on stderr of work that takes long, where a person looks, and how it is stopped."""

import signal
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from colony.planning.pairings.request import Watch as SearchWatch

Watch = Callable[[str, int, int], None]


@contextmanager
def watched() -> Iterator[Watch]:
    """What an act tells of its progress, as a bar; nothing where stderr is no terminal."""
    if not sys.stderr.isatty():
        yield lambda _what, _done, _all: None
        return
    from rich.console import Console
    from rich.progress import Progress

    bars: dict[str, int] = {}
    with Progress(console=Console(stderr=True), transient=True) as progress:

        def watch(what: str, done: int, all_: int) -> None:
            if what not in bars:
                bars[what] = progress.add_task(what, total=all_)
            progress.update(bars[what], completed=done)  # type: ignore[arg-type]

        yield watch


@contextmanager
def search_watched() -> "Iterator[SearchWatch]":
    """Let Ctrl+C end a search with the best found so far; a second one stops the command."""
    from colony.planning.pairings.request import Watch as SearchWatch

    stopped = threading.Event()

    def stop(_number: int, _frame: object) -> None:
        if stopped.is_set():
            raise KeyboardInterrupt
        stopped.set()

    in_main = threading.current_thread() is threading.main_thread()
    before = signal.signal(signal.SIGINT, stop) if in_main else None
    try:
        with _near() as tell:
            yield SearchWatch(stopped.is_set, tell)
    finally:
        if in_main:
            signal.signal(signal.SIGINT, before)


@contextmanager
def _near() -> Iterator[Callable[[float], None]]:
    """Tell how near the best plan is; nothing where stderr is no terminal."""
    if not sys.stderr.isatty():
        yield lambda _gap: None
        return
    from rich.console import Console

    with Console(stderr=True).status("Planning; Ctrl+C takes the best so far.") as line:
        yield lambda gap: line.update(
            f"Planning: within {max(gap, 0.0):.2%} of the best. Ctrl+C takes this one."
        )
