"""What a style step made of a pattern, told as every step tells it."""

from tracker.alterations.effect import effect_between
from tracker.alterations.kind import Applied
from tracker.drafting.style_report import Styled
from tracker.pattern.pattern import Pattern
from tracker.pattern.trace import Trace


def styled_step(before: Pattern, styled: Styled, piece: str, trace: Trace) -> Applied:
    """Return what a style step made of a pattern, with its figures as notes."""
    seams = tuple(dict.fromkeys(r.seam for r in styled.reports))
    effect = effect_between(
        before,
        styled.pattern,
        notches=tuple(
            f"{len(s.matches)} {'pair' if len(s.matches) == 1 else 'pairs'} of notches set in "
            f"the {s.name} seam"
            for s in styled.pattern.seams
            if s.name in seams
        ),
        leaves=tuple(
            f"the {p.label} is taken from the {piece} and is out of date"
            for p in before.pieces
            if p.taken_from == piece and p.traced is None
        ),
        notes=styled.sentences,
    )
    return Applied(styled.pattern, effect, trace)
