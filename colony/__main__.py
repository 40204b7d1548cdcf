"""The program: words are commands. The only file that knows which face answers."""

import sys


def main() -> None:
    """Answer the command line and leave with its exit code."""
    from colony.commands.failures import run  # noqa: PLC0415 - nothing is loaded before it is needed

    sys.exit(run())


if __name__ == "__main__":
    main()
