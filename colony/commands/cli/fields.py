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
    "count": int | None,
    "positive": int | None,
    "number": float | None,
}
"""What typer hands over for a kind; for the others the text as it was typed."""

LEAST = {"count": 0, "positive": 1}
"""The smallest number of a kind, where its field says nothing."""

COMPLETED = frozenset({"animals", "sires"})
"""Kinds that the shell completes with tags of the book."""


def with_options(fields: Sequence[Field]) -> Callable[[Callable[..., None]], Callable[..., None]]:
    """Give a command one option a field, in the place of its parameter `typed`.

    The command gets what was typed at them in one mapping, `Typed`.
    """

    def decorate(command: Callable[..., None]) -> Callable[..., None]:
        @wraps(command)
        def run(**given: Any) -> None:  # noqa: ANN401 - whatever its parameters take
            typed = {field.name: given.pop(_parameter_name(field)) for field in fields}
            command(**given, typed=typed)

        own = signature(command, eval_str=True)
        parameters: list[Parameter] = []
        for parameter in own.parameters.values():
            places = map(option, fields) if parameter.name == "typed" else (parameter,)
            parameters += [place.replace(kind=Parameter.KEYWORD_ONLY) for place in places]
        # typer reads the options of a command from its signature, as `inspect` gives it.
        run.__signature__ = own.replace(parameters=parameters)  # type: ignore[attr-defined]
        return run

    return decorate


def option(field: Field) -> Parameter:
    """The option of one field, as typer reads it from a signature."""
    completion = complete_tag if field.kind in COMPLETED else None
    least = LEAST.get(field.kind) if field.least is None else field.least
    declared = typer.Option(
        field.switch,
        help=field.help,
        autocompletion=completion,
        min=least,
        max=None if least is None else field.most,
    )
    kind = OPTION_TYPES.get(field.kind, str | None)
    return Parameter(
        _parameter_name(field),
        Parameter.KEYWORD_ONLY,
        default=None,
        annotation=Annotated[kind, declared],
    )


def read_typed(
    fields: Sequence[Field], typed: Typed, settings: "BookSettings | None" = None
) -> dict[str, Any]:
    """Read what was typed as the facts that an act takes; None for what was not said.

    Parameters
    ----------
    settings
        Those of the book, for the units of bare numbers; not needed where no field is a measure.
    """
    return {
        field.name: None
        if typed[field.name] is None
        else READERS.get(field.kind, _name)(typed[field.name], field, settings)
        for field in fields
    }


def _parameter_name(field: Field) -> str:
    return f"typed_{field.name}"


def _text(text: str, field: Field, _settings: object) -> str:
    return parse_text(text, field.words_for_it)


def _name(text: str, _field: Field, _settings: object) -> str | None:
    """The name of a row: the act finds it; an empty one says nothing."""
    return text or None


READERS: Mapping[str, Callable[[Any, Field, Any], Any]] = {
    "text": _text,
    "tag": lambda text, _, __: parse_tag(text) if text else None,
    "word": lambda text, field, _: parse_word(text, field.words, field.name) if text else None,
    **dict.fromkeys(("yes_no", "count", "positive", "number"), lambda answer, _, __: answer),
    "transponder": lambda text, _, __: parse_transponder(text) if text else text,
    "sires": lambda texts, _, __: parse_sires(texts),
    "day": lambda text, _, __: day(text),
    "known_day": lambda text, _, __: known_day(text),
    "length_mm": lambda text, _, settings: (
        parse_length_mm(text, settings.length_unit) if text else None
    ),
    "mass_g": lambda text, _, settings: parse_mass_g(text, settings.mass_unit) if text else None,
    "volume_l": lambda text, _, settings: (
        parse_volume_l(text, settings.volume_unit) if text else None
    ),
}
"""How what was typed is read, by kind; a kind that is a noun is named."""
