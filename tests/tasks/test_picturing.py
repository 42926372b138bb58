"""A picture of what an alteration would do, without touching the store."""

import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from studio import TODAY, everything

from tracker.alterations.along_seams import AmountAt
from tracker.alterations.kinds.move_a_notch import MoveNotch
from tracker.alterations.kinds.take_in_a_seam import TakeIn
from tracker.errors import TrackerError
from tracker.store.engine import Store
from tracker.tasks.altering import Altered, alter
from tracker.tasks.papers import SomethingElseThere
from tracker.tasks.picturing import NotAPicture, check_picture, picture_of, write_picture
from tracker.tasks.said import as_it_is

SVG = "{http://www.w3.org/2000/svg}"


def side_in(amount: float, at: str = "side waist") -> TakeIn:
    other = "underarm point" if at == "side waist" else "side waist"
    places = ((at, amount), (other, 0.0))
    return TakeIn(
        seam="side",
        amounts=tuple(AmountAt(corner=c, distance_mm=0.0, amount_mm=a) for c, a in places),
    )


def foretold(store: Store, *kinds: object) -> Altered:
    return alter(store, None, [as_it_is(k) for k in kinds], TODAY, dry=True)


def test_a_drawing_is_made_and_the_store_is_as_it_was(studio: Store, tmp_path: Path) -> None:
    before = everything(tmp_path / "studio.db")
    made = foretold(studio, side_in(10))
    path = write_picture(made, check_picture(tmp_path / "sides.svg"))
    assert everything(tmp_path / "studio.db") == before
    drawing = ET.fromstring(path.read_text())
    assert drawing.tag == f"{SVG}svg"
    assert drawing.get("width") == "190mm"
    layers = {g.get("class"): g for g in drawing.iter(f"{SVG}g")}
    assert layers["old"].findall(f"{SVG}path")
    assert layers["new"].findall(f"{SVG}path")
    assert layers["moved"].findall(f"{SVG}path")
    words = " ".join(t.text or "" for t in drawing.iter(f"{SVG}text"))
    assert "10 mm (3/8 in) at the side waist" in words
    assert "mara/bodice@1, altered so" in drawing.findtext(f"{SVG}title", "")
    assert "Right and left side seams in 10 mm" in drawing.findtext(f"{SVG}desc", "")


@pytest.mark.parametrize("at", ["side waist", "underarm point"])
def test_the_number_stands_where_the_seam_moves_most(studio: Store, at: str) -> None:
    about = picture_of(foretold(studio, side_in(9, at)))
    place = about.steps[0].place
    assert place is not None
    piece = about.after.piece(*place.piece)
    edge = piece.edge("side")
    corner = edge.point_at(0.0 if edge.start == at else edge.length)
    assert abs(place.at - corner) < 0.1


def test_each_of_several_steps_has_its_own_number(studio: Store) -> None:
    notch = MoveNotch(piece="front", notch="side notch", by_mm=5)
    made = foretold(studio, side_in(10), notch, side_in(4, "underarm point"))
    about = picture_of(made)
    places = [s.place for s in about.steps]
    assert [p.number for p in places if p] == [1, 2, 3]
    assert len({p.at for p in places if p}) == 3
    assert about.before == made.proposals[0].before
    assert about.after == made.proposals[-1].pattern


def test_only_the_touched_pieces_are_drawn(studio: Store, tmp_path: Path) -> None:
    made = foretold(studio, MoveNotch(piece="front", notch="side notch", by_mm=5, partner=False))
    text = write_picture(made, tmp_path / "notch.svg").read_text()
    assert ">front<" in text
    assert ">back<" not in text


def test_a_page_says_what_is_done_and_what_to_look_at(studio: Store, tmp_path: Path) -> None:
    text = write_picture(foretold(studio, side_in(10)), tmp_path / "sides.html").read_text()
    assert "waist line 20 mm (13/16 in) smaller" in text
    assert "as it would be (solid)" in text
    assert "To look at" in text
    assert "was planned" in text


def test_a_picture_never_goes_over_something_else(tmp_path: Path) -> None:
    mine = tmp_path / "mine.svg"
    mine.write_text("my own words")
    with pytest.raises(SomethingElseThere, match="--picture"):
        check_picture(mine)
    with pytest.raises(NotAPicture, match=r"\.svg or \.html"):
        check_picture(tmp_path / "mine.png")
    with pytest.raises(TrackerError, match="is not there"):
        check_picture(tmp_path / "nowhere" / "p.svg")
    assert mine.read_text() == "my own words"


def test_what_was_made_is_drawn_under_its_own_name(studio: Store) -> None:
    made = alter(studio, None, [as_it_is(side_in(10))], TODAY)
    about = picture_of(made)
    assert about.title == "mara/bodice@2 from mara/bodice@1"
    assert about.after_name == "mara/bodice@2"


def test_a_new_piece_is_drawn_with_what_it_is_sewn_to_and_nothing_is_lost(studio: Store) -> None:
    from tracker.alterations import examples
    from tracker.alterations.kinds.add_a_sleeve import AddSleeve
    from tracker.output.picture import picture_drawing

    about = picture_of(foretold(studio, AddSleeve.to_fit(examples.arm())))
    assert about.pieces == ("sleeve",)
    marks = picture_drawing(about).marks
    for name in ("sleeve", "front", "back"):
        assert f">{name}<" in marks
    # The bodice is as it was: nothing of it is shaded.
    moved = marks.partition('<g class="moved">')[2].partition("</g>")[0]
    assert "<path" not in moved
