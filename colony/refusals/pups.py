"""Refusals about growing pups."""

from colony.refusals.base import Refusal, act


class NothingToForecast(Refusal):
    """An animal has neither a birth nor a width to start from, or has left."""

    def __init__(self, tag: str) -> None:
        super().__init__(
            f"There is nothing to forecast {tag} from: measure it first.", act("pup measure", tag)
        )
