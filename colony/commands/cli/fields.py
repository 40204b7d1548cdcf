"""The options of a command from the catalogue of fields, and what was typed at them as facts."""

from collections.abc import Callable, Mapping, Sequence
from functools import wraps
from inspect import Parameter, signature
from typing import TYPE_CHECKING, Annotated, Any

import typer

from colony.commands.cli.completion import complete_tag
from colony.commands.cli.read import day, known_day
from colony.notation.fields.field import Field
from colony.notation.measures import parse_length_mm, parse_mass_g, parse_volume_l
from colony.notation.shares import parse_sires
from colony.notation.tags import parse_tag, parse_text
from colony.notation.transponders import parse_transponder
from colony.notation.words import parse_word

if TYPE_CHECKING:
    from colony.store.settings import BookSettings

Typed = Mapping[str, Any]
"""What was typed at the options of some fields, by name; None where an option was not given."""

OPTION_TYPES: Mapping[str, Any] = {
    "yes_no": bool | None,
    "sires": list[str] | None,
    "tags": list[str] | None,
    "count": int | None,
    "positive": int | None,
    "number": float | None,
}
"""What typer hands over for a kind; for the others the text as it was typed."""

NUMBERS = frozenset({"count", "positive", "number"})
"""Kinds whose bounds the option itself holds."""

LEAST = {"count": 0, "positive": 1}
"""The smallest number of a kind, where its field says nothing."""

COMPLETED = frozenset({"animals", "sires", "tags"})
"""Kinds that the shell completes with tags of the book."""


def with_options(
    fields: Sequence[Field], *, new: bool = False
) -> Callable[[Callable[..., None]], Callable[..., None]]:
    """Give a command one option a field, in the place of its parameter `typed`.

    The command gets what was typed at them in one mapping, `Typed`.

    Parameters
    ----------
    new
        Whether a record is written: a needed fact has to be said, and the first one of a field
        holds where nothing is. What corrects a record asks for none and changes only what is said.
    """

    def decorate(command: Callable[..., None]) -> Callable[..., None]:
        @wraps(command)
        def run(**given: Any) -> None:  # noqa: ANN401 - whatever its parameters take
            typed = {field.name: given.pop(_parameter_name(field)) for field in fields}
            command(**given, typed=typed)

        own = signature(command, eval_str=True)
        parameters: list[Parameter] = []
        for parameter in own.parameters.values():
            places = (
                (option(field, new=new) for field in fields)
                if parameter.name == "typed"
                else (parameter,)
            )
            parameters += [place.replace(kind=Parameter.KEYWORD_ONLY) for place in places]
        # typer reads the options of a command from its signature, as `inspect` gives it.
        run.__signature__ = own.replace(parameters=parameters)  # type: ignore[attr-defined]
        return run

    return decorate


def argument(field: Field) -> Any:  # noqa: ANN401 - typer declares it so
    """The place of one field in the line of a command, for its annotation."""
    return typer.Argument(help=field.help, autocompletion=_completion(field))


def option(field: Field, *, new: bool = False) -> Parameter:
    """The option of one field, as typer reads it from a signature."""
    least = LEAST.get(field.kind) if field.least is None else field.least
    bounded = field.kind in NUMBERS and least is not None
    declared = typer.Option(
        field.switch,
        help=field.help,
        autocompletion=_completion(field),
        min=least if bounded else None,
        max=field.most if bounded else None,
    )
    kind = list[str] | None if field.several else OPTION_TYPES.get(field.kind, str | None)
    return Parameter(
        _parameter_name(field),
        Parameter.KEYWORD_ONLY,
        default=_default(field) if new else None,
        annotation=Annotated[kind, declared],
    )


def read_typed(
    fields: Sequence[Field],
    typed: Typed,
    settings: "BookSettings | None" = None,
    *,
    new: bool = False,
) -> dict[str, Any]:
    """Read what was typed as the facts that an act takes; None for what was not said.

    An empty text clears a fact; of a new record it says nothing, and a needed fact is never empty.

    Parameters
    ----------
    settings
        Those of the book, for the units of bare numbers; not needed where no field is a measure.
    """
    return {field.name: _read(field, typed[field.name], settings, new=new) for field in fields}


def _read(field: Field, typed: Any, settings: Any, *, new: bool) -> Any:  # noqa: ANN401 - each kind has its own type
    if typed is None or (typed == "" and new and not (field.needed or field.first)):
        return None
    if typed == "" and field.kind in CLEARED and not new:
        return CLEARED[field.kind]
    reader = READERS.get(field.kind, _name)
    return (
        [reader(text, field, settings) for text in typed]
        if field.several
        else reader(typed, field, settings)
    )


def _default(field: Field) -> Any:  # noqa: ANN401 - or the mark of `inspect` for none
    return Parameter.empty if field.needed and not field.first else field.first or None


def _completion(field: Field) -> Callable[..., list[str]] | None:
    return complete_tag if field.kind in COMPLETED else None


def _parameter_name(field: Field) -> str:
    return f"typed_{field.name}"


def _text(text: str, field: Field, _settings: object) -> str:
    return parse_text(text, field.words_for_it, field.longest)


def _name(text: str, _field: Field, _settings: object) -> str | None:
    """The name of a row: the act finds it; an empty one says nothing."""
    return text or None


READERS: Mapping[str, Callable[[Any, Field, Any], Any]] = {
    "text": _text,
    "personal": _text,
    "tag": lambda text, _, __: parse_tag(text),
    "word": lambda text, field, _: parse_word(text, field.words, field.words_for_it),
    **dict.fromkeys(
        ("yes_no", "count", "positive", "number", "tags"), lambda answer, _, __: answer
    ),
    "transponder": lambda text, _, __: parse_transponder(text),
    "sires": lambda texts, _, __: parse_sires(texts),
    "day": lambda text, _, __: day(text),
    "known_day": lambda text, _, __: known_day(text),
    "length_mm": lambda text, _, settings: parse_length_mm(text, settings.length_unit),
    "mass_g": lambda text, _, settings: parse_mass_g(text, settings.mass_unit),
    "volume_l": lambda text, field, settings: parse_volume_l(
        text, settings.volume_unit, 0 if field.least == 0 else 1
    ),
}
"""How what was typed is read, by kind; a kind that is a noun is named."""

CLEARED: Mapping[str, str | None] = {
    "transponder": "",
    **dict.fromkeys(("tag", "word", "length_mm", "mass_g", "volume_l")),
}
"""What an empty text says of a record that is corrected, where its reader would refuse it."""
