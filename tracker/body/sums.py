"""Sums of measurements that no body can exceed: the table behind finding contradictions.

Each row adds measurements up, with a factor each, and says between what limits the sum lies on
a real body. The limits are wide (what the tape, breathing and posture can do is inside them);
they are common practice, no source, unless a comment says otherwise.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Sum:
    """One row: Σ factor × measurement lies between low and high, in mm.

    Args:
        code: short name of the check.
        terms: (measurement key, factor). All must be known for the row to be looked at.
        low: least the sum can be; None where there is no least.
        high: most it can be; None where there is no most.
        says: what is wrong, with ``{key}`` where a measurement's name and figure go.
        again: what to measure again, in words.
    """

    code: str
    terms: tuple[tuple[str, float], ...]
    low: float | None
    high: float | None
    says: str
    again: str

    @property
    def keys(self) -> tuple[str, ...]:
        """The measurements it weighs against each other."""
        return tuple(key for key, _ in self.terms)


def _arcs(line: str) -> Sum:
    front, back, girth = f"{line}-arc-front", f"{line}-arc-back", f"{line}-girth"
    return Sum(
        f"{line}-arcs",
        ((front, 1), (back, 1), (girth, -1)),
        -22,  # each tape is good to 10 or 14 mm
        22,
        f"{{{front}}} and {{{back}}} do not add up to {{{girth}}}",
        "both arcs from the same side lines, then the girth",
    )


TRUNK_SUMS: tuple[Sum, ...] = (
    _arcs("bust"),
    _arcs("waist"),
    _arcs("hip"),
    Sum(
        "waist-over-bust",
        (("waist-girth", 1), ("bust-girth", -1)),
        None,
        130,  # ANSUR II women: chest less waist 86 ± 54 mm, so 13 cm the other way is 4 spreads
        "{waist-girth} is far more than {bust-girth}",
        "both girths, and see that they were not written down in each other's place",
    ),
    Sum(
        "waist-against-hip",
        (("hip-girth", 1), ("waist-girth", -1)),
        -150,
        540,  # ANSUR II women: hip less waist at the navel 160 ± 60; a tied tape sits narrower
        "{waist-girth} does not go with {hip-girth}",
        "both girths, and see that they were not written down in each other's place",
    ),
    Sum(
        "hip-against-bust",
        (("hip-girth", 1), ("bust-girth", -1)),
        -260,
        420,  # ANSUR II women: hip less chest 74 ± 57
        "{hip-girth} does not go with {bust-girth}",
        "both girths right round the body",
    ),
    Sum(
        "high-bust-over-bust",
        (("bust-girth", 1), ("high-bust-girth", -1)),
        -30,  # ASTM D5585-11e1, size 00: the upper chest is 5/8 in more than the bust
        None,
        "{high-bust-girth} does not go with {bust-girth}",
        "both girths, one after the other, tape close but not tight",
    ),
    Sum(
        "high-bust-far-under-bust",
        (("bust-girth", 0.82), ("high-bust-girth", -1)),
        None,
        0,
        "{high-bust-girth} is too little for {bust-girth}",
        "both girths, the high one close under the arms and over the shoulder blades",
    ),
    Sum(
        "underbust-over-bust",
        (("bust-girth", 1), ("underbust-girth", -1)),
        -5,
        450,
        "{underbust-girth} does not go with {bust-girth}",
        "both girths, breathing quietly",
    ),
    Sum(
        "neck-over-its-base",
        (("neck-base-girth", 1), ("neck-girth", -1)),
        -8,
        150,
        "{neck-girth} does not go with {neck-base-girth}",
        "both, the base with a fine chain",
    ),
    Sum(
        "front-length-against-bust-depth",
        (("neck-point-over-bust-to-waist", 1), ("neck-point-to-bust-point", -1)),
        70,
        300,
        "{neck-point-over-bust-to-waist} and {neck-point-to-bust-point} leave no likely way "
        "from the bust point to the waist",
        "both from the same neck point over the same bust point",
    ),
    Sum(
        "front-length-in-two-parts",
        (
            ("neck-point-over-bust-to-waist", 1),
            ("neck-point-to-bust-point", -1),
            ("bust-point-to-waist", -1),
        ),
        -15,
        15,
        "{neck-point-to-bust-point} and {bust-point-to-waist} do not add up to "
        "{neck-point-over-bust-to-waist}",
        "all three without lifting the tape",
    ),
    Sum(
        "front-length-against-centre-front",
        # The neck is about as deep as a fifth of its base: 70 to 75 mm on most.
        (
            ("neck-point-over-bust-to-waist", 1),
            ("centre-front-length", -1),
            ("neck-base-girth", -0.2),
        ),
        -45,
        60,
        "{neck-point-over-bust-to-waist} and {centre-front-length} do not leave the depth of a "
        "neck of {neck-base-girth}",
        "the neck points at the front edge of the shoulder muscle, then both lengths",
    ),
    Sum(
        "front-length-below-centre-front",
        (("neck-point-over-bust-to-waist", 1), ("centre-front-length", -1)),
        20,
        170,
        "{neck-point-over-bust-to-waist} does not go with {centre-front-length}",
        "both lengths to the same waist tape",
    ),
    Sum(
        "back-lengths",
        (("neck-point-to-waist-back", 1), ("back-neck-to-waist", -1)),
        -8,
        60,
        "{neck-point-to-waist-back} does not go with {back-neck-to-waist}",
        "both to the same waist tape, from the bone at the back of the neck",
    ),
    Sum(
        "front-against-back-length",
        (("neck-point-over-bust-to-waist", 1), ("neck-point-to-waist-back", -1)),
        -45,
        150,
        "{neck-point-over-bust-to-waist} does not go with {neck-point-to-waist-back}",
        "both from the same neck point to the same waist tape, standing as usual",
    ),
    Sum(
        "front-against-centre-back-length",
        (("neck-point-over-bust-to-waist", 1), ("back-neck-to-waist", -1)),
        -30,
        190,
        "{neck-point-over-bust-to-waist} does not go with {back-neck-to-waist}",
        "both to the same waist tape, standing as usual",
    ),
    Sum(
        "side-against-back-length",
        (("side-length", 1), ("armhole-depth", 1), ("back-neck-to-waist", -1)),
        -30,  # a waist tape need not lie level
        30,
        "{armhole-depth} and {side-length} do not add up to {back-neck-to-waist}",
        "all three from the same ruler held under the arms",
    ),
    Sum(
        "no-side-left",
        (("back-neck-to-waist", 1), ("armhole-depth", -1)),
        100,
        330,
        "{armhole-depth} does not go with {back-neck-to-waist}",
        "both, with the ruler close under the arms",
    ),
    Sum(
        "bust-point-above-underarm",
        (
            ("neck-point-over-bust-to-waist", 1),
            ("neck-point-to-bust-point", -1),
            ("back-neck-to-waist", -1),
            ("armhole-depth", 1),
        ),
        None,
        25,
        "{neck-point-to-bust-point} puts the bust point above the underarm, which "
        "{armhole-depth} puts lower",
        "both, in the bra worn under the garment",
    ),
    Sum(
        "back-wider-than-the-bust-allows",
        (("across-back", 1), ("bust-girth", -0.5)),
        None,
        -15,
        "{across-back} is too wide for {bust-girth}",
        "across the back from arm fold to arm fold, not over the arms; then the bust",
    ),
    Sum(
        "back-narrower-than-the-bust-allows",
        (("across-back", 1), ("bust-girth", -0.25)),
        0,
        None,
        "{across-back} is too narrow for {bust-girth}",
        "across the back from arm fold to arm fold; then the bust",
    ),
    Sum(
        "front-wider-than-the-bust-allows",
        (("across-front", 1), ("bust-girth", -0.5)),
        None,
        -15,
        "{across-front} is too wide for {bust-girth}",
        "across the front from arm fold to arm fold; then the bust",
    ),
    Sum(
        "front-narrower-than-the-bust-allows",
        (("across-front", 1), ("bust-girth", -0.22)),
        0,
        None,
        "{across-front} is too narrow for {bust-girth}",
        "across the front from arm fold to arm fold; then the bust",
    ),
    Sum(
        "no-room-for-the-arms",
        (("bust-girth", 0.88), ("across-back", -1), ("across-front", -1)),
        0,
        None,
        "{across-back} and {across-front} leave no room for the arms within {bust-girth}",
        "all three, arms hanging",
    ),
    Sum(
        "back-wider-than-the-shoulders",
        (("across-back", 1), ("shoulder-width", -1)),
        -110,
        20,
        "{across-back} does not go with {shoulder-width}",
        "the shoulder points by lifting the arm, then both",
    ),
    Sum(
        "front-against-back-width",
        (("across-front", 1), ("across-back", -1)),
        -110,
        70,
        "{across-front} does not go with {across-back}",
        "both at the same height, arms hanging",
    ),
    Sum(
        "bust-points-too-wide",
        (("bust-point-to-bust-point", 1), ("bust-girth", -0.3)),
        None,
        0,
        "{bust-point-to-bust-point} is too much for {bust-girth}",
        "straight from bust point to bust point; then the bust",
    ),
    Sum(
        "bust-points-too-close",
        (("bust-point-to-bust-point", 1), ("bust-girth", -0.135)),
        0,
        None,
        "{bust-point-to-bust-point} is too little for {bust-girth}",
        "straight from bust point to bust point, in the bra worn under the garment",
    ),
    Sum(
        "bust-points-against-bust-depth",
        (("bust-point-to-bust-point", 0.5), ("neck-point-to-bust-point", -0.8)),
        None,
        0,
        "{bust-point-to-bust-point} does not go with {neck-point-to-bust-point}",
        "both, in the bra worn under the garment",
    ),
    Sum(
        "shoulders-against-their-width",
        (("shoulder-width", 1), ("shoulder-length", -2)),
        60,
        210,
        "{shoulder-length}, taken twice, does not go with {shoulder-width}",
        "the shoulder points by lifting the arm, then both",
    ),
    Sum(
        "neck-against-bust",
        (("neck-base-girth", 1), ("bust-girth", -0.2)),
        100,
        265,
        "{neck-base-girth} does not go with {bust-girth}",
        "the neck base with a fine chain, then the bust",
    ),
    Sum(
        "shoulder-girth-against-bust",
        (("shoulder-girth", 1), ("bust-girth", -0.75)),
        150,
        480,
        "{shoulder-girth} does not go with {bust-girth}",
        "the shoulder girth over both arms, then the bust under them",
    ),
    Sum(
        "bust-depth-from-the-back-neck",
        (("back-neck-to-bust-point", 1), ("neck-point-to-bust-point", -1)),
        40,
        135,
        "{back-neck-to-bust-point} does not go with {neck-point-to-bust-point}",
        "both to the same bust point",
    ),
    Sum(
        "two-waists",
        (("standard-waist-girth", 1), ("waist-girth", -1)),
        -90,
        180,
        "{standard-waist-girth} does not go with {waist-girth}",
        "the tied waist first, then midway between rib and hip bone",
    ),
)
