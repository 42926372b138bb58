"""Random steps on the bodice drawn by hand: which edge, and amounts along it."""

from hypothesis import strategies as st

EDGES = [
    ("front", "side"), ("front", "shoulder"), ("front", "armhole"), ("front", "neckline"),
    ("front", "waist"), ("back", "centre back"), ("back", "side"), ("back", "shoulder"),
    ("back", "armhole"), ("back", "neckline"), ("back", "waist"),
]  # fmt: skip

edges = st.sampled_from(EDGES)

SHARES = (0.0, 0.2, 0.45, 0.7, 1.0)


@st.composite
def amounts(draw: st.DrawFn, most_mm: float = 8.0) -> list[tuple[float, float]]:
    """Amounts at two to five places, some of them nothing."""
    places = sorted(draw(st.sets(st.sampled_from(SHARES), min_size=2, max_size=5)))
    amount = st.one_of(st.just(0.0), st.floats(-most_mm, most_mm).map(lambda v: round(v, 2)))
    return [(s, draw(amount)) for s in places]
