"""The order of looking: what a fitter settles first, and what has to wait for it."""

from enum import IntEnum

from tracker.fitting.observation import Observation, Sign
from tracker.pattern.pattern import Pattern

#: Said with every list that is sorted by it. The order of the parts is the order of the chapters
#: of Fitting Dresses (U.S. Department of Agriculture, 1946), parts 5 to 15; that grain and lines
#: come first, length before width, is common practice, no source.
ORDER_SAID = (
    "In the order of looking: how grain and lines hang, then shoulder and neck, bust and back, "
    "armhole, waist, hips, hem, and the sleeve once its armhole is settled; length before width; "
    "one cause at a time, then look again."
)


class Stage(IntEnum):
    """A part of the garment, in the order in which it is looked at."""

    HANG = 0
    SHOULDER = 1
    BUST = 2
    ARMHOLE = 3
    WAIST = 4
    HIPS = 5
    HEM = 6
    SLEEVE = 7

    @property
    def words(self) -> str:
        """The stage as it is said."""
        return _WORDS[self]


_WORDS = {
    Stage.HANG: "how grain and lines hang",
    Stage.SHOULDER: "shoulder and neck",
    Stage.BUST: "bust and back",
    Stage.ARMHOLE: "armhole",
    Stage.WAIST: "waist",
    Stage.HIPS: "hips",
    Stage.HEM: "hem",
    Stage.SLEEVE: "sleeve",
}

#: Where a note is, in words found in the name of its seam, edge, piece or corners; first wins.
_PARTS = (
    ("cuff", Stage.SLEEVE), ("sleeve", Stage.SLEEVE), ("cap", Stage.SLEEVE),
    ("elbow", Stage.SLEEVE), ("wrist", Stage.SLEEVE), ("hem", Stage.HEM),
    ("shoulder", Stage.SHOULDER), ("neck", Stage.SHOULDER), ("collar", Stage.SHOULDER),
    ("armhole", Stage.ARMHOLE), ("underarm", Stage.ARMHOLE), ("bust", Stage.BUST),
    ("crotch", Stage.HIPS), ("hip", Stage.HIPS), ("inside leg", Stage.HIPS),
    ("waist", Stage.WAIST),
)  # fmt: skip

#: Signs of how the garment hangs, wherever they are seen.
_HANGING = (Sign.OFF_LEVEL, Sign.SWINGING, Sign.TWISTING)

#: Signs that ask for length; they come before those that ask for width.
LENGTHWAYS = (Sign.TOO_LONG, Sign.TOO_SHORT, Sign.FOLDS_ACROSS, Sign.RIDING_UP, Sign.OFF_LEVEL)


def stage_of(note: Observation, pattern: Pattern | None = None) -> Stage:
    """Return when a note is looked at, by where it is and what is seen."""
    told = " ".join(filter(None, (note.seam, note.edge, note.piece))).lower()
    on_a_sleeve = any(word in told for word in ("sleeve", "cap", "cuff"))
    if note.sign in _HANGING and not on_a_sleeve and not (note.edge or "").endswith("hem"):
        return Stage.HANG
    places = [r.corner.lower() for r in note.readings if r.value_mm] if note.readings else []
    for text in (told, *places):
        for word, stage in _PARTS:
            if word in text and not (word == "underarm" and on_a_sleeve):
                return stage
    if pattern is not None and not any(e.name == "shoulder" for p in pattern.pieces
                                       for e in p.edges):  # fmt: skip
        return Stage.HIPS
    return Stage.BUST


def looked_at(note: Observation, pattern: Pattern | None = None) -> tuple[int, bool]:
    """Return what notes are sorted by: the stage, then length before width."""
    return int(stage_of(note, pattern)), note.sign not in LENGTHWAYS
