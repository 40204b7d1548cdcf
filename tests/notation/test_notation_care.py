"""The words of care."""

from colony.notation.care import PARAMETERS, SIGNS, TASKS, UNIONISED


def test_each_task_stands_under_its_own_name_at_a_tank_or_for_a_system() -> None:
    """What is done for a system needs no animal there."""
    assert all(task.name == name for name, task in TASKS.items())
    assert {task.per for task in TASKS.values()} == {"tank", "system"}
    assert not any(task.needs_animals for task in TASKS.values() if task.per == "system")


def test_well_is_said_of_an_animal_that_was_seen_and_no_sign_stands_twice() -> None:
    """It comes first: most animals are well."""
    assert SIGNS[0] == "well"
    assert len(set(SIGNS)) == len(SIGNS)


def test_a_parameter_ends_in_its_unit_and_only_what_is_dissolved_is_diluted() -> None:
    """Changing water lowers what is dissolved; it does not halve a pH or a temperature."""
    diluted = {name for name, known in PARAMETERS.items() if known.diluted}
    nitrogen = {"ammonia_mg_l", "ammonia_nh3_mg_l", "nitrite_mg_l", "nitrate_mg_l"}
    assert diluted == nitrogen | {"chlorine_mg_l"}
    assert all(known.unit == "mg/L" for name, known in PARAMETERS.items() if name.endswith("_mg_l"))
    assert all(known.least < known.most for known in PARAMETERS.values())
    assert UNIONISED not in PARAMETERS
