"""How long one redrawing takes, against a general library doing the least it could in its place.

Run as a script: ``python tests/benchmarks/bench_redraw.py``. The measure beside it is Shapely
moving, building again and validating every piece of the same pattern flattened to 0.05 mm, in
the same run; the ratio says how much of that one alteration of one edge costs. Only the
ratios mean anything: the milliseconds are of this machine today.
"""

import statistics
import sys
import time
from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path

sys.path[:0] = [str(Path(__file__).parents[1]), str(Path(__file__).parents[2])]

import wardrobe  # noqa: E402

from tracker.geometry.profile import Profile  # noqa: E402
from tracker.pattern.canonical import settled  # noqa: E402
from tracker.pattern.edge import Displacement  # noqa: E402
from tracker.pattern.pattern import Pattern  # noqa: E402
from tracker.pattern.piece import Piece  # noqa: E402
from tracker.pattern.redraw import redraw  # noqa: E402

FLAT_MM = 0.05
ROUNDS = 200

#: Piece, edge, and amounts at shares of the edge's length.
STEPS = (
    ("front", "side", ((0.0, 0.0), (1.0, 5.0))),
    ("back", "side", ((0.0, 5.0), (1.0, 0.0))),
    ("back", "centre back", ((0.0, 0.0), (0.5, 6.0), (1.0, 0.0))),
    ("front", "shoulder", ((0.0, 0.0), (1.0, 6.0))),
    ("front", "armhole", ((0.0, 0.0), (0.5, 6.0), (1.0, 0.0))),
    ("front", "waist", ((0.0, -5.0), (1.0, 0.0))),
    ("back", "neckline", ((0.0, 0.0), (0.5, 5.0), (1.0, 0.0))),
)


def clocked(work: Callable[[], object]) -> float:
    """The median of many runs, milliseconds."""
    work()
    times = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return statistics.median(times) * 1e3


def by_shapely(pattern: Pattern) -> Callable[[], object]:
    """Move, build and validate every piece, the least any other way would have to do."""
    import shapely
    from shapely.affinity import affine_transform

    rings = [
        shapely.Polygon(
            [(p.real, p.imag) for c in piece.plain_ring for p in c.flattened(FLAT_MM)[:-1]]
        )
        for piece in pattern.pieces
    ]

    def work() -> list[bool]:
        out = []
        for ring in rings:
            moved = affine_transform(ring, [1.0, 0.0, 0.0, 1.0, 5.0, 0.0])
            rebuilt = shapely.Polygon(list(moved.exterior.coords))
            out.append(bool(rebuilt.is_valid))
        return out

    assert all(work())
    return work


def stepped(piece: Piece, edge_name: str, amounts: tuple[tuple[float, float], ...]) -> Piece:
    """The piece with a displacement put on an edge, not yet drawn again."""
    edge = piece.edge(edge_name)
    profile = Profile(tuple((share * edge.base_length, mm) for share, mm in amounts))
    return piece.with_edge(replace(edge, displacements=(Displacement("step", profile),)))


def told(label: str, took: float, beside: float) -> None:
    """Print one line."""
    print(f"{label:<44}{took:>8.3f} ms {took / beside:>8.2f}")


def main() -> None:
    """Print the times and the ratios."""
    pattern = wardrobe.bodice()
    beside = clocked(by_shapely(pattern))
    told("Shapely: move, build, validate all pieces", beside, beside)
    drawn = []
    for name, edge_name, amounts in STEPS:
        piece = stepped(pattern.piece(name), edge_name, amounts)
        drawn.append(clocked(partial(redraw, piece, {piece.edge(edge_name).key})))
        told(f"redraw the {name} after its {edge_name} moved", drawn[-1], beside)
    told("the median of these", statistics.median(drawn), beside)
    fresh = clocked(
        lambda: settled(replace(pattern, pieces=tuple(replace(p) for p in pattern.pieces)))
    )
    told("round both pieces as the store keeps them", fresh, beside)


if __name__ == "__main__":
    main()
