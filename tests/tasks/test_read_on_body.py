"""Amounts said as they were read, for any kind: by hand arithmetic."""

import pytest

from tracker.errors import TrackerError
from tracker.tasks.read_on_body import counted
from tracker.units import Unit, read_length


def mm(text: str) -> float:
    return read_length(text, Unit.CM, allow_negative=True)


@pytest.mark.parametrize(
    ("word", "given", "plain"),
    [
        # 4 mm deep at each armhole: 2 x 4 x 2 = 16 narrower
        ("change the width across", [("line", "across back"), ("by", "pinned 4mm")],
         [("line", "across back"), ("to", "narrower"), ("by", "16mm")]),
        # on one side only: 8
        ("change the width across", [("side", "left"), ("by", "pinned 4mm")],
         [("side", "left"), ("to", "narrower"), ("by", "8mm")]),
        # a slash stands 6 mm open at each: 12 wider
        ("change the width across", [("by", "gap 6mm")], [("to", "wider"), ("by", "12mm")]),
        # 30 mm too small round the bust, by the tape
        ("more or less bust volume", [("by", "tape -30mm")], [("by", "30mm")]),
        # a fold 5 mm deep right across: 10 shorter
        ("lengthen or shorten", [("by", "pinned 5mm")], [("by", "-10mm")]),
        ("fold out", [("by", "pinned 6mm")], [("by", "12mm")]),
        ("slash and spread", [("by", "gap 12mm")], [("by", "12mm")]),
        ("take in a seam", [("amounts", "pinned 5mm at side waist"),
                            ("amounts", "nothing at underarm point")],
         [("amounts", "10mm at side waist"), ("amounts", "nothing at underarm point")]),
        ("change the shoulder slope", [("by", "gap 12mm")], [("to", "square"), ("by", "6mm")]),
        ("change the neckline", [("by", "gap 4mm at the centre")],
         [("to", "looser"), ("by", "4mm")]),
        ("raise or lower the cap", [("by", "gap 10mm")], [("to", "raise"), ("by", "10mm")]),
        # what is no reading stays as it was typed
        ("take in a seam", [("seam", "side"), ("amounts", "5mm at side waist")],
         [("seam", "side"), ("amounts", "5mm at side waist")]),
        ("move a notch", [("by", "5mm")], [("by", "5mm")]),
    ],
)  # fmt: skip
def test_an_amount_is_counted_as_it_was_read(
    word: str, given: list[tuple[str, str]], plain: list[tuple[str, str]]
) -> None:
    found, echoes = counted(word, given, mm)
    assert found == plain
    assert len(echoes) == sum(a != b for a, b in zip(given, plain, strict=False)) or echoes


@pytest.mark.parametrize(
    ("word", "given", "words"),
    [
        ("fold out", [("by", "gap 6mm")], "“fold out” takes it out, and this was read the other"),
        ("slash and spread", [("by", "pinned 6mm")], "lets it in, and this was read the other"),
        ("change the width across", [("to", "wider"), ("by", "pinned 4mm")],
         "pinned 4mm means narrower .* and to=wider was said"),
        ("shift a seam", [("amounts", "gap 4mm at side waist")], "read it as pinned fold, chalk"),
        ("lengthen or shorten", [("by", "pinned much")], "much"),
    ],
)  # fmt: skip
def test_a_reading_that_cannot_be_meant_is_told(
    word: str, given: list[tuple[str, str]], words: str
) -> None:
    with pytest.raises(TrackerError, match=words):
        counted(word, given, mm)
