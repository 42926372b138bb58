"""What one alteration costs, with effect, trace, checks of the ring and digest.

Run as a script: ``python tests/benchmarks/bench_alteration.py``. Beside it, in the same run and
turn about, Shapely moves, builds again and validates every piece of the same ten-piece pattern
flattened to 0.05 mm. Only the ratios mean anything: milliseconds are of this machine today.
"""

import statistics
import sys
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

sys.path[:0] = [str(Path(__file__).parents[1]), str(Path(__file__).parents[2])]

import wardrobe  # noqa: E402

from tracker.alterations.engine import apply_step  # noqa: E402
from tracker.alterations.kinds.take_in_a_seam import AmountAt, TakeIn  # noqa: E402
from tracker.pattern.canonical import pattern_digest, settled  # noqa: E402
from tracker.pattern.pattern import Pattern  # noqa: E402

ROUNDS = 60


def ten_pieces() -> Pattern:
    """The hand-drawn bodice and four copies of it under other names: ten pieces."""
    first = wardrobe.bodice()
    pieces = list(first.pieces)
    for k in range(2, 6):
        pieces += [replace(p, name=f"{p.name} {k}") for p in first.pieces]
    return settled(Pattern(tuple(pieces), first.seams, first.ease))


def step(amount: float) -> TakeIn:
    """A side seam in at the waist, to nothing at the underarm."""
    return TakeIn(
        seam="side",
        amounts=(
            AmountAt(corner="underarm point", distance_mm=0, amount_mm=0),
            AmountAt(corner="side waist", distance_mm=0, amount_mm=amount),
        ),
    )


def once(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return (time.perf_counter() - start) * 1e3


def by_shapely(pattern: Pattern) -> Callable[[], object]:
    import shapely
    from shapely.affinity import affine_transform

    rings = [
        shapely.Polygon(
            [(p.real, p.imag) for curve in piece.plain_ring for p in curve.flattened(0.05)[:-1]]
        )
        for piece in pattern.pieces
    ]

    def work() -> list[bool]:
        moved = [affine_transform(r, [1, 0, 0, 1, 1.5, 0]) for r in rings]
        built = [shapely.Polygon(list(m.exterior.coords)) for m in moved]
        return [b.is_valid for b in built]

    return work


def main() -> None:
    pattern = ten_pieces()
    for piece in pattern.pieces:
        pattern_digest(Pattern((piece,)))

    def alteration() -> str:
        return pattern_digest(apply_step(step(8.0), pattern, "one").pattern)

    shapely_way = by_shapely(pattern)
    alteration(), shapely_way()
    pairs = [(once(alteration), once(shapely_way)) for _ in range(ROUNDS)]
    ours = statistics.median(a for a, _ in pairs)
    theirs = statistics.median(b for _, b in pairs)
    print(f"one alteration of ten pieces   {ours:7.2f} ms, {ours / theirs:5.2f} times Shapely")

    def history(steps: int) -> float:
        now = pattern
        start = time.perf_counter()
        for k in range(steps):
            now = apply_step(step(1.0 if k % 2 else -1.0), now, f"s{k}").pattern
        return (time.perf_counter() - start) * 1e3

    sixty = history(60)
    print(f"sixty in a row                 {sixty:7.1f} ms, {sixty / ours:5.1f} times one")

    times: list[float] = []
    now = pattern
    for k in range(500):
        start = time.perf_counter()
        now = apply_step(step(1.0 if k % 2 else -1.0), now, f"s{k}").pattern
        times.append((time.perf_counter() - start) * 1e3)
    early, late = statistics.median(times[:25]), statistics.median(times[-25:])
    print(f"the 500th against the first    {late:7.2f} ms, {late / early:5.2f} times the first 25")


if __name__ == "__main__":
    main()
