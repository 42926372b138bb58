"""Sixty blocks of a sort on one sheet, to be looked at as a cutter would.

Run as a script: ``python tests/contact_sheet.py bodice sheet.png``; the sorts are those of
``irregular.SORTS`` ("bodice", "sleeved bodice", "skirt", "trousers", "torso", …). Two in three are
irregular women drawn from published measurements, the third is one of the postures.
"""

import sys
from pathlib import Path

sys.path[:0] = [str(Path(__file__).parent), str(Path(__file__).parents[1])]

from irregular import SORTS, block  # noqa: E402

from tracker.errors import TrackerError  # noqa: E402
from tracker.pattern.pattern import Pattern  # noqa: E402

COUNT, COLUMNS, GAP_MM = 60, 10, 60.0


def main() -> None:
    if len(sys.argv) != 3 or sys.argv[1] not in SORTS:
        sys.exit(f"say which blocks and where to: {', '.join(SORTS)}; sheet.png")
    sort, path = sys.argv[1:]
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    rows = -(-COUNT // COLUMNS)
    figure = Figure(figsize=(COLUMNS * 2.4, rows * 2.4), layout="constrained")
    FigureCanvasAgg(figure)
    grid = figure.subplots(rows, COLUMNS).flat
    for number, axes in enumerate(grid):
        axes.set_aspect("equal")
        axes.axis("off")
        axes.set_title(str(number), fontsize=7)
        try:
            pattern = block(sort, number)
        except TrackerError as refused:
            axes.text(0.0, 0.5, str(refused), fontsize=5, wrap=True)
            continue
        for xs, ys, heavy in lines(pattern):
            axes.plot(xs, ys, color="black", linewidth=0.8 if heavy else 0.3)
    figure.savefig(path, dpi=110)


def lines(pattern: Pattern) -> list[tuple[list[float], list[float], bool]]:
    """Outlines side by side, and the material lines across them, as x and y in millimetres."""
    found, right = [], 0.0
    for piece in pattern.pieces:
        rings = [p for curve in piece.ring for p in curve.flattened(0.5)]
        left, width = min(p.real for p in rings), max(p.real for p in rings)
        shift = right - left
        found.append(([p.real + shift for p in rings], [p.imag for p in rings], True))
        for level in piece.levels:
            for stroke in level.strokes:
                found.append(([p.real + shift for p in stroke], [p.imag for p in stroke], False))
        right += width - left + GAP_MM
    return found


if __name__ == "__main__":
    main()
