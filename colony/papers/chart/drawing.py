"""What a drawing on paper is made of: lines, symbols and labels, in millimetres from the top left."""

from dataclasses import dataclass

LETTER_WIDTH = 0.52
"""Width of a letter of a sans serif face for its height, near enough to keep labels apart."""


@dataclass(frozen=True)
class Stroke:
    """A straight stroke."""

    x1_mm: float
    y1_mm: float
    x2_mm: float
    y2_mm: float
    dashed: bool = False
    width_mm: float = 0.25


@dataclass(frozen=True)
class Symbol:
    """An animal: square for a male, circle for a female, diamond for sex unknown.

    Bennett et al. 1995, Recommendations for standardized human pedigree nomenclature, Am. J. Hum.
    Genet. 56:745-752; Bennett et al. 2022, J. Genet. Couns. 31:1238-1248.
    """

    x_mm: float
    y_mm: float
    size_mm: float
    sex: str
    bold: bool = False

    @property
    def stroke_mm(self) -> float:
        """Width of its outline."""
        return 0.6 if self.bold else 0.3

    @property
    def corners_mm(self) -> tuple[tuple[float, float], ...]:
        """Corners of a square or a diamond; of a circle, those of the square around it."""
        half, x, y = self.size_mm / 2, self.x_mm, self.y_mm
        if self.sex in "FM":
            return (
                (x - half, y - half),
                (x + half, y - half),
                (x + half, y + half),
                (x - half, y + half),
            )
        half *= 1.15
        return ((x, y - half), (x + half, y), (x, y + half), (x - half, y))


@dataclass(frozen=True)
class Label:
    """A line of text on a white ground; `y_mm` is its base line."""

    x_mm: float
    y_mm: float
    text: str
    height_mm: float
    middle: bool = True

    @property
    def width_mm(self) -> float:
        """Estimated width."""
        return len(self.text) * self.height_mm * LETTER_WIDTH

    @property
    def ground_mm(self) -> tuple[float, float, float, float]:
        """The white ground of a label around its middle: left, top, right, bottom."""
        half = self.width_mm / 2
        top = self.y_mm - 0.8 * self.height_mm
        return self.x_mm - half, top, self.x_mm + half, self.y_mm + 0.2 * self.height_mm


@dataclass(frozen=True)
class Drawing:
    """A page; lines lie below symbols, symbols below marks, marks below labels."""

    title: str
    width_mm: float
    height_mm: float
    lines: tuple[Stroke, ...]
    symbols: tuple[Symbol, ...]
    marks: tuple[Stroke, ...]
    labels: tuple[Label, ...]


def shortened(text: str, height_mm: float, width_mm: float) -> str:
    """The text, cut with an ellipsis where it is wider than it may be."""
    most = max(2, int(width_mm / (height_mm * LETTER_WIDTH) + 0.01))
    return text if len(text) <= most else text[: most - 1] + "\N{HORIZONTAL ELLIPSIS}"
