"""What an import did, or found wrong."""

from collections.abc import Callable
from dataclasses import dataclass

from colony.exchange.text.faults import Fault

Progress = Callable[[str, int, int], None]
"""Called with what is done, how much of it, and how much there is."""


@dataclass(frozen=True)
class Imported:
    """How many rows were added, updated and skipped; nothing was written where it is all 0.

    `errors` are the faults that stand. `ancestors` of those added were only named as
    parents. `ignored` are the columns that mean nothing here.
    """

    added: int = 0
    updated: int = 0
    skipped: int = 0
    errors: tuple[Fault, ...] = ()
    ignored: tuple[str, ...] = ()
    ancestors: int = 0
    refused: bool = False
    """Faults stand, and nothing was written because of them."""

    def as_document(self) -> dict[str, object]:
        """The answer for scripts."""
        errors = [
            {
                "file": fault.file_name,
                "line": fault.line,
                "column": fault.column,
                "value": fault.value,
                "problem": fault.problem,
            }
            for fault in self.errors
        ]
        return {
            "added": self.added,
            "updated": self.updated,
            "skipped": self.skipped,
            "errors": errors,
            "ignored": list(self.ignored),
            "ancestors": self.ancestors,
        }


def unwatched(_what: str, _done: int, _all: int) -> None:
    """Report progress to nobody."""


def by_steps(progress: Progress, what: str, all_: int) -> Callable[[int], None]:
    """Report one part of the work, a hundred times at most and at its end."""
    step = max(all_ // 100, 1)

    def report(done: int) -> None:
        if done % step == 0 or done == all_:
            progress(what, done, all_)

    return report
