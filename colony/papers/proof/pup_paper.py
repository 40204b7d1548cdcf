"""The pup's paper: one A4 page with what is on record, its width curve, and a signed code."""

from collections.abc import Sequence
from datetime import date
from io import BytesIO
from itertools import pairwise

import segno
from fpdf import FPDF

from colony.notation.cautions import LOCAL_CODES, STING
from colony.notation.house import length_number, units_now
from colony.papers.chart.printing import embed_face, finished
from colony.papers.chart.svg import FACE
from colony.papers.proof.facts import PupPaper, facts_of, sentences

MARGIN_MM, PAGE_MM = 18, 210
CODE_MM = 62
"""Wide enough for a hand-held camera; the modules of a usual code are 0.7 mm."""

CURVE_MM = (PAGE_MM - 2 * MARGIN_MM, 70)
LABEL_MM, LINE_MM = 30, 6.4
ERROR_LEVEL = "M"


def pup_paper(paper: PupPaper, code: str) -> bytes:
    """Draw the paper as a PDF of one page; the code is the signed text itself."""
    pdf = FPDF(unit="mm", format="A4")
    pdf.set_margin(MARGIN_MM)
    pdf.set_auto_page_break(auto=False)
    pdf.set_title(f"Paper of {paper.tag}")
    pdf.set_creator("colony")
    page = _Paper(pdf)
    page.head(paper)
    page.facts(sentences(facts_of(paper)))
    page.code(code)
    page.curve(paper.widths)
    page.foot()
    return finished(pdf)


def code_of(text: str) -> segno.QRCode:
    """The QR code of a signed text (ISO/IEC 18004), in its alphanumeric mode, level M."""
    return segno.make_qr(text, error=ERROR_LEVEL, boost_error=False)


class _Paper:
    """The page, from top to bottom."""

    def __init__(self, pdf: FPDF) -> None:
        self.pdf, self.known = pdf, embed_face(pdf)
        pdf.add_page()

    def head(self, paper: PupPaper) -> None:
        self._write(MARGIN_MM, MARGIN_MM, paper.tag, 26)
        self._write(MARGIN_MM, MARGIN_MM + 14, paper.house or "freshwater stingray", 11)
        self.pdf.line(MARGIN_MM, MARGIN_MM + 21, PAGE_MM - MARGIN_MM, MARGIN_MM + 21)

    def facts(self, lines: Sequence[str]) -> None:
        """A line a fact, beside the code."""
        room = PAGE_MM - 2 * MARGIN_MM - CODE_MM - 6
        self.pdf.set_y(MARGIN_MM + 25)
        for line in lines:
            what, _, words = line.partition(": ")
            top = self.pdf.get_y()
            self.pdf.set_font(FACE, size=10)
            self.pdf.set_xy(MARGIN_MM, top)
            self.pdf.cell(LABEL_MM, LINE_MM, self._text(what))
            self.pdf.multi_cell(
                room - LABEL_MM, LINE_MM, self._text(words), new_x="LMARGIN", new_y="NEXT"
            )

    def code(self, text: str) -> None:
        """The code at the right, and how it is looked at."""
        out = BytesIO()
        code_of(text).save(out, kind="png", scale=8, border=4)
        left = PAGE_MM - MARGIN_MM - CODE_MM
        self.pdf.image(BytesIO(out.getvalue()), x=left, y=MARGIN_MM + 24, w=CODE_MM)
        below = MARGIN_MM + 24 + CODE_MM + 1
        words = (
            "This code says the same, signed by the breeder: colony paper verify, with their key."
        )
        self.pdf.set_xy(left, below)
        self.pdf.set_font(FACE, size=8)
        self.pdf.multi_cell(CODE_MM, 3.6, self._text(words))

    def curve(self, widths: Sequence[tuple[date, int]]) -> None:
        """The measured widths in time; nothing where there are not two."""
        if len(widths) < 2:  # noqa: PLR2004 - one point is no curve
            return
        wide, high = CURVE_MM
        top = 150.0
        first, days = widths[0][0], max((widths[-1][0] - widths[0][0]).days, 1)
        least, most = min(w for _, w in widths), max(w for _, w in widths)
        self._write(MARGIN_MM, top - 9, f"Disc width, {units_now().length}", 10)
        self.pdf.set_draw_color(170)
        self.pdf.rect(MARGIN_MM, top, wide, high)
        self.pdf.set_draw_color(0)
        span = max(most - least, 1)
        points = [
            (
                MARGIN_MM + wide * (day - first).days / days,
                top + high - 4 - (high - 8) * (width - least) / span,
            )
            for day, width in widths
        ]
        for one, other in pairwise(points):
            self.pdf.line(*one, *other)
        for x, y in points:
            self.pdf.ellipse(x - 0.8, y - 0.8, 1.6, 1.6, style="F")
        self._write(MARGIN_MM + 2, top + 1, length_number(most), 8)
        self._write(MARGIN_MM + 2, top + high - 5, length_number(least), 8)
        self._write(MARGIN_MM, top + high + 1, f"{first}", 8)
        self._write(PAGE_MM - MARGIN_MM - 20, top + high + 1, f"{widths[-1][0]}", 8)

    def foot(self) -> None:
        """The usual cautions."""
        self.pdf.set_xy(MARGIN_MM, 262)
        self.pdf.set_font(FACE, size=8.5)
        words = f"{STING} {LOCAL_CODES}"
        self.pdf.multi_cell(PAGE_MM - 2 * MARGIN_MM, 4.2, self._text(words))

    def _write(self, x: float, y: float, text: str, size: float) -> None:
        self.pdf.set_font(FACE, size=size)
        self.pdf.set_xy(x, y)
        self.pdf.cell(0, size * 0.45, self._text(text))

    def _text(self, text: str) -> str:
        return "".join(c if ord(c) in self.known else "?" for c in text)
