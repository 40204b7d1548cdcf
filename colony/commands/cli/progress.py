"""A bar on stderr for work that takes long, where a person looks."""

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager

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
