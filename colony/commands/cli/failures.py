"""Where a refusal becomes words on stderr and an exit code; the only such place of the commands."""

import os
import sys
from collections.abc import Callable, Sequence
from contextlib import suppress
from io import TextIOWrapper

import typer

from colony.commands.cli import written
from colony.commands.cli.remedies import sentence_of
from colony.commands.cli.untyped import take_as_typed
from colony.notation.tags import printable
from colony.refusals.base import Refusal
from colony.refusals.notation import UnreadableWord

WRONG_USE, FAILED, INTERRUPTED = 2, 1, 130


def run(arguments: Sequence[str] | None = None) -> int:
    """Run the command line and return its exit code: 0 done, 1 refused or failed, 2 wrong use."""
    from colony.commands.tree import app

    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            # What the terminal has no letter for is written as an escape, rather than not at all.
            stream.reconfigure(errors="backslashreplace")
    written.begin()
    words = list(sys.argv[1:] if arguments is None else arguments)
    command = take_as_typed(typer.main.get_command(app))

    def answer() -> object:
        _refuse_unreadable(words)
        return command.main(args=words, prog_name="colony", standalone_mode=False)

    code = exit_code_of(answer)
    with suppress(KeyboardInterrupt):  # who does not want to wait for it has the answer already
        for wrong in written.try_backups():
            _say(wrong, code)
    return code


def exit_code_of(call: Callable[[], object]) -> int:
    """Call a face of the program; whatever stops it becomes a sentence and an exit code."""
    try:
        code = call()
        sys.stdout.flush()
    except Refusal as refusal:
        return _say(sentence_of(refusal), refusal.exit_code)
    except typer.TyperException as misuse:
        return _say(_sentence_of(misuse), misuse.exit_code)
    except (typer.Abort, KeyboardInterrupt):
        return _say(f"Stopped; {written.in_words()}.", INTERRUPTED)
    except (BrokenPipeError, SystemExit) as gone:
        # The library of the command line leaves when whoever read us has gone.
        if not isinstance(gone, BrokenPipeError) and not isinstance(
            gone.__context__, BrokenPipeError
        ):
            raise
        return _unheard()
    except OSError as failed:
        wrong = f"{failed.filename or 'The system'}: {failed.strerror or failed}"
        _answer_nowhere()
        act = f"; {written.in_words()}" if written.is_any() else ""
        return _say(f"{wrong}{act}.", FAILED)
    return code if isinstance(code, int) else 0


def _unheard() -> int:
    """Whoever read us has gone, and what is left to flush goes nowhere; an act is written still."""
    _answer_nowhere()
    return 0 if written.is_any() else FAILED


def _answer_nowhere() -> None:
    with suppress(OSError, ValueError):  # standard output that is no file
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _sentence_of(misuse: typer.TyperException) -> str:
    """What typer found wrong, and where the right use is written."""
    context = getattr(misuse, "ctx", None)
    sentence = misuse.format_message().rstrip(".?").replace(". Did you mean", "; did you mean")
    if context is None or sentence.startswith("Usage"):
        return sentence
    return f"{sentence}: see {context.command_path} --help."


def _say(sentence: str, code: int) -> int:
    safe = "\n".join(map(printable, sentence.split("\n")))
    sys.stderr.write(f"colony: {safe}\n")
    return code


def _refuse_unreadable(words: Sequence[str]) -> None:
    """Refuse bytes that are no text: the shell's encoding is another than the program's."""
    for word in words:
        try:
            word.encode()
        except UnicodeEncodeError as wrong:
            raise UnreadableWord(word) from wrong
