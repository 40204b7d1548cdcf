"""The receipt of an order: one A4 page as a PDF, its face embedded."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from fpdf import FPDF

from colony.notation.cautions import STING
from colony.papers.chart.printing import embed_face, finished
from colony.papers.chart.svg import FACE

MARGIN_MM = 20
WORDS_MM, AMOUNT_MM, LINE_MM = 130, 40, 6


@dataclass(frozen=True)
class ReceiptLine:
    """What it is, and how much, as it is said."""

    what: str
    amount: str


@dataclass(frozen=True)
class Receipt:
    """What stands on a receipt; every amount as it is said, "" where none is known."""

    house: str
    address: str
    details: str
    number: str
    on: date
    buyer: str
    buyer_address: str
    animals: Sequence[ReceiptLine]
    payments: Sequence[ReceiptLine]
    price: str
    paid: str
    owed: str


def receipt_pdf(receipt: Receipt) -> bytes:
    """Draw a receipt; a letter that the face lacks is a question mark."""
    pdf = FPDF(unit="mm", format="A4")
    pdf.set_margin(MARGIN_MM)
    pdf.set_auto_page_break(auto=True, margin=MARGIN_MM)
    pdf.set_title(f"Receipt {receipt.number}")
    pdf.set_creator("colony")
    page = _Page(pdf)
    page.words(receipt.house, size=16)
    page.words(receipt.address)
    page.words(receipt.details)
    page.gap()
    page.words(f"Receipt for order {receipt.number}", size=14)
    page.words(f"{receipt.on}")
    page.words(receipt.buyer)
    page.words(receipt.buyer_address)
    page.gap()
    page.table("Animals", receipt.animals)
    page.sums(("Together", receipt.price))
    page.gap()
    page.table("Paid", receipt.payments)
    page.sums(("Paid in all", receipt.paid), ("Still owed", receipt.owed))
    page.gap()
    page.words(STING, size=9)
    page.words("What the law asks of who keeps or sells them, the permit office knows.", size=9)
    return finished(pdf)


class _Page:
    """A page that is written from top to bottom."""

    def __init__(self, pdf: FPDF) -> None:
        self.pdf, self.known = pdf, embed_face(pdf)
        pdf.add_page()

    def words(self, text: str, size: float = 11) -> None:
        if text:
            self.pdf.set_font(FACE, size=size)
            self.pdf.multi_cell(0, size * 0.5, self._known(text), new_x="LMARGIN", new_y="NEXT")

    def gap(self) -> None:
        self.pdf.ln(6)

    def table(self, title: str, lines: Sequence[ReceiptLine]) -> None:
        self.words(title, size=12)
        self._rule()
        for line in lines:
            self.line(line.what, line.amount)
        self._rule()

    def sums(self, *lines: tuple[str, str]) -> None:
        """Sums that are known."""
        for what, amount in lines:
            if amount:
                self.line(what, amount)

    def line(self, what: str, amount: str) -> None:
        """One line, its amount set right."""
        self.pdf.set_font(FACE, size=11)
        if self.pdf.will_page_break(LINE_MM * 2):
            self.pdf.add_page()
        top = self.pdf.get_y()
        self.pdf.multi_cell(WORDS_MM, LINE_MM, self._known(what), new_x="LMARGIN", new_y="NEXT")
        below = self.pdf.get_y()
        self.pdf.set_xy(MARGIN_MM + WORDS_MM, top)
        self.pdf.cell(AMOUNT_MM, LINE_MM, self._known(amount), align="R")
        self.pdf.set_xy(MARGIN_MM, below)

    def _rule(self) -> None:
        y = self.pdf.get_y() + 1
        self.pdf.line(MARGIN_MM, y, MARGIN_MM + WORDS_MM + AMOUNT_MM, y)
        self.pdf.ln(2)

    def _known(self, text: str) -> str:
        return "".join(c if ord(c) in self.known else "?" for c in text)
