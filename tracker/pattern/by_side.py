"""What was done on right and left, told: once where both are alike, else each by its side."""

from collections.abc import Iterable

_HALVES = ("right", "left")


def told_by_side(told: Iterable[tuple[str, str]], joint: str = ": ") -> tuple[str, ...]:
    """Return sentences of each body side, begun with the side where the other's differ.

    Args:
        told: the wearer's side of each ("right", "left" or another) and the sentence.
        joint: what stands between the side and the sentence.
    """
    sides: dict[str, set[str]] = {}
    for side, sentence in told:
        sides.setdefault(sentence, set()).add(side)
    both = set().union(*sides.values()).issuperset(_HALVES)
    return tuple(
        f"{next(iter(on))}{joint}{sentence}" if both and len(on) == 1 and on < set(_HALVES)
        else sentence
        for sentence, on in sides.items()
    )  # fmt: skip


__all__ = ["told_by_side"]
