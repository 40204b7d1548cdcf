"""The program: no words are the screens; words are commands. The only file that knows both faces."""

import gc
import os
import sys
from collections.abc import Sequence

from colony.commands.cli.streams import keep_to_ourselves
from colony.store.files import keep_to_owner

BOOK_OPTION = "--book"

ALLOCATIONS_BETWEEN_SWEEPS = 1_000_000
"""Loading libraries and reading leave nothing to sweep up, and looking takes a fifth of the time."""


def main() -> None:
    """Open the screens or answer the command line, and leave with the exit code."""
    keep_to_ourselves()
    keep_to_owner()
    gc.set_threshold(ALLOCATIONS_BETWEEN_SWEEPS)
    # What is multiplied here is done before the threads for it are started.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    # None is used, and looking for them reads the metadata of everything that is installed.
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    # Nothing is loaded before it is needed: --help loads no SQL, a listing no screen.
    from colony.commands.cli.failures import exit_code_of, run  # noqa: PLC0415

    words = sys.argv[1:]
    if sys.stdin.isatty() and sys.stdout.isatty() and only_a_book(words):
        sys.exit(exit_code_of(lambda: _open_screens(words)))
    code = run()
    gc.freeze()  # what is thrown away with the process need not be swept up first
    sys.exit(code)


def only_a_book(words: Sequence[str]) -> bool:
    """Tell whether the command line says nothing but which book."""
    match list(words):
        case []:
            return True
        case [option, _]:
            return option == BOOK_OPTION
        case [option]:
            return option.startswith(f"{BOOK_OPTION}=")
    return False


def _open_screens(words: Sequence[str]) -> None:
    from colony.screens.start import run_screens  # noqa: PLC0415 - as above
    from colony.store.location import BOOK_VARIABLE  # noqa: PLC0415 - as above

    if words:
        os.environ[BOOK_VARIABLE] = words[-1].removeprefix(f"{BOOK_OPTION}=")
    run_screens()


if __name__ == "__main__":
    main()
