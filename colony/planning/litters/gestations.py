"""Gestations on record: what was seen before a birth says for how long she carried."""

from datetime import date, timedelta

from colony.planning.litters.conception import Evidence, conception_span
from colony.planning.litters.gestation import GestationLength, GestationPrior
from colony.planning.litters.judgement import verdict_of

VAGUE_DAYS = 60
"""Days of conception that lie farther apart than this teach nothing; common practice, no source."""


def gestation_length(
    evidence: Evidence, born: date, prior: GestationPrior
) -> GestationLength | None:
    """Measure a gestation by the days on which she may have conceived.

    A mating sign, a separation soon after the pairing began, or an early pregnancy check each
    narrow those days; what is left of doubt becomes the spread of the gestation.

    Parameters
    ----------
    evidence
        What was seen of her before this birth; later days do not count.
    born
        The day of birth.
    prior
        Days of gestation of the species.

    Returns
    -------
    GestationLength or None
        None when nothing was seen, when the days lie more than `VAGUE_DAYS` apart, or when
        they are impossible: a mistake in the records may not bend every later window.
    """
    eve = born - timedelta(days=1)
    span = conception_span(evidence, longest_days=prior.high_days, today=eve)
    if span is None or (span[1] - span[0]).days > VAGUE_DAYS:
        return None
    shortest, longest = ((born - day).days for day in reversed(span))
    if verdict_of(prior, shortest, longest) == "impossible":
        return None
    return GestationLength.between(evidence.dam, *span, born)
