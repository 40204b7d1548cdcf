"""The reserve, followed night by night."""

from hypothesis import given
from hypothesis import strategies as st

from colony.planning.water.reserve import Reserve, ReserveBalance, levels

reserves = st.builds(Reserve, st.integers(50, 100), st.integers(0, 40), st.integers(0, 50))


def test_the_night_fills_up_to_the_capacity_and_no_further() -> None:
    """80 of 100 L, 30 drawn, 70 brought by the night: full, and 20 L are lost."""
    assert levels(Reserve(100, 70, 80), [30, 0, 50]) == [80, 100, 100]


@given(reserves, st.lists(st.integers(0, 30), min_size=3, max_size=3), st.integers(0, 2))
def test_room_is_the_most_that_can_be_drawn_besides(
    reserve: Reserve, drawn: list[int], day: int
) -> None:
    """Drawing the room overdraws no day of a plan that was not overdrawn; a litre more does."""
    balance = ReserveBalance(reserve, 3)
    for n, litres in enumerate(drawn):
        balance.draw(n, min(litres, balance.room(n)))
    room = balance.room(day)

    def overdrawn(more: int) -> bool:
        trial = balance.copy()
        trial.draw(day, more)
        return any(
            level < drawn for level, drawn in zip(trial.levels(), trial.drawn_l, strict=True)
        )

    assert not overdrawn(room)
    assert overdrawn(room + 1)
