"""Values as plain text: tables and sentences that fit a terminal 80 columns wide."""

import textwrap
from collections.abc import Sequence

WIDTH = 80
_GAP = "  "
#: A column is not made narrower than this to make room for others.
_NARROWEST = 8


def table(
    head: Sequence[str],
    rows: Sequence[Sequence[str]],
    *,
    right: Sequence[int] = (),
    width: int = WIDTH,
) -> str:
    """Return a table; cells too long for their column go on below.

    Args:
        head: the columns' names.
        rows: the cells, as many in each row as there are columns.
        right: numbers of columns whose cells stand at the right, as figures do.
        width: the most columns of the terminal it may take.
    """
    widths = _widths(head, rows, width)
    numbers = {k % len(head) for k in right}
    lines = [
        *_row(head, widths, numbers),
        _GAP.join("-" * w for w in widths),
        *(line for row in rows for line in _row(row, widths, numbers)),
    ]
    return "\n".join(lines)


def _widths(head: Sequence[str], rows: Sequence[Sequence[str]], width: int) -> list[int]:
    """Give each column what it needs; where that is too much, the widest give way first."""
    widths = [max(1, *map(len, column)) for column in zip(head, *rows, strict=True)]
    room = width - len(_GAP) * (len(widths) - 1)
    # A word that cannot be broken should not be, as long as anything else can give way.
    words = [
        max(len(word) for cell in column for word in (cell.split() or [""]))
        for column in zip(head, *rows, strict=True)
    ]
    for least in (words, [min(w, _NARROWEST) for w in words], [1] * len(words)):
        while sum(widths) > room:
            give = [k for k, w in enumerate(widths) if w > least[k]]
            if not give:
                break
            widths[max(give, key=lambda k: (widths[k], k))] -= 1
    return widths


def _row(cells: Sequence[str], widths: Sequence[int], numbers: set[int]) -> list[str]:
    wrapped = [
        textwrap.wrap(cell, width, break_on_hyphens=False) or [""]
        for cell, width in zip(cells, widths, strict=True)
    ]
    lines = []
    for k in range(max(len(cell) for cell in wrapped)):
        parts = [cell[k] if k < len(cell) else "" for cell in wrapped]
        lines.append(
            _GAP.join(
                part.rjust(width) if i in numbers else part.ljust(width)
                for i, (part, width) in enumerate(zip(parts, widths, strict=True))
            ).rstrip()
        )
    return lines


def facts(pairs: Sequence[tuple[str, str]], *, width: int = WIDTH) -> str:
    """Return headings with their words beside them, the words in one column."""
    if not pairs:
        return ""
    lead = min(max(len(name) for name, _ in pairs), width // 3)
    lines = []
    for name, words in pairs:
        body = textwrap.wrap(words, width - lead - len(_GAP), break_on_hyphens=False) or [""]
        heads = textwrap.wrap(name, lead) or [""]
        for k in range(max(len(body), len(heads))):
            left = heads[k] if k < len(heads) else ""
            lines.append(f"{left.ljust(lead)}{_GAP}{body[k] if k < len(body) else ''}".rstrip())
    return "\n".join(lines)


def paragraph(words: str, *, indent: int = 0, width: int = WIDTH) -> str:
    """Return a sentence or more, broken to fit."""
    space = " " * indent
    return textwrap.fill(
        words, width, initial_indent=space, subsequent_indent=space, break_on_hyphens=False
    )


def listed(items: Sequence[str], *, numbered: bool = False, width: int = WIDTH) -> str:
    """Return items one below the other, numbered or with a dash."""
    lines = []
    for number, words in enumerate(items, start=1):
        lead = f"{number:>2}. " if numbered else "- "
        lines.append(
            textwrap.fill(
                words, width, initial_indent=lead, subsequent_indent=" " * len(lead),
                break_on_hyphens=False,
            )
        )  # fmt: skip
    return "\n".join(lines)
