"""A pup's growth curve as an SVG picture.

Every line has its own dash and every point its own mark, so that it reads without colour.
"""

from collections.abc import Iterable
from datetime import date
from xml.sax.saxutils import escape

from colony.notation.house import length_number, say_length, units_now
from colony.papers.growth.picture import GrowthPicture, Line
from colony.papers.plain_words import printable

WIDTH, HEIGHT = 720, 420
LEFT, RIGHT, TOP, BOTTOM = 56, 16, 40, 76

STYLE = (
    "text{font:13px sans-serif;fill:#222}.title{font-weight:bold;font-size:15px}"
    ".grid{stroke:#ddd}.band{fill:#2b6cb0;fill-opacity:.16}"
    ".forecast{fill:none;stroke:#2b6cb0;stroke-width:2;stroke-dasharray:7 4}"
    ".own{fill:none;stroke:#1a365d;stroke-width:2}.point{fill:#1a365d}"
    ".doubtful{stroke:#9b2c2c;stroke-width:2}"
    ".mate{fill:none;stroke:#999}.species{fill:none;stroke:#666;stroke-dasharray:2 4}"
    ".wanted{stroke:#276749;stroke-width:1.5;stroke-dasharray:12 4}"
)

LEGEND = (
    ("own", "measured"),
    ("forecast", "forecast, 80 % interval"),
    ("mate", "litter-mates"),
    ("species", "species, published"),
    ("wanted", "width wanted"),
)


def growth_svg(picture: GrowthPicture) -> str:
    """Draw a growth curve as one SVG document, widths in the unit of the house."""
    axes = _Axes(picture)
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" role="img">',
        f"<title>Growth of {_text(picture.tag)}</title>",
        f"<style>{STYLE}</style>",
        f'<rect width="{WIDTH}" height="{HEIGHT}" fill="#fff"/>',
        f'<text class="title" x="{LEFT}" y="24">{_text(picture.tag)}: disc width, {units_now().length}</text>',
        *axes.grid(),
        *(axes.line("mate", mate) for mate in picture.mates.values()),
        *axes.dots(picture.mates.values()),
        axes.line("species", picture.species),
        axes.band(),
        axes.line("forecast", tuple((f.day, f.width_mm) for f in picture.forecast)),
        axes.line("own", picture.measured),
        *axes.points(picture.measured),
        *axes.crosses(picture.doubtful),
        *axes.wanted(),
        *_legend(picture),
        "</svg>",
    ]
    return "\n".join(part for part in parts if part) + "\n"


class _Axes:
    """Where a day and a width lie in the picture."""

    def __init__(self, picture: GrowthPicture) -> None:
        self.picture = picture
        self.days = (picture.last_day - picture.first_day).days
        self.span_mm = picture.top_mm - picture.bottom_mm

    def x(self, day: date) -> float:
        share = (day - self.picture.first_day).days / self.days
        return LEFT + share * (WIDTH - LEFT - RIGHT)

    def y(self, width_mm: float) -> float:
        share = (width_mm - self.picture.bottom_mm) / self.span_mm
        return HEIGHT - BOTTOM - share * (HEIGHT - TOP - BOTTOM)

    def line(self, name: str, line: Line) -> str:
        return f'<polyline class="{name}" points="{self._path(line)}"/>' if line else ""

    def band(self) -> str:
        ahead = self.picture.forecast
        high = tuple((f.day, f.high_mm) for f in ahead)
        low = tuple((f.day, f.low_mm) for f in reversed(ahead))
        return f'<polygon class="band" points="{self._path(high + low)}"/>' if ahead else ""

    def points(self, line: Line) -> Iterable[str]:
        for day, width in line:
            yield (
                f'<circle class="point" cx="{self.x(day):.1f}" cy="{self.y(width):.1f}" r="3.5">'
                f"<title>{day}: {say_length(width)}</title></circle>"
            )

    def dots(self, lines: Iterable[Line]) -> Iterable[str]:
        for day, width in (point for line in lines for point in line):
            yield f'<path class="mate" d="M{self.x(day) - 2:.1f} {self.y(width):.1f}h4"/>'

    def crosses(self, line: Line) -> Iterable[str]:
        for day, width in line:
            x, y = self.x(day), self.y(width)
            yield (
                f'<path class="doubtful" d="M{x - 4:.1f} {y - 4:.1f}l8 8m0 -8l-8 8">'
                f"<title>{day}: {say_length(width)}, doubtful</title></path>"
            )

    def wanted(self) -> Iterable[str]:
        if self.picture.wanted_mm is not None:
            y = self.y(self.picture.wanted_mm)
            yield f'<path class="wanted" d="M{LEFT} {y:.1f}H{WIDTH - RIGHT}"/>'

    def grid(self) -> Iterable[str]:
        step = max(20 * round(self.span_mm / 6 / 20), 20)
        for mm in range(int(self.picture.bottom_mm), int(self.picture.top_mm) + 1, step):
            y = self.y(mm)
            yield f'<path class="grid" d="M{LEFT} {y:.1f}H{WIDTH - RIGHT}"/>'
            yield f'<text x="{LEFT - 8}" y="{y + 4:.1f}" text-anchor="end">{length_number(mm)}</text>'
        edges = ((self.picture.first_day, "start"), (self.picture.last_day, "end"))
        for day, anchor in edges:
            at = f'x="{self.x(day):.1f}" y="{HEIGHT - BOTTOM + 20}" text-anchor="{anchor}"'
            yield f"<text {at}>{day}</text>"

    def _path(self, line: Line) -> str:
        return " ".join(f"{self.x(day):.1f},{self.y(width):.1f}" for day, width in line)


def _legend(picture: GrowthPicture) -> Iterable[str]:
    shown = [
        (name, words)
        for name, words in LEGEND
        if not (name == "mate" and not picture.mates)
        and not (name == "wanted" and picture.wanted_mm is None)
    ]
    for n, (name, words) in enumerate(shown):
        x, y = LEFT + (n % 3) * 215, HEIGHT - 32 + (n // 3) * 20
        yield f'<path class="{name}" d="M{x} {y - 4}h30"/><text x="{x + 38}" y="{y}">{words}</text>'


def _text(words: str) -> str:
    return escape(printable(words))
