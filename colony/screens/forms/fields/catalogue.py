"""The fields of a form from the catalogue of fields, by the kind of their value."""

from collections.abc import Mapping
from typing import Any

from colony.notation.fields.field import Field
from colony.screens.forms.fields.fields import CountField, FormField, WordField, YesNoField
from colony.screens.forms.fields.measures import (
    DayField,
    KnownDayField,
    LengthField,
    MassField,
    NewTagField,
    TransponderField,
    VolumeField,
)
from colony.screens.forms.fields.names import (
    SiresField,
    SpeciesField,
    TagField,
    TagsField,
    TankField,
)

FORM_FIELDS: Mapping[str, type[FormField]] = {
    "text": FormField,
    "personal": FormField,
    "tag": NewTagField,
    "systems": NewTagField,
    "animals": TagField,
    "tags": TagsField,
    "sires": SiresField,
    "tanks": TankField,
    "species": SpeciesField,
    "word": WordField,
    "yes_no": YesNoField,
    "day": DayField,
    "known_day": KnownDayField,
    "transponder": TransponderField,
    "length_mm": LengthField,
    "mass_g": MassField,
    "volume_l": VolumeField,
    "count": CountField,
    "positive": CountField,
}
"""The field of a form for each kind."""


def form_field(field: Field, **otherwise: Any) -> FormField:  # noqa: ANN401 - what this form says otherwise
    """The field of a form for one of the catalogue; `otherwise` is what this form has of its own."""
    declared: dict[str, Any] = {
        "name": field.name,
        "label": field.title,
        "empty": field.hint,
        "first": field.first,
        "needed": field.needed,
        "longest": field.longest,
    }
    if FORM_FIELDS[field.kind] is CountField:
        declared["most"] = field.most
    if field.kind == "day":
        declared["ahead"] = field.ahead
    if field.words:
        declared |= {"words": field.words, "what": field.words_for_it}
    if field.sex:
        # A parent may be long gone, or have been sold.
        declared |= {"sex": field.sex, "status": None}
    return FORM_FIELDS[field.kind](**declared | otherwise)
