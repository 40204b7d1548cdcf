"""A drawing as SVG, written here: plain text that any browser shows and any editor opens."""

from collections.abc import Iterator
from xml.sax.saxutils import escape, quoteattr

from colony.papers.chart.drawing import Drawing, Label, Stroke, Symbol
from colony.papers.plain_words import printable

DASHES = "1.2 0.9"
FACE = "Source Sans 3"
FACES = f"'{FACE}', Helvetica, Arial, sans-serif"


def chart_svg(drawing: Drawing) -> str:
    """The drawing as one SVG document, its size in millimetres."""
    width, height = _number(drawing.width_mm), _number(drawing.height_mm)
    size = f'width="{width}mm" height="{height}mm" viewBox="0 0 {width} {height}"'
    # fpdf2 reads no <title> and says so on stderr; a screen reader takes a label as well.
    label = quoteattr(printable(drawing.title))
    parts = (
        f'<svg xmlns="http://www.w3.org/2000/svg" {size} role="img" aria-label={label} font-family="{FACES}">',
        f'<rect width="{width}" height="{height}" fill="white"/>',
        '<g stroke="black" stroke-linecap="round" fill="white">',
        *map(_line, drawing.lines),
        *map(_symbol, drawing.symbols),
        *map(_line, drawing.marks),
        "</g>",
        *(part for label in drawing.labels for part in _label(label)),
        "</svg>",
    )
    return "\n".join(parts) + "\n"


def _number(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".")


def _attributes(**values: float) -> str:
    return " ".join(
        f'{name.replace("_", "-")}="{_number(value)}"' for name, value in values.items()
    )


def _line(line: Stroke) -> str:
    ends = _attributes(x1=line.x1_mm, y1=line.y1_mm, x2=line.x2_mm, y2=line.y2_mm)
    dashes = f' stroke-dasharray="{DASHES}"' if line.dashed else ""
    return f"<line {ends} {_attributes(stroke_width=line.width_mm)}{dashes}/>"


def _symbol(symbol: Symbol) -> str:
    width = _attributes(stroke_width=symbol.stroke_mm)
    if symbol.sex == "F":
        where = _attributes(cx=symbol.x_mm, cy=symbol.y_mm, r=symbol.size_mm / 2)
        return f"<circle {where} {width}/>"
    points = " ".join(f"{_number(x)},{_number(y)}" for x, y in symbol.corners_mm)
    return f'<polygon points="{points}" {width}/>'


def _label(label: Label) -> Iterator[str]:
    left, top, right, bottom = label.ground_mm
    if label.middle:
        ground = _attributes(x=left, y=top, width=right - left, height=bottom - top)
        yield f'<rect {ground} fill="white"/>'
    anchor = ' text-anchor="middle"' if label.middle else ""
    where = _attributes(x=label.x_mm, y=label.y_mm, font_size=label.height_mm)
    yield f"<text {where}{anchor}>{escape(printable(label.text))}</text>"
