"""A drawing for print and for a message: PDF and PNG, with their face embedded."""

from importlib.resources import as_file, files
from io import BytesIO

from fpdf import FPDF
from PIL import Image, ImageDraw, ImageFont

from colony.papers.chart.drawing import Drawing, Label, Stroke, Symbol

FACE = files("font_source_sans_pro") / "files" / "SourceSansPro-Regular.ttf"
DASH_MM, SPACE_MM = 1.2, 0.9
DOTS_PER_MM = 200 / 25.4
POINTS_PER_MM = 72 / 25.4


def chart_pdf(drawing: Drawing) -> bytes:
    """The drawing as a PDF of one page, its size that of the drawing."""
    pdf = FPDF(unit="mm", format=(drawing.width_mm, drawing.height_mm))
    pdf.set_auto_page_break(auto=False)
    pdf.set_title(drawing.title)
    pdf.set_creator("colony")
    with as_file(FACE) as face:
        pdf.add_font("face", fname=face)
    pdf.add_page()
    pdf.set_fill_color(255)
    for line in drawing.lines:
        _pdf_line(pdf, line)
    for symbol in drawing.symbols:
        _pdf_symbol(pdf, symbol)
    for line in drawing.marks:
        _pdf_line(pdf, line)
    for label in drawing.labels:
        _pdf_label(pdf, label)
    return bytes(pdf.output())


def _pdf_line(pdf: FPDF, line: Stroke) -> None:
    pdf.set_line_width(line.width_mm)
    if line.dashed:
        pdf.set_dash_pattern(dash=DASH_MM, gap=SPACE_MM)
    pdf.line(line.x1_mm, line.y1_mm, line.x2_mm, line.y2_mm)
    pdf.set_dash_pattern()


def _pdf_symbol(pdf: FPDF, symbol: Symbol) -> None:
    pdf.set_line_width(symbol.stroke_mm)
    if symbol.sex == "F":
        pdf.circle(x=symbol.x_mm, y=symbol.y_mm, radius=symbol.size_mm / 2, style="DF")
    else:
        pdf.polygon(symbol.corners_mm, style="DF")


def _pdf_label(pdf: FPDF, label: Label) -> None:
    pdf.set_font("face", size=label.height_mm * POINTS_PER_MM)
    left, top, right, bottom = label.ground_mm
    x = label.x_mm
    if label.middle:
        pdf.rect(left, top, right - left, bottom - top, style="F")
        x -= pdf.get_string_width(label.text) / 2
    pdf.text(x, label.y_mm, label.text)


def chart_png(drawing: Drawing) -> bytes:
    """The drawing as a PNG of 200 dots an inch, drawn at twice that and made smooth."""
    scale = 2 * DOTS_PER_MM
    width, height = (round(mm * DOTS_PER_MM) for mm in (drawing.width_mm, drawing.height_mm))
    image = Image.new("L", (2 * width, 2 * height), 255)
    pen = _Pen(ImageDraw.Draw(image), scale)
    for line in drawing.lines:
        pen.line(line)
    for symbol in drawing.symbols:
        pen.symbol(symbol)
    for line in drawing.marks:
        pen.line(line)
    for label in drawing.labels:
        pen.label(label)
    out = BytesIO()
    smooth = image.resize((width, height), Image.Resampling.LANCZOS)
    smooth.save(out, "PNG", dpi=(200, 200), optimize=True)
    return out.getvalue()


class _Pen:
    """Draws millimetres as dots."""

    def __init__(self, draw: ImageDraw.ImageDraw, scale: float) -> None:
        self.draw, self.scale = draw, scale
        self.face = FACE.read_bytes()
        self.faces: dict[float, ImageFont.FreeTypeFont] = {}

    def line(self, line: Stroke) -> None:
        for (x1, y1), (x2, y2) in _dashes(line) if line.dashed else [_ends(line)]:
            self._stroke(x1, y1, x2, y2, line.width_mm)

    def symbol(self, symbol: Symbol) -> None:
        width = round(symbol.stroke_mm * self.scale)
        corners = [(x * self.scale, y * self.scale) for x, y in symbol.corners_mm]
        if symbol.sex == "F":
            self.draw.ellipse((*corners[0], *corners[2]), 255, 0, width)
        else:
            self.draw.polygon(corners, 255, 0, width)

    def label(self, label: Label) -> None:
        if label.middle:
            self.draw.rectangle(tuple(edge * self.scale for edge in label.ground_mm), 255)
        where = label.x_mm * self.scale, label.y_mm * self.scale
        anchor = "ms" if label.middle else "ls"
        self.draw.text(where, label.text, 0, self._face(label.height_mm), anchor)

    def _stroke(self, x1: float, y1: float, x2: float, y2: float, width_mm: float) -> None:
        ends = (x1 * self.scale, y1 * self.scale, x2 * self.scale, y2 * self.scale)
        self.draw.line(ends, 0, round(width_mm * self.scale))

    def _face(self, height_mm: float) -> ImageFont.FreeTypeFont:
        if height_mm not in self.faces:
            size = height_mm * self.scale
            self.faces[height_mm] = ImageFont.truetype(BytesIO(self.face), size)
        return self.faces[height_mm]


Point = tuple[float, float]


def _ends(line: Stroke) -> tuple[Point, Point]:
    return (line.x1_mm, line.y1_mm), (line.x2_mm, line.y2_mm)


def _dashes(line: Stroke) -> list[tuple[Point, Point]]:
    (x1, y1), (x2, y2) = _ends(line)
    length = ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5
    dashes = []
    at = 0.0
    while at < length:
        begin, end = at / length, min(at + DASH_MM, length) / length
        dashes.append(
            (
                (x1 + (x2 - x1) * begin, y1 + (y2 - y1) * begin),
                (x1 + (x2 - x1) * end, y1 + (y2 - y1) * end),
            )
        )
        at += DASH_MM + SPACE_MM
    return dashes
