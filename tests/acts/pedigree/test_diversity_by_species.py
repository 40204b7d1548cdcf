"""Each species has its own diversity: pooled, several look like one diverse colony."""

import pytest
from farm import TODAY, Farm

from colony.acts.pedigree.founders import founder_page


def test_each_species_is_summed_up_by_itself(farm: Farm) -> None:
    """Two unrelated of one species, full sibs of the other: mean kinship by its definition.

    An animal's kinship with itself is 1/2, of full sibs 1/4 (Wright 1922); the mean over all
    pairs, itself included (Ballou & Lacy 1995), is (2 x 1/2 + 2 x 0) / 4 and (2 x 1/2 + 2 x 1/4) / 4.
    """
    farm.female("Alma")
    farm.male("Bruno")
    farm.female("Dam", species="motoro")
    farm.male("Sire", species="motoro")
    farm.litter("Dam", "2F", sires="Sire", born="30d ago")
    farm.end("Dam")
    farm.end("Sire")
    page = farm.ask(founder_page, today=TODAY)
    assert list(page.by_species) == ["leopoldi", "motoro"]
    leopoldi, motoro = page.by_species.values()
    assert (leopoldi.living, motoro.living) == (2, 2)
    assert leopoldi.mean_kinship == pytest.approx(0.25)
    assert motoro.mean_kinship == pytest.approx(0.375)
    assert motoro.gene_diversity == pytest.approx(0.625)
    assert page.diversity.gene_diversity > leopoldi.gene_diversity
    alone = farm.ask(founder_page, species="motoro", today=TODAY)
    assert alone.by_species == {"motoro": alone.diversity} == {"motoro": motoro}
