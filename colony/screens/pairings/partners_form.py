"""The partners form: whose partners are to be ranked."""

from colony.screens.forms.fields.names import TagField
from colony.screens.forms.form import Form
from colony.screens.frame.about import About


class PartnersForm(Form):
    """Ask for an animal, and open the ranking of its partners."""

    TITLE_WORDS = "Partners of"
    FIELDS = (TagField("tag", "Animal", needed=True),)

    def initial(self) -> dict[str, str]:
        """The animal that is looked at."""
        return {"tag": self.beginning.tag}

    async def action_write(self) -> None:
        """Open the ranking; nothing is written."""
        self.dismiss(None)
        self.app.open_about(About("partners", self.rows[0].text))
