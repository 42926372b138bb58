"""What a cutter would question in a draft: free figures far from what is liked, and their shape.

How far is far is common practice, no source: chosen so that most published bodies raise nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np

from tracker.drafting.bodice_measured import Row
from tracker.drafting.bodice_preference import Preference

MIND = "mind"
"""The name of the line of a table that says what to mind."""


@dataclass(frozen=True, slots=True)
class Question:
    """When a free figure is questioned.

    Attributes:
        name: the preference's name.
        over: it is, when it is so much more than liked; less than liked where it is negative.
        shape: what is seen then.
        why: what it comes from, and what to look at.
    """

    name: str
    over: float
    shape: str
    why: str

    def is_asked(self, miss: float) -> bool:
        """Tell whether a miss is that far, and that way."""
        return miss > self.over if self.over > 0 else miss < self.over


_NECK = "neck base girth, shoulder and centre front length decide it: measure them again"
_ARMHOLE = "across {0}, shoulder length and armhole depth hardly go together: measure them again"

BODICE_QUESTIONS = (
    Question("front neck depth", 10.0,
             "the front neckline is deep for its width, nearly a V with a small round foot", _NECK),
    Question("front neck depth", -14.0, "the front neckline is shallow for its width", _NECK),
    Question("back neck rise", 11.0, "the back neck comes up steeply to the shoulder",
             "neck base girth and the back lengths decide it: measure them again"),
    Question("back neck rise", -11.0, "the back neck is nearly straight across",
             "neck base girth and the back lengths decide it: measure them again"),
    *(
        Question(f"{where} armhole still narrowing at the across line", -16.0,
                 f"the {where} armhole widens below the shoulder instead of hollowing in at the "
                 f"across {where}", _ARMHOLE.format(where))
        for where in ("front", "back")
    ),
    Question("bust dart", 8.0, "the bust dart is large for the bust",
             "the length over the bust decides it: measure it again"),
    Question("bust dart", -8.0, "the bust dart is small for the bust",
             "the length over the bust decides it: measure it again"),
)  # fmt: skip
_THIGH = "the thigh, measured, is {0} for the hip: measure it again, or plan its ease otherwise"
TROUSER_QUESTIONS = (
    *(
        question
        for where in ("front", "back")
        for question in (
            Question(f"{where} crotch extension", -18.0,
                     f"the {where} crotch is short from the centre to the inside leg",
                     _THIGH.format("slim")),
            Question(f"{where} crotch extension", 32.0,
                     f"the {where} crotch is long from the centre to the inside leg",
                     _THIGH.format("full")),
        )
    ),
    *(
        Question(f"crotch length, {where}", over, f"the estimated crotch length {where} is missed",
                 "it does not go with what was measured: measure it")
        for where in ("front", "back") for over in (10.0, -10.0)
    ),
)  # fmt: skip


def mind_rows(preferences: Iterable[Preference], questions: Iterable[Question]) -> Iterator[Row]:
    """Say in one sentence each what a cutter would question."""
    by_name = {p.name: p for p in preferences}
    for question in questions:
        p = by_name.get(question.name)
        if p is None:
            continue
        got, liked = (round(float(np.ravel(v)[0]), 1) for v in (p.got, p.target))
        if question.is_asked(got - liked):
            gap = "" if p.unit == "°" else " "
            yield Row(
                kind="note", name=MIND,
                note=f"{question.shape} ({got:g}{gap}{p.unit}, where {liked:g}{gap}{p.unit} is "
                f"liked); {question.why}",
            )  # fmt: skip
