"""Where a refusal becomes words on stderr and an exit code; the only such place of the commands."""

import sys
from collections.abc import Callable, Sequence

import typer

from colony.commands.as_typed import take_as_typed
from colony.refusals.base import Refusal

WRONG_USE, FAILED, INTERRUPTED = 2, 1, 130


def run(arguments: Sequence[str] | None = None) -> int:
    """Run the command line and return its exit code: 0 done, 1 refused or failed, 2 wrong use."""
    from colony.commands.tree import app

    command = take_as_typed(typer.main.get_command(app))
    return said(lambda: command.main(args=arguments, prog_name="colony", standalone_mode=False))


def said(call: Callable[[], object]) -> int:
    """Call a face of the program; whatever stops it becomes a sentence and an exit code."""
    try:
        code = call()
    except Refusal as refusal:
        return _say(refusal.sentence, refusal.exit_code)
    except typer.TyperException as misuse:
        return _say(_told(misuse), misuse.exit_code)
    except (typer.Abort, KeyboardInterrupt):
        return _say("Stopped; nothing was written.", INTERRUPTED)
    except BrokenPipeError:
        sys.stdout = None  # whoever read us has gone: nothing to flush
        return FAILED
    except OSError as failed:
        return _say(f"{failed.filename or 'The system'}: {failed.strerror or failed}.", FAILED)
    return code if isinstance(code, int) else 0


def _told(misuse: typer.TyperException) -> str:
    """What typer found wrong, and where the right use is written."""
    context = getattr(misuse, "ctx", None)
    sentence = misuse.format_message().rstrip(".")
    if context is None or sentence.startswith("Usage"):
        return sentence
    return f"{sentence}: see {context.command_path} --help."


def _say(sentence: str, code: int) -> int:
    sys.stderr.write(f"colony: {sentence}\n")
    return code
