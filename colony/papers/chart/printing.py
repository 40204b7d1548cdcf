"""A drawing for print and for a message: PDF and PNG, made from its SVG, their face embedded."""

from collections.abc import Container
from importlib.resources import as_file, files
from io import BytesIO
from typing import cast

import resvg_py
from fpdf import FPDF
from fpdf.fonts import TTFFont
from fpdf.svg import SVGObject
from PIL import Image

from colony.papers import face
from colony.papers.chart.drawing import Drawing
from colony.papers.chart.svg import FACE, chart_svg

FACE_FILE = files(face) / "SourceSans3-Regular.ttf"
DOTS_PER_INCH = 200


def chart_pdf(drawing: Drawing) -> bytes:
    """The drawing as a PDF of one page, its size that of the drawing.

    A letter that the face lacks is a question mark: fpdf2 would leave it out without a word.
    """
    pdf = FPDF(unit="mm", format=(drawing.width_mm, drawing.height_mm))
    pdf.set_auto_page_break(auto=False)
    pdf.set_margin(0)
    pdf.set_title(drawing.title)
    pdf.set_creator("colony")
    known = embed_face(pdf)
    pdf.add_page()
    svg = "".join(c if ord(c) in known or c == "\n" else "?" for c in chart_svg(drawing))
    SVGObject(svg).draw_to_page(pdf)
    return finished(pdf)


def finished(pdf: FPDF) -> bytes:
    """A PDF as bytes; the file of its face, which fpdf2 leaves open, is closed."""
    made = bytes(pdf.output())
    for font in pdf.fonts.values():
        if isinstance(font, TTFFont):
            font.ttfont.close()
    return made


def embed_face(pdf: FPDF) -> Container[int]:
    """Put the face into a PDF; the code points that it has letters for."""
    with as_file(FACE_FILE) as path:
        pdf.add_font(FACE, fname=path)
    return cast("TTFFont", pdf.fonts[FACE.lower()]).cmap


def chart_png(drawing: Drawing) -> bytes:
    """The drawing as a PNG of 200 dots an inch, in greys."""
    with as_file(FACE_FILE) as path:
        drawn = resvg_py.svg_to_bytes(
            svg_string=chart_svg(drawing),
            dpi=DOTS_PER_INCH,
            skip_system_fonts=True,
            font_files=[str(path)],
        )
    out = BytesIO()
    grey = Image.open(BytesIO(drawn)).convert("L")
    grey.save(out, "PNG", dpi=(DOTS_PER_INCH, DOTS_PER_INCH))
    return out.getvalue()
