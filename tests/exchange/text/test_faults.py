"""What is wrong in a file, and where."""

from colony.exchange.text.faults import LONGEST_SHOWN, Fault


def test_faults_stand_in_the_order_of_their_lines() -> None:
    """As one goes through the file to put them right."""
    later, sooner = (Fault("a.csv", line, "tag", "", "is empty") for line in (10, 9))
    assert sorted([later, sooner]) == [sooner, later]


def test_a_long_cell_is_cut_and_a_short_one_is_not() -> None:
    """At the limit it stands whole."""
    whole, long = "x" * LONGEST_SHOWN, "x" * (LONGEST_SHOWN + 1)
    assert Fault("a.csv", 1, "note", whole, "").value_shown == whole
    assert Fault("a.csv", 1, "note", long, "").value_shown == f"{whole}..."


def test_a_file_is_named_without_its_folder() -> None:
    """The folder is the same for all of them."""
    assert Fault("some/where/a.csv", 1, "tag", "", "").file_name == "a.csv"
