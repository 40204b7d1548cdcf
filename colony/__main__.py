"""The program: words are commands. The only file that knows which face answers."""

import gc
import os
import sys

ALLOCATIONS_BETWEEN_SWEEPS = 50_000
"""Loading the libraries leaves nothing to sweep up; by default a tenth of it is spent on looking."""


def main() -> None:
    """Answer the command line and leave with its exit code."""
    gc.set_threshold(ALLOCATIONS_BETWEEN_SWEEPS)
    # None is used, and looking for them reads the metadata of everything that is installed.
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    from colony.commands.failures import run  # noqa: PLC0415 - nothing is loaded before it is needed

    sys.exit(run())


if __name__ == "__main__":
    main()
