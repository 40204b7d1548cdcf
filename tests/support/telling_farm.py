"""A farm on which every reading command has something to tell, and the words typed on it."""

from pathlib import Path

from farm import Farm


def telling_farm(location: Path | str) -> Farm:
    """Two tanks, two couples, a litter ready and one growing, somebody due and somebody held."""
    farm = Farm(location)
    farm.tank("B1")
    farm.tank("N1", role="nursery")
    farm.female("Alma", tank="B1", width="48cm", line="white spot")
    farm.male("Bruno", tank="B1", width="38cm")
    farm.female("Bella", tank="B1", width="47cm")
    farm.male("Caro", tank="N1")
    farm.pair("Alma", "Bruno", "Caro", on="230d ago", tank="B1")
    farm.litter("Alma", "2F1M", sires=["Bruno=0.7", "Caro=0.3"], born="80d ago", tank="N1")
    for tag, width in (("25-01-1", "15cm"), ("25-01-2", "11cm")):
        farm.measure(tag, "10.5cm", on="50d ago")
        farm.measure(tag, width, on="2d ago")
        for food in ("worms", "prawn"):
            farm.feed(tag, food, on="30d ago")
    farm.pair("Bella", "Bruno", on="100d ago")
    farm.sign("Bella", on="95d ago")
    farm.hold("Caro")
    farm.book.close()
    return farm


READING = {
    "": (),
    "animal list": (),
    "animal show": ("25-01-1",),
    "pairing pick": ("Bella",),
    "pairing list": (),
    "litter list": (),
    "litter show": ("25-01",),
    "litter due": (),
    "pup ready": ("--all",),
    "tank list": (),
    "pedigree inbreeding": (),
    "pedigree kinship": ("25-01-1", "25-01-2"),
    "species list": (),
    "species show": ("leopoldi",),
    "book check": (),
    "book settings": (),
    "book history": (),
}
"""Each reading command of the three acts, and what it is asked about."""


def words_of(command: str) -> list[str]:
    """A command with what it is asked about."""
    return [*command.split(), *READING[command]]
