"""The key of a print: what its lines and signs mean, and what is added."""

import irregular
import pytest

from tracker.output.lettering import width_mm
from tracker.output.order import PrintOrder
from tracker.output.sheet import compose
from tracker.output.title import key_of


@pytest.mark.parametrize(
    ("sort", "there", "missing"),
    [
        ("bodice", ("bust point", "grain of the cloth", "this edge lies on the fold"), "hems"),
        ("skirt", ("hems 40", "dart folded here"), "bust point"),
    ],
)
def test_the_key_names_every_sign_that_is_drawn_and_none_that_is_not(
    sort: str, there: tuple[str, ...], missing: str
) -> None:
    pattern = irregular.block(sort, 1)
    order = PrintOrder(pattern, "A-017", "block@1", "for cloth", "5 March 2026")
    said = " ".join(given[1] for what, given in compose(order).strokes if what == "text")
    said = said.split("Seam allowance")[1].replace("\u00a0", " ")
    said = said.split("100 mm")[0]
    for words in there:
        assert words in said
    assert missing not in said


def test_the_words_of_the_key_stay_on_the_first_page_of_a_tiled_print() -> None:
    for sort in irregular.SORTS:
        pattern = irregular.block(sort, 1)
        order = PrintOrder(
            pattern, "A-017", "block@1", "for cloth", "5 March 2026", test_garment=True
        )
        assert all(width_mm(words, 3.4) <= 56.0 for _, words in key_of(order))
