"""In which order to walk."""

from colony.planning.care.walking_order import (
    CLEAN,
    GUARDED,
    ISOLATED,
    Stop,
    WorkPlace,
    by_biosecurity,
    water_classes,
)


def test_clean_water_is_walked_before_guarded_and_isolated_water() -> None:
    """A system is as suspect as its worst tank; within a class the breeder's own way holds."""
    classes = water_classes(
        [
            Stop("I1", "S9", "intake"),
            Stop("A1", "S1", "grow-out"),
            Stop("B1", "S2", "breeding"),
            Stop("B2", "S2", "breeding", held=True),
            Stop("H1", "S3", "hospital"),
        ]
    )
    assert classes == {"S9": ISOLATED, "S1": CLEAN, "S2": GUARDED, "S3": GUARDED}
    places = [
        WorkPlace("I1", "tank", "S9", 1, ISOLATED),
        WorkPlace("B1", "tank", "S2", 2, GUARDED),
        WorkPlace("A2", "tank", "S1", 4),
        WorkPlace("A1", "tank", "S1", 3),
        WorkPlace("S1", "system", "S1", 3),
    ]
    assert [place.name for place in by_biosecurity(places)] == ["S1", "A1", "A2", "B1", "I1"]
