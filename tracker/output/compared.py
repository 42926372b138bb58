"""From what history measured to what the comparison page shows."""

from collections.abc import Mapping

from tracker.geometry.point import Point
from tracker.history.compare import Comparison as Compared
from tracker.history.compare import SeamCompared
from tracker.output.comparison import CheckRow, Furthest, GirthRow, SeamRow, SeamSides
from tracker.output.figures import MINUS
from tracker.pattern.bodyside import BodySide
from tracker.pattern.checks import Checked
from tracker.pattern.piece import Piece
from tracker.units import Unit, in_inches

#: Where along an edge a number may point: not at its very ends, which other edges share.
_SHARES = tuple(k / 50 for k in range(4, 47))


def girth_rows(
    compared: Compared,
    body_mm: Mapping[str, float] | None = None,
    planned_mm: Mapping[str, float] | None = None,
) -> tuple[GirthRow, ...]:
    """Return girths, then neckline and armholes, before and after.

    Args:
        compared: what history measured.
        body_mm: the body's girth by line.
        planned_mm: the planned ease by line.
    """
    body, planned = body_mm or {}, planned_mm or {}
    return tuple(
        GirthRow(c.what, c.before, c.after, body.get(c.what), planned.get(c.what))
        for c in (*compared.girths, *compared.rounds)
    )


def seam_rows(compared: Compared) -> tuple[SeamRow, ...]:
    """Return every seam, before and after."""
    return tuple(
        SeamRow(
            seam.name if seam.side in ("both", "centre") else f"{seam.side} {seam.name}",
            _sides(seam, seam.before, seam.planned_before_mm),
            _sides(seam, seam.after, seam.planned_after_mm),
        )
        for seam in compared.seams
    )


def _sides(
    seam: SeamCompared, lengths: tuple[float, float] | None, planned_mm: float
) -> SeamSides | None:
    if lengths is None:
        return None
    if seam.first_piece == seam.second_piece and lengths[0] == lengths[1]:
        return SeamSides(seam.first_piece, lengths[0])
    return SeamSides(seam.first_piece, lengths[0], seam.second_piece, lengths[1], planned_mm)


def furthest_rows(compared: Compared) -> tuple[Furthest, ...]:
    """Return how far apart each piece's outlines are, where they are apart at all."""
    return tuple(
        Furthest(p.label, p.furthest_mm, f"at the {p.furthest_at}" if p.furthest_at else "")
        for p in compared.pieces
        if p.furthest_mm >= 0.05
    )


def laid_on(compared: Compared) -> str:
    """Say at which edges, that did not move, the outlines are laid over each other."""
    said = [f"the {p.label} at its {p.laid_at}" for p in compared.pieces if p.laid_at]
    return f"laid over each other: {', '.join(said)}" if said else ""


def check_rows(old: Checked, new: Checked, unit: Unit = Unit.CM) -> tuple[CheckRow, ...]:
    """Return every check with what it gave before and after, what fails now first.

    Areas are told in square inches to her who counts in inches; what a tolerance is held against
    stays in millimetres and degrees.
    """
    was, now = _figures(old, unit), _figures(new, unit)
    failing = {f"{f.code}: {f.place}": f for f in new.findings}
    nothing: tuple[str, bool | None] = ("—", None)
    rows = [
        CheckRow(
            place,
            was.get(place, nothing)[0],
            now.get(place, nothing)[0],
            was.get(place, nothing)[1],
            now.get(place, nothing)[1],
            failing[place].remedy if place in failing else "",
            failing[place].sentence if place in failing else "",
        )
        for place in dict.fromkeys((*now, *was))
    ]
    return tuple(sorted(rows, key=lambda row: row.new_passes is not False))


def _figures(checked: Checked, unit: Unit) -> dict[str, tuple[str, bool | None]]:
    out: dict[str, tuple[str, bool | None]] = {}
    for f in checked.findings:
        digits = 2 if f.code == "dart legs" else 1
        shown = f"{f.figure:.{digits}f} {f.unit}".replace("-", MINUS) if f.unit else f.sentence
        out[f"{f.code}: {f.place}"] = shown, False
    for place, shown in checked.figures:
        area = unit is Unit.INCH and shown.endswith("cm²")
        out[place] = (in_inches(shown) if area else shown).replace("-", MINUS), True
    return out


def moved_most(old: Piece, new: Piece, edge: str, side: BodySide | None = None) -> Point:
    """Return where on an edge a number should point: where it moved the most.

    The middle of the edge where it did not move.
    """
    line, before = new.edge(edge, side), old.edge(edge, side)

    def moved(share: float) -> tuple[float, float]:
        gap = before.nearest(line.point_at(share * line.length))[1]
        return round(gap, 2), -abs(share - 0.5)

    best = max(_SHARES, key=moved)
    return line.point_at(best * line.length)
