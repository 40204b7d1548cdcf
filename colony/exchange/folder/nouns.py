"""A colony as plain files: which nouns there are, and the columns of each, as data."""

from collections.abc import Mapping

from colony.exchange.folder.care_nouns import CARE_NOUNS
from colony.exchange.folder.herd_nouns import HERD_NOUNS
from colony.exchange.folder.noun import Noun
from colony.exchange.folder.sale_nouns import SALE_NOUNS

NOUNS = (*HERD_NOUNS, *CARE_NOUNS, *SALE_NOUNS)
"""Every noun, each after those that it cannot do without."""

BY_NAME: Mapping[str, Noun] = {noun.name: noun for noun in NOUNS}

REFERRED = frozenset(
    column.kind for noun in NOUNS for column in noun.columns if column.kind in BY_NAME
)
"""The nouns whose rows other rows name."""
