"""Income and expenses by month as an SVG picture: full bars come in, hatched ones go out."""

from collections.abc import Sequence

from colony.notation.money import minor_digits
from colony.planning.orders.months import MonthOfMoney

WIDTH, HEIGHT = 720, 360
LEFT, RIGHT, TOP, BOTTOM = 72, 16, 44, 64
BAR_SHARE = 0.36
"""Of the room of a month, what each of its two bars takes."""

STYLE = (
    "text{font:13px sans-serif;fill:#222}.title{font-weight:bold;font-size:15px}"
    ".grid{stroke:#ddd}.in{fill:#1a365d}.out{fill:url(#hatch);stroke:#7b341e}"
)
HATCH = (
    '<defs><pattern id="hatch" width="6" height="6" patternUnits="userSpaceOnUse">'
    '<path d="M0 6L6 0" stroke="#7b341e" stroke-width="1.5"/></pattern></defs>'
)
STEPS = (1, 2, 5)


def months_svg(months: Sequence[MonthOfMoney]) -> str:
    """Draw the months as one SVG document, those of the first currency; amounts in its unit."""
    currency = months[0].currency if months else ""
    drawn = [month for month in months if month.currency == currency]
    unit = 10 ** minor_digits(currency) if currency else 1
    most = max((max(m.income, m.expenses) for m in drawn), default=0) / unit
    step = _step(most)
    top = max(step, step * -(-most // step))
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" role="img">',
        "<title>Income and expenses by month</title>",
        f"<style>{STYLE}</style>",
        HATCH,
        f'<rect width="{WIDTH}" height="{HEIGHT}" fill="#fff"/>',
        f'<text class="title" x="{LEFT}" y="24">Income and expenses by month, {currency}</text>',
    ]
    mark = 0.0
    while mark <= top:
        y = _y(mark, top)
        parts += [
            f'<path class="grid" d="M{LEFT} {y:.1f}H{WIDTH - RIGHT}"/>',
            f'<text x="{LEFT - 8}" y="{y + 4:.1f}" text-anchor="end">{mark:,.0f}</text>',
        ]
        mark += step
    room = (WIDTH - LEFT - RIGHT) / max(len(drawn), 1)
    every = -(-len(drawn) * 60 // (WIDTH - LEFT - RIGHT)) or 1
    for at, month in enumerate(drawn):
        x = LEFT + room * at
        for name, minor, shift in (("in", month.income, 0.12), ("out", month.expenses, 0.52)):
            y = _y(max(minor, 0) / unit, top)
            parts.append(
                f'<rect class="{name}" x="{x + room * shift:.1f}" y="{y:.1f}" '
                f'width="{room * BAR_SHARE:.1f}" height="{HEIGHT - BOTTOM - y:.1f}"/>'
            )
        if at % every == 0:
            parts.append(
                f'<text x="{x + room / 2:.1f}" y="{HEIGHT - BOTTOM + 20}" '
                f'text-anchor="middle">{month.month}</text>'
            )
    parts += [
        f'<rect class="in" x="{LEFT}" y="{HEIGHT - 28}" width="14" height="12"/>',
        f'<text x="{LEFT + 20}" y="{HEIGHT - 17}">came in</text>',
        f'<rect class="out" x="{LEFT + 100}" y="{HEIGHT - 28}" width="14" height="12"/>',
        f'<text x="{LEFT + 120}" y="{HEIGHT - 17}">went out</text>',
        "</svg>",
    ]
    return "\n".join(parts) + "\n"


def _step(most: float) -> float:
    """A round step of which about five make up the greatest amount."""
    step, power = 1.0, 1.0
    while step * 6 < most:
        for factor in STEPS:
            step = factor * power
            if step * 6 >= most:
                return step
        power *= 10
    return step


def _y(amount: float, top: float) -> float:
    return HEIGHT - BOTTOM - (HEIGHT - TOP - BOTTOM) * amount / top
