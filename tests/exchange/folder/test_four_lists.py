"""A noun is entered in four lists: records, files, commands and screens; they agree."""

from colony.commands.tree import SUBJECTS
from colony.exchange.folder.nouns import NOUNS
from colony.records import RECORDED, record_of
from colony.screens.forms.table import FORMS
from colony.screens.loaders import FORM_CLASSES

WITHOUT_FORM = {
    "health": "look-overs and visits of the vet are written at a keyboard",
    "money": "prices and expenses are written at a keyboard",
}
"""Subjects whose rows no form writes, and why."""

BESIDE_THE_JOURNAL = {"person_id", "person_digest"}
"""How a buyer is tied to what is personal of them, whose fields stand in the catalogue."""

BESIDE = {"pedigree", "species", "book", "isolation", "paper", "proof"}
"""Subjects that read, or keep what stands in colony.toml; no file of rows is theirs."""


def test_every_noun_has_a_record_and_every_record_of_a_noun_a_file() -> None:
    """A noun without a file would be lost by an export."""
    assert {noun.name for noun in NOUNS} == set(RECORDED)


def test_every_column_of_a_record_is_in_the_catalogue_and_no_other() -> None:
    """A column that no field declares would be seen by nobody; a field without one is written nowhere."""
    for noun in NOUNS:
        declared = {
            name for field in noun.columns if field.is_column for name in field.columns(None)
        }
        precise = {f"{f.name}_precision" for f in noun.columns if f.kind == "known_day"}
        columns = set(record_of(noun.name).model_fields) - {"id"} - BESIDE_THE_JOURNAL
        assert declared | precise == columns, noun.name


def test_every_noun_is_written_by_a_subject_of_the_commands() -> None:
    """And every subject writes some noun, or is known to write none."""
    subjects = {noun.subject for noun in NOUNS}
    assert subjects | BESIDE == set(SUBJECTS)
    assert not subjects & BESIDE


def test_every_form_is_of_a_subject_and_every_subject_has_a_form() -> None:
    """A form does at the screens what a command does; what has none is listed with its reason."""
    acts = {FORM_CLASSES[name]().ACT.partition(" ")[0] for name in FORMS} - {""}
    assert acts <= set(SUBJECTS)
    assert acts | set(WITHOUT_FORM) >= {noun.subject for noun in NOUNS}
    assert not acts & set(WITHOUT_FORM)
