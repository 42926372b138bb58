"""The bodice drawn by hand with a sleeve sewn into it."""

from dataclasses import replace

from wardrobe import bodice

from tracker.geometry.curve import Curve
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import settled
from tracker.pattern.edge import Edge
from tracker.pattern.marks import Level, Notch
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Match, Run, Seam

BOTH = BodySide.BOTH
EASE_MM = 20.0


def sleeved() -> Pattern:
    """A bodice with a sleeve: a cap with its notches, and an underarm seam."""
    block = bodice()
    front = block.piece("front").edge("armhole").length
    back = block.piece("back").edge("armhole").length
    # A cap of the wanted length: found by stretching it.
    low, high = 20.0, 260.0
    for _ in range(60):
        crown = (low + high) / 2
        if _cap(crown).length < front + back + EASE_MM:
            low = crown
        else:
            high = crown
    cap = _cap(crown)
    width = 340.0
    sleeve = Piece(
        "sleeve", BOTH,
        (
            Edge("hem", BOTH, "back hem", "front hem", (Curve.line(complex(60, -420),
                 complex(width - 60, -420)),)),
            Edge("front underarm", BOTH, "front hem", "front underarm point",
                 (Curve.line(complex(width - 60, -420), complex(width, 0)),)),
            Edge("cap", BOTH, "front underarm point", "back underarm point", (cap,)),
            Edge("back underarm", BOTH, "back underarm point", "back hem",
                 (Curve.line(0j, complex(60, -420)),)),
        ),
        notches=(
            Notch("front cap notch", BOTH, "cap", "front underarm point", front - 95.0),
            Notch("cap notch", BOTH, "cap", "front underarm point", front + EASE_MM / 2),
            Notch("back cap notch", BOTH, "cap", "back underarm point", back - 105.0, 2),
        ),
        levels=(Level("sleeve hem line", BOTH, (), ("hem",)),),
        grain=(complex(width / 2, -380), complex(width / 2, -100)),
        copies=2,
    )  # fmt: skip
    armhole = Seam(
        "armhole", BOTH,
        (Run("front", "armhole", BOTH, backward=True), Run("back", "armhole", BOTH, backward=True)),
        (Run("sleeve", "cap", BOTH),),
        (
            Match("front", "front armhole notch", "sleeve", "front cap notch"),
            Match("front", "shoulder notch", "sleeve", "cap notch"),
            Match("back", "back armhole notch", "sleeve", "back cap notch"),
        ),
    )  # fmt: skip
    under = Seam(
        "sleeve", BOTH, (Run("sleeve", "front underarm", BOTH, backward=True),),
        (Run("sleeve", "back underarm", BOTH),),
    )  # fmt: skip
    shoulder = Notch("shoulder notch", BOTH, "armhole", "shoulder point", 0.0)
    old = block.piece("front")
    fresh = replace(old, notches=(*old.notches, shoulder))
    return settled(
        Pattern((fresh, block.piece("back"), sleeve), (*block.seams, armhole, under), block.ease)
    )


def _cap(crown: float) -> Curve:
    width = 340.0
    top = complex(width / 2, crown)
    return Curve(
        complex(width, 0),
        (
            (complex(width - 70, 5), top + 75, top),
            (top - 75, complex(70, 5), 0j),
        ),
    )
