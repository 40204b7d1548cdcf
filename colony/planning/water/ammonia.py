"""How much of the ammonia in the water is the poisonous, un-ionised part."""

ZERO_CELSIUS_K = 273.15

NH3_OF_NITROGEN = 17.031 / 14.007
"""Grams of NH3 from a gram of nitrogen: the ratio of their molar masses."""


def dissociation_pka(temperature_c: float) -> float:
    """The pKa of the ammonium ion in fresh water.

    Parameters
    ----------
    temperature_c
        Temperature in degrees Celsius; the formula was fitted from 0 to 50.

    References
    ----------
    Emerson, Russo, Lund & Thurston 1975, Aqueous ammonia equilibrium calculations: effect of
    pH and temperature, J. Fish. Res. Board Can. 32:2379-2383.
    """
    return 0.09018 + 2729.92 / (temperature_c + ZERO_CELSIUS_K)


def unionised_fraction(ph: float, temperature_c: float) -> float:
    """Share of total ammonia that is un-ionised, between 0 and 1 (Emerson et al. 1975)."""
    return float(1 / (1 + 10 ** (dissociation_pka(temperature_c) - ph)))


def unionised_mg_l(total_mg_l: float, ph: float, temperature_c: float) -> float:
    """Un-ionised ammonia in mg/L, as nitrogen when the total was measured as nitrogen."""
    return total_mg_l * unionised_fraction(ph, temperature_c)
