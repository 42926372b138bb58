"""What an effect's sentences offer, read back as the alterations they name, amounts and all."""

import re
from collections.abc import Iterable

from tracker.alterations.kind import Kind, kind_named
from tracker.pattern.pattern import Pattern

NUMBER = r"([\d.]+) mm"
#: In the order a maker would go by: seams, then joins, then sleeves, then what is taken from them.
SEAM, JOIN, CAP, LENGTH, TAKEN = range(5)


def made(word: str, **given: object) -> Kind:
    return kind_named(word).from_parameters(given)


def at(corner: str, distance: float, amount: float) -> dict[str, object]:
    return {"corner": corner, "distance_mm": distance, "amount_mm": amount}


def offered(pattern: Pattern, sentences: Iterable[str]) -> list[tuple[int, Kind]]:
    """The repairs that sentences offer; one that offers none is left out."""
    found = (_read(pattern, told) for told in sentences)
    return [one for one in found if one is not None]


def _read(pattern: Pattern, told: str) -> tuple[int, Kind] | None:
    begins = told.split(" ", 1)[0]
    side = begins if begins in ("right", "left") else "both"
    through = re.search(
        rf"(take in|let out) the (.+?) seam {NUMBER} at the (.+?)"
        rf"(?:, all of it (?:from|to) the (.+?))?, to nothing {NUMBER} from there",
        told,
    )
    if through:
        way, seam, by, corner, alone, out = through.groups()
        amount = float(by) if way == "take in" else -float(by)
        first = pattern.seam(seam).first[0].piece
        share = 0.5 if alone is None else float(_named(alone)[0] == first)
        amounts = [at(corner, 0.0, amount), at(corner, float(out), 0.0)]
        return SEAM, made("take in a seam", seam=seam, amounts=amounts, share=share, side=side)
    corner_moved = re.search(
        rf"make the (.+) of the (.+) {NUMBER} (longer|shorter): move its (.+) as much", told
    )
    if corner_moved:
        edge, piece, by, way, corner = corner_moved.groups()
        along = float(by) if way == "longer" else -float(by)
        name, own = _named(piece)
        given = {"piece": name, "corner": corner, "edge": edge, "along_mm": along}
        return SEAM, made("move a corner", side=own if own != "both" else side, **given)
    half = re.search(
        rf"^the (.+) is {NUMBER} (?:longer|shorter) at the (.+) than the other half: "
        rf"move its (.+) {NUMBER} (up|down) along",
        told,
    )
    if half:
        piece, by, edge, corner, _, way = half.groups()
        name, own = _named(piece)
        given = {"piece": name, "corner": corner, "edge": edge, "side": own}
        return SEAM, made(
            "move a corner", along_mm=-float(by) if way == "up" else float(by), **given
        )
    shifted = re.search(
        rf"shift the (.+) seam {NUMBER} towards the (.+) at the (.+), to nothing {NUMBER} below",
        told,
    )
    if shifted:
        seam, by, towards, corner, out = shifted.groups()
        amounts = [at(corner, 0.0, float(by)), at(corner, float(out), 0.0)]
        return SEAM, made("shift a seam", seam=seam, towards=towards, amounts=amounts)
    join = re.search(r"^(?:right |left )?(.+) seam at the (.+): the corners add up.*true the", told)
    if join:
        return JOIN, made("true a join", seam=join[1], corner=join[2], side=side)
    if "fit the cap to the armhole" in told:
        by = "cap height" if "moves its notches only" in told else "where it changed"
        return CAP, made("fit the cap to the armhole", by=by)
    length = re.search(
        rf"to keep its length, (lengthen|shorten) it by {NUMBER}, {NUMBER} above the (.+)$", told
    )
    if length:
        by = float(length[2]) if length[1] == "lengthen" else -float(length[2])
        given = {"line": length[4], "above_mm": float(length[3]), "by_mm": by}
        return LENGTH, made("lengthen or shorten", **given)
    taken = re.search(r'style again --piece "(.+?)"', told)
    return (TAKEN, made("trace it again", piece=taken[1])) if taken else None


def _named(label: str) -> tuple[str, str]:
    """A piece's name and body side from how a sentence calls it."""
    begins, _, rest = label.partition(" ")
    return (rest, begins) if begins in ("right", "left") else (label, "both")
