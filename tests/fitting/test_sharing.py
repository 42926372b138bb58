"""A tape difference of the whole line, shared out over the seams named."""

import pytest
from fitted import fitted

from tracker.errors import TrackerError
from tracker.fitting.observation import Observation, Sign
from tracker.fitting.propose import answers
from tracker.fitting.reading import Reading, ReadingKind
from tracker.pattern.bodyside import BodySide
from tracker.pattern.measure import girth


def loose(*readings: Reading, **more: object) -> Observation:
    values: dict[str, object] = {
        "observation_id": "n1", "fitting_id": "f1", "number": 1, "sign": Sign.TOO_LOOSE,
        "seam": "side", "readings": readings,
    }  # fmt: skip
    return Observation(**(values | more))


def tape(value: float, corner: str, distance: float = 0.0) -> Reading:
    return Reading(
        kind=ReadingKind.TAPE_DIFFERENCE, value_mm=value, corner=corner, distance_mm=distance
    )


WAIST = (tape(24, "side waist"), tape(0, "underarm point"))


@pytest.mark.parametrize(
    ("also", "side", "each", "edges"),
    [
        # 4 edges of the side seams alone: a quarter of 24 each (CWU costume text, chapter 17)
        # with the back princess seams 8 edges: 3 mm each; with the front ones 12: 2 mm each
        (("back princess",), "both", 6.0, 8),
        (("back princess", "front princess"), "both", 4.0, 12),
        # a centre seam has two edges: 6 in all
        (("centre back",), "both", 8.0, 6),
        # on the right only two edges each: the whole 24 on that side
        (("back princess",), "right", 12.0, 4),
    ],
)
def test_every_edge_gives_the_same_share(
    also: tuple[str, ...], side: str, each: float, edges: int
) -> None:
    block = fitted("panelled")
    told = answers(block, loose(*WAIST, side=BodySide(side)), shared_with=also)
    assert [p.kind.parameters()["seam"] for p in told] == ["side", *also]
    for one in told:
        assert max(a["amount_mm"] for a in one.kind.parameters()["amounts"]) == each
    assert f"shared by {edges} edges" in told[0].echo
    smaller = girth(block, "waist line") - girth(told[-1].pattern, "waist line")
    assert smaller == pytest.approx(24.0, abs=0.6)


def test_places_are_taken_over_at_the_same_height() -> None:
    block = fitted("panelled")
    middle = loose(tape(12, "side waist", 60), tape(0, "underarm point"), tape(0, "side waist"))
    told = answers(block, middle, shared_with=("front princess",))
    places = told[1].kind.parameters()["amounts"]
    front = block.piece("centre front").edge("front princess")
    side = block.piece("side front").edge("side")
    assert places[0]["corner"] == "front princess shoulder"
    there = front.point_at(places[0]["distance_mm"]).imag
    # As far above the waist on the panel seam as it was read on the side seam.
    waist = block.piece("centre front").corner("front princess waist").imag
    read = (
        side.point_at(side.length - 60).imag - block.piece("side front").corner("side waist").imag
    )
    assert there - waist == pytest.approx(read, abs=1.0)
    assert (places[2]["corner"], places[2]["distance_mm"]) == ("front princess waist", 0)


@pytest.mark.parametrize(
    ("note", "also", "words"),
    [
        (loose(Reading(kind=ReadingKind.PINNED_FOLD, value_mm=5, corner="side waist")),
         ("back princess",), "belongs there; only a tape difference is shared"),
        (loose(*WAIST), ("side",), "named once"),
        (loose(*WAIST), ("back prinzess",), "Did you mean back princess"),
        (loose(seam=None, piece="side back"), ("side",), "read at a seam"),
    ],
)  # fmt: skip
def test_what_is_not_shared_is_told(note: Observation, also: tuple[str, ...], words: str) -> None:
    with pytest.raises(TrackerError, match=words):
        answers(fitted("panelled"), note, shared_with=also)
