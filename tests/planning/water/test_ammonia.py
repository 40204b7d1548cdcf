"""Un-ionised ammonia against published values."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from colony.planning.water.ammonia import dissociation_pka, unionised_fraction, unionised_mg_l


@pytest.mark.parametrize(
    ("ph", "temperature_c", "fraction"),
    [(7.0, 25, 0.00564), (8.0, 25, 0.05366), (8.5, 25, 0.15205), (7.0, 28, 0.00695)],
)
def test_the_fraction_is_that_of_emerson(ph: float, temperature_c: float, fraction: float) -> None:
    """Emerson, Russo, Lund & Thurston 1975, J. Fish. Res. Board Can. 32:2379-2383."""
    assert unionised_fraction(ph, temperature_c) == pytest.approx(fraction, abs=5e-6)


@pytest.mark.parametrize(
    ("ph", "temperature_c", "fraction"),
    [(7.0, 20, 0.0039), (7.0, 24, 0.0052), (7.0, 30, 0.0080), (8.0, 20, 0.0381), (8.0, 24, 0.0502)],
)
def test_the_fraction_is_that_of_the_handbook_table(
    ph: float, temperature_c: float, fraction: float
) -> None:
    """Francis-Floyd et al., Ammonia in Aquatic Systems (UF/IFAS FA16), its table (from memory)."""
    assert unionised_fraction(ph, temperature_c) == pytest.approx(fraction, abs=1.01e-4)


def test_at_the_pka_half_is_unionised() -> None:
    """Where pH equals pKa, half of the ammonia is un-ionised, by definition of pKa."""
    assert unionised_mg_l(2.0, dissociation_pka(26), 26) == pytest.approx(1.0)


@settings(deadline=None)
@given(st.floats(5, 9), st.floats(18, 34), st.floats(0.05, 1), st.floats(0.1, 5))
def test_warmer_and_more_alkaline_water_is_more_poisonous(
    ph: float, temperature_c: float, more_ph: float, more_c: float
) -> None:
    """The fraction rises with pH and with temperature, and is a share."""
    here = unionised_fraction(ph, temperature_c)
    assert 0 < here < unionised_fraction(ph + more_ph, temperature_c) < 1
    assert here < unionised_fraction(ph, temperature_c + more_c) < 1
