"""The receipt of an order, as a reader of PDFs finds it."""

from datetime import date

from colony.papers.sale.receipt import Receipt, ReceiptLine, receipt_pdf

RECEIPT = Receipt(
    house="Reed House",
    address="1 Mill Lane",
    details="Licence 7",
    number="12",
    on=date(2026, 3, 9),
    buyer="Anna Pond",
    buyer_address="2 Lake Road\nLower Pond",
    animals=[ReceiptLine(f"26-01-{n}, motoro F", "EUR 250.00") for n in range(1, 4)],
    payments=[ReceiptLine("deposit on 2026-03-01", "EUR 100.00")],
    price="EUR 750.00",
    paid="EUR 100.00",
    owed="EUR 650.00",
)


def test_a_receipt_is_one_page_of_a4_and_the_same_each_time() -> None:
    """A PDF with a face of its own; a letter that the face lacks does not stop it."""
    made = receipt_pdf(RECEIPT)
    assert made.startswith(b"%PDF-")
    assert made.count(b"/Type /Page\n") == 1
    assert b"595.28 841.89" in made
    assert b"SourceSans3" in made
    odd = Receipt(**{**vars(RECEIPT), "buyer": "\N{CJK UNIFIED IDEOGRAPH-9B5A}"})
    assert receipt_pdf(odd).startswith(b"%PDF-")


def test_a_long_receipt_goes_on_to_a_second_page() -> None:
    """Sixty animals do not fit on one."""
    many = [ReceiptLine(f"P{n}", "EUR 1.00") for n in range(60)]
    made = receipt_pdf(Receipt(**{**vars(RECEIPT), "animals": many}))
    assert made.count(b"/Type /Page\n") == 2
