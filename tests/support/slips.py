"""A house in which every slip can be made, and for each refusal the words that make it."""

from pathlib import Path

from farm import Farm

SLIPS = {
    "NoSuchTag": ["animal", "show", "Amla"],
    "TagTaken": ["animal", "add", "alma"],
    "ReservedTag": ["animal", "add", "unknown"],
    "TransponderTaken": ["animal", "add", "Zoe", "--transponder", "999000000000001"],
    "NoSuchSpecies": ["animal", "add", "Zoe", "--species", "goldfish"],
    "NotYet": ["animal", "end", "Alma", "died", "--on", "tomorrow"],
    "WrongSexForParent": ["animal", "add", "Zoe", "--dam", "Bruno"],
    "ParentNotOlder": ["animal", "add", "Zoe", "--born", "2015", "--dam", "Alma"],
    "OwnParent": ["animal", "edit", "Alma", "--dam", "Alma"],
    "NotHere": ["pup", "measure", "Greta", "40cm"],
    "AlreadyEnded": ["animal", "end", "Greta", "sold"],
    "NotEnded": ["animal", "edit", "Alma", "--back"],
    "EndsBeforeItBegan": ["pup", "measure", "26-01-1", "14cm", "--on", "60d ago"],
    "NothingToChange": ["animal", "edit", "Alma"],
    "HeldAlready": ["animal", "hold", "26-01-2", "--why", "the sore again"],
    "NotHeld": ["animal", "release", "Alma"],
    "HardlyMeant": ["pup", "measure", "26-01-1", "5m"],
    "EndNeedsHow": ["animal", "end", "died"],
    "LastSeenUnclear": [
        "animal",
        "end",
        "26-01-2",
        "sold",
        "--last-seen",
        "today",
        "--anyway",
        "--why",
        "Vera",
    ],
    "EndsBeforeLater": ["animal", "end", "26-01-2", "died", "--on", "15d ago"],
    "StandsAgainst": ["animal", "end", "26-01-2", "sold"],
    "AnywayNeedsWhy": ["animal", "end", "26-01-2", "sold", "--anyway"],
    "NoSuchLitter": ["litter", "show", "26-09"],
    "DeadDam": ["litter", "record", "--dam", "Greta", "--pups", "2F"],
    "NotDue": ["litter", "prepare", "Greta"],
    "ImpossibleGestation": ["litter", "record", "--dam", "Ella", "--pups", "2F"],
    "TooSoonAfterBirth": ["litter", "record", "--dam", "Alma", "--pups", "1F"],
    "NobodyBorn": ["litter", "record", "--dam", "Dora", "--pups", "0"],
    "SireCannotBe": ["litter", "record", "--dam", "Dora", "--sire", "Hugo", "--pups", "1F"],
    "SireNotPossible": ["animal", "edit", "26-01-2", "--sire", "Ivo"],
    "OneTestedSire": ["animal", "edit", "26-01-2", "--sire", "Bruno", "--sire", "Caro"],
    "SettledOtherwise": ["animal", "edit", "26-01-2", "--sire", "Caro"],
    "SireFoundByTest": ["litter", "edit", "26-01", "--sire", "Caro"],
    "LitterKnows": ["animal", "edit", "26-01-1", "--born", "2026-01-01"],
    "LitterTwice": ["litter", "record", "--dam", "Alma", "--pups", "1F", "--born", "20d ago"],
    "PairedAlready": ["pairing", "start", "Dora", "Caro"],
    "NoPairing": ["pairing", "end", "Alma"],
    "EndsBeforeStart": ["pairing", "end", "Dora", "--on", "300d ago"],
    "PartnerNeedsSex": ["pairing", "pick", "Uwe"],
    "NoSuchRule": ["pairing", "pick", "Alma", "--ignore", "hunger"],
    "SpeciesTaken": ["species", "add", "Leopoldi", "--scientific", "Potamotrygon leopoldi"],
    "NoSuchTrait": ["species", "set", "leopoldi", "weight", "3"],
    "NoSuchTank": ["tank", "move", "Alma", "B9"],
    "NoSuchSystem": ["tank", "add", "T9", "--system", "East", "--diameter", "2m"],
    "TankCodeTaken": ["tank", "add", "b1", "--system", "Main", "--diameter", "2m"],
    "TankShape": ["tank", "add", "T9", "--system", "Main", "--length", "2m"],
    "TankRetired": ["tank", "move", "Alma", "R1"],
    "TankDoesNotFit": ["tank", "move", "Alma", "N1"],
    "AlreadyInTank": ["tank", "move", "Alma", "B1"],
    "MoveBeforeLast": ["tank", "move", "Alma", "B2", "--on", "3d ago"],
    "MoveNeedsTank": ["tank", "move", "B1"],
    "NoSuchBook": ["animal", "list", "--book", "nowhere.colony"],
    "BookAlreadyThere": ["sample", "farm.colony"],
    "NotABook": ["animal", "list", "--book", "folder"],
    "FolderNotThere": ["animal", "add", "Zoe", "--book", "lost/farm.colony"],
    "UnknownDatabase": ["animal", "list", "--book", "mysql://host/farm"],
    "UnknownSetting": ["book", "settings", "colour"],
    "BadSetting": ["book", "settings", "isolation_days", "a month"],
    "UnreadableMeasure": ["pup", "measure", "Alma", "wide"],
    "UnknownUnit": ["pup", "measure", "Alma", "2ft"],
    "MeasureOutOfRange": ["pup", "measure", "Alma", "45m"],
    "ThousandsOrDecimals": ["pup", "measure", "Alma", "45cm", "1,500g"],
    "UnreadableDay": ["litter", "record", "--dam", "Dora", "--pups", "2F", "--born", "soon"],
    "DayOrderNotSaid": ["litter", "record", "--dam", "Dora", "--pups", "2F", "--born", "9.3.2026"],
    "DayOutOfRange": ["animal", "add", "Zoe", "--born", "0202-03-09"],
    "UnreadableSpan": ["pup", "ready", "--min-age", "eight weeks"],
    "UnreadablePups": ["litter", "record", "--dam", "Dora", "--pups", "2F2F"],
    "TooManyPups": ["litter", "record", "--dam", "Dora", "--pups", "22F33M"],
    "BadTag": ["animal", "add", "Zoe,Yves"],
    "UnprintableText": ["animal", "edit", "Alma", "--name", "\x1b[31mred"],
    "UnreadableShare": [
        "litter",
        "record",
        "--dam",
        "Dora",
        "--pups",
        "2F",
        "--sire",
        "Bruno=most",
    ],
    "SireTwice": [
        *["litter", "record", "--dam", "Dora", "--pups", "2F"],
        *["--sire", "Bruno", "--sire", "bruno"],
    ],
    "SharesDoNotSum": [
        *["litter", "record", "--dam", "Dora", "--pups", "2F"],
        *["--sire", "Bruno=0.5", "--sire", "Caro=0.3"],
    ],
    "BadTransponder": ["animal", "edit", "Alma", "--transponder", "12345"],
    "UnknownWord": ["animal", "end", "Alma", "lost"],
    "UnreadableWord": ["animal", "show", chr(0xDCFF)],
    "JsonAfterVerb": ["--json", "animal", "list"],
    "NoSuchSubject": ["animals", "list"],
}
"""The words typed for each refusal, by its class. The book is ``farm.colony`` beside them."""


def slippery_farm(path: Path) -> Farm:
    """A house with a pair, a litter of two possible sires, some who are gone, and odd tanks."""
    farm = Farm(path)
    farm.tank("B1")
    farm.tank("B2")
    farm.tank("N1", size="50cm", role="nursery")
    farm.tank("R1")
    farm.write("UPDATE tank SET retired_on = '2025-06-01' WHERE code = 'R1'")
    farm.female("Alma", tank="B1", width="45cm", transponder="999000000000001")
    for tag in ("Bruno", "Caro", "Ivo", "Hugo"):
        farm.male(tag)
    for tag in ("Dora", "Ella", "Greta"):
        farm.female(tag)
    farm.animal("Uwe")
    farm.end("Greta", on="400d ago")
    farm.end("Hugo", on="700d ago")
    farm.pair("Dora", "Bruno", on="150d ago")
    farm.pair("Ella", "Bruno", on="10d ago")
    farm.litter("Alma", "2F", sires=["Bruno", "Caro"], born="20d ago")
    farm.edit("26-01-1", sires="Bruno")
    farm.hold("26-01-2")
    (path.parent / "folder").mkdir()
    farm.book.close()
    return farm
