"""Since when a pup takes enough foods."""

from datetime import date, timedelta

from colony.planning.pups.feeding import FoodOffered, fed_since

TODAY = date(2024, 6, 1)


def ago(days: int) -> date:
    """Count days back from today."""
    return TODAY - timedelta(days=days)


def test_a_refusal_starts_the_count_of_a_food_again() -> None:
    """A food refused after it was taken counts from when it is taken again."""
    feedings = [
        FoodOffered(ago(30), "shrimp", True),
        FoodOffered(ago(30), "smelt", True),
        FoodOffered(ago(10), "smelt", False),
    ]
    assert fed_since(feedings, 1, TODAY) == ago(30)
    assert fed_since(feedings, 2, TODAY) is None
    assert fed_since([*feedings, FoodOffered(ago(5), "smelt", True)], 2, TODAY) == ago(5)
