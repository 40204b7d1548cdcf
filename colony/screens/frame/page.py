"""What every page shares: it stands on a place and is about one thing."""

from colony.screens.frame.about import About
from colony.screens.frame.place import Place


class Page(Place):
    """The page of one thing; Esc goes back to where it was opened."""

    def __init__(self, subject: About) -> None:
        super().__init__()
        self.subject = subject

    @property
    def about(self) -> About | None:
        """What the page is about."""
        return self.subject
