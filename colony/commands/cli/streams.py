"""Keep the terminal for ourselves: what a library prints must spoil neither JSON nor a screen.

A compiled library writes past Python, straight to descriptor 1 or 2 of the process. Once and for
all threads, before anything is loaded, these lead nowhere, and our own streams go on with
duplicates of where they led.
"""

import os
import sys
import warnings

NAMES = ("stdin", "stdout", "stderr")
"""The streams of a process, by the number of their descriptor."""


def keep_to_ourselves() -> None:
    """Let nothing but `sys.stdout` and `sys.stderr` reach what stdout and stderr led to."""
    _open_closed()
    for number in (1, 2):
        ours = _reopened(NAMES[number], os.dup(number))
        _lead_nowhere(number)
        setattr(sys, NAMES[number], ours)
        # Textual and the size of the terminal ask for the stream that the process began with.
        setattr(sys, f"__{NAMES[number]}__", ours)
        _show_console(number)
    if not sys.warnoptions:
        # What a library warns its programmer of is not for a breeder.
        warnings.simplefilter("ignore")


def _open_closed() -> None:
    """A stream that was closed (``>&-``) leads nowhere: no file that is opened takes its number."""
    for number, name in enumerate(NAMES):
        if getattr(sys, name) is None:
            _lead_nowhere(number)
            stream = open(number, "w" if number else "r", encoding="utf-8", closefd=False)  # noqa: SIM115 - open to the end
            setattr(sys, name, stream)


def _lead_nowhere(number: int) -> None:
    nowhere = os.open(os.devnull, os.O_RDWR)
    if nowhere != number:
        os.dup2(nowhere, number)
        os.close(nowhere)


def _reopened(name: str, number: int) -> object:
    """A stream like that of the name, on another descriptor."""
    old = getattr(sys, name)
    new = open(number, "w", encoding=old.encoding, errors=old.errors, closefd=False)  # noqa: SIM115 - open to the end
    new.reconfigure(line_buffering=old.line_buffering or old.write_through)
    return new


def _show_console(number: int) -> None:
    """On Windows let those who ask about the console itself still find it; from memory."""
    if sys.platform == "win32":
        import ctypes
        import msvcrt

        stream = getattr(sys, NAMES[number])
        handle = ctypes.c_void_p(msvcrt.get_osfhandle(stream.fileno()))
        ctypes.windll.kernel32.SetStdHandle(-10 - number, handle)
