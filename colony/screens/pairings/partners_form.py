"""The partners slip: whose partners are to be ranked."""

from colony.screens.about import About
from colony.screens.slips.known_blanks import TagBlank
from colony.screens.slips.slip import Slip


class PartnersSlip(Slip):
    """Ask for an animal, and open the ranking of its partners."""

    TITLE_WORDS = "Partners of"
    BLANKS = (TagBlank("tag", "Animal", needed=True),)

    def firsts(self) -> dict[str, str]:
        """The animal that is looked at."""
        return {"tag": self.beginning.tag}

    async def action_write(self) -> None:
        """Open the ranking; nothing is written."""
        self.dismiss(None)
        self.app.open_about(About("partners", self.rows[0].text))


SLIP = PartnersSlip
