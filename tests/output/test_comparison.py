"""The comparison page: its words, its drawing, and that it stands on its own."""

import itertools
import re
from dataclasses import replace
from fractions import Fraction
from html.parser import HTMLParser

import pytest
from hypothesis import given
from hypothesis import strategies as st
from output.showcase import a_comparison

from tracker.geometry.transform import Motion
from tracker.output.comparison import (
    Change,
    GirthRow,
    SeamRow,
    SeamSides,
    comparison_drawing,
    comparison_html,
)  # fmt: skip
from tracker.output.figures import change, figure
from tracker.output.leaders import CLEAR, RADIUS, place_numbers
from tracker.pattern.bodyside import BodySide
from tracker.units import Unit


class Outline(HTMLParser):
    """Collects tags, attributes and text, and whether every tag is closed."""

    VOID = frozenset({"meta", "input", "br", "link", "hr", "img"})

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str]]] = []
        self.open: list[str] = []
        self.words: list[str] = []
        self.feed(page)

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))
        if tag not in self.VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        if self.open and self.open[-1] != "style":
            self.words.append(data)

    @property
    def text(self) -> str:
        return " ".join(" ".join(self.words).split())

    def all(self, tag):
        return [a for t, a in self.tags if t == tag]


def test_the_page_says_every_change_with_its_reason_and_effects():
    about = a_comparison()
    text = Outline(comparison_html(about)).text
    for c in about.changes:
        assert c.sentence in text
        assert c.reason in text
        for effect in c.effects:
            assert effect in text


def test_the_page_says_of_every_seam_why_it_is_there():
    about = a_comparison()
    outline = Outline(comparison_html(about))
    assert len(outline.all("details")) == len(about.why)
    for row in about.why:
        assert row.line in outline.text
        for reason in row.reasons:
            assert f"{reason.version}, {reason.day}. {reason.sentence}" in outline.text
            for words in (*reason.moved, *reason.notes):
                assert words in outline.text
    assert "Why is this line here?" not in Outline(comparison_html(replace(about, why=()))).text


def test_the_page_needs_nothing_but_itself():
    page = comparison_html(a_comparison())
    outline = Outline(page)
    assert not outline.open
    for tag in ("script", "link", "img", "iframe", "object"):
        assert not outline.all(tag)
    addresses = re.findall(r"(?:https?:)?//[^\s\"')]+", page)
    assert set(addresses) <= {"http://www.w3.org/2000/svg"}
    assert "@import" not in page
    assert "url(" not in page


def test_seams_read_as_a_fitter_says_them():
    sides = SeamSides("front", 412.2, "back", 410.4)
    assert sides.words(Unit.CM) == "front 412, back 410: ease 2"
    assert replace(sides, second_mm=412.0).words(Unit.CM) == "front 412, back 412: even"
    planned = SeamSides("front", 122.5, "back", 127.5, 5.0)
    assert planned.words(Unit.INCH) == "front 4 13/16, back 5: ease 3/16 (plan 3/16)"
    assert SeamSides("back", 410.0).words(Unit.CM) == "back 410"


@pytest.mark.parametrize(
    ("old", "new", "unit", "written"),
    [
        (742.0, 722.0, Unit.CM, "−20"),
        (722.0, 742.2, Unit.CM, "+20"),
        (722.0, 722.3, Unit.CM, "0"),
        (722.3, 722.0, Unit.CM, "0"),  # never −0
        (0.0, 25.4, Unit.INCH, "+1"),
        (25.4, 0.0, Unit.INCH, "−1"),
    ],
)
def test_changes_carry_their_sign(old, new, unit, written):
    assert change(old, new, unit) == written


@given(st.floats(-2000, 2000))
def test_figures_are_rounded_to_a_millimetre_or_a_sixteenth(mm):
    shown = figure(mm, Unit.CM).replace("−", "-")
    assert abs(int(shown) - mm) <= 0.5 + 1e-6
    written = figure(mm, Unit.INCH)
    inches = sum(Fraction(part) for part in written.removeprefix("−").split())
    assert abs((-inches if written.startswith("−") else inches) - mm / 25.4) <= 1 / 32 + 1e-6


def test_a_line_or_seam_only_one_version_has_is_shown_as_missing():
    about = replace(
        a_comparison(),
        girths=(GirthRow("hip line", None, 1000.0),),
        seams=(SeamRow("princess", None, SeamSides("centre front", 300.0, "side front", 301.0)),),
    )
    text = Outline(comparison_html(about)).text
    assert "hip line — 1000 —" in text
    assert "princess — centre front 300, side front 301: ease 1" in text


def test_words_with_marks_in_them_are_shown_not_obeyed():
    about = replace(a_comparison(), title="<script>alert(1)</script> & “so”")
    page = comparison_html(about)
    assert "<script>" not in page
    assert "<script>alert(1)</script> & “so”" in Outline(page).text


def test_everything_has_a_name_for_those_who_listen():
    about = a_comparison()
    outline = Outline(comparison_html(about))
    assert outline.all("html")[0]["lang"] == "en"
    ids = [a["id"] for _, a in outline.tags if "id" in a]
    assert len(ids) == len(set(ids))
    for _, attributes in outline.tags:
        for name in attributes.get("aria-labelledby", "").split():
            assert name in ids
        if attributes.get("href", "").startswith("#"):
            assert attributes["href"][1:] in ids
    numbers = [a for a in outline.all("a") if a.get("class") == "number"]
    said = [f"change {c.number}: {c.sentence}" for c in about.changes for _ in c.spots]
    assert [link["aria-label"] for link in numbers] == said
    heads = [t for t, _ in outline.tags if re.fullmatch(r"h\d", t)]
    assert heads[0] == "h1"
    assert all(int(b[1]) - int(a[1]) <= 1 for a, b in itertools.pairwise(heads))
    for attributes in outline.all("th"):
        assert attributes["scope"] in ("col", "row")
    assert len(outline.all("caption")) == len(outline.all("table"))


def test_the_drawing_shows_old_dashed_and_new_solid_at_one_scale():
    about = a_comparison()
    drawing = comparison_drawing(about)
    layers = dict(re.findall(r'<g class="(\w+)">\n(.*?)\n</g>', drawing.marks, re.DOTALL))
    outlines = {
        name: re.findall(r'<path class="outline" [^>]*>', layers[name]) for name in ("old", "new")
    }
    assert all("stroke-dasharray" in path for path in outlines["old"])
    assert not any("stroke-dasharray" in path for path in outlines["new"])
    # One millimetre of the garment is one unit: the centre front is as long as in the pattern.
    tall = about.new.pattern.piece("front").edge("centre front").length
    straight = [
        abs(complex(float(x1), float(y1)) - complex(float(x2), float(y2)))
        for path in outlines["new"]
        for x1, y1, x2, y2 in re.findall(r'd="M(\S+) (\S+?)L(\S+) ([^"\s]+)"', path)
    ]
    assert any(length == pytest.approx(tall, abs=0.01) for length in straight)


def test_each_number_points_at_its_place_and_covers_nothing():
    about = a_comparison()
    drawing = comparison_drawing(about)
    feet = re.findall(r'class="dot" cx="([-\d.]+)" cy="([-\d.]+)"', drawing.marks)
    rings = [
        (complex(float(x), -float(y)), float(r))
        for x, y, r in re.findall(
            r'class="ring" cx="([-\d.]+)" cy="([-\d.]+)" r="([-\d.]+)"', drawing.marks
        )
    ]
    spots = [spot for c in about.changes for spot in c.spots]
    assert len(feet) == len(rings) == len(spots)
    for (a, ra), (b, rb) in itertools.combinations(rings, 2):
        assert abs(a - b) > ra + rb
    # Two places on one piece lie as far apart on the drawing as in the pattern.
    front = [
        (spot.at, complex(float(x), -float(y)))
        for spot, (x, y) in zip(spots, feet, strict=True)
        if spot.piece == "front"
    ]
    (at_1, foot_1), (at_2, foot_2) = front[:2]
    assert foot_2 - foot_1 == pytest.approx(at_2 - at_1, abs=0.01)
    points = [
        complex(float(x), -float(y))
        for d in re.findall(r'<path class="(?:outline|dart)" d="([^"]+)"', drawing.marks)
        for x, y in re.findall(r"([-\d.]+) ([-\d.]+)", d)
    ]
    for centre, radius in rings:
        assert min(abs(p - centre) for p in points) > radius


@given(
    st.lists(st.tuples(st.floats(0, 300), st.floats(0, 300)), min_size=1, max_size=9, unique=True)
)
def test_numbers_never_cover_each_other(spots):
    wanted = [(i, complex(*spot), 150 + 150j) for i, spot in enumerate(spots, start=1)]
    leaders = place_numbers(wanted, [], [], 1.0)
    for one, other in itertools.combinations(leaders, 2):
        assert abs(one.centre - other.centre) >= 2 * RADIUS + CLEAR - 1e-9


def test_an_old_piece_may_be_moved_to_lie_on_the_new_one():
    about = a_comparison()
    shift = Motion.move(500 + 70j)
    piece = about.old.pattern.piece("front")
    away = replace(
        about,
        moved=(((piece.name, piece.side), shift),),
    )
    assert comparison_drawing(away).view_box != comparison_drawing(about).view_box


def test_a_change_on_a_piece_that_is_not_drawn_is_still_told():
    lost = Change(9, "collar", 0j, "Collar 6 mm longer.", side=BodySide.BOTH)
    about = replace(a_comparison(), changes=(lost,))
    outline = Outline(comparison_html(about))
    assert "Collar 6 mm longer." in outline.text
    assert "Not on the drawing: 9." in outline.text


def test_a_pattern_without_outlines_is_compared_in_words():
    from wardrobe import paper

    about = a_comparison()
    about = replace(
        about,
        old=replace(about.old, pattern=paper()),
        new=replace(about.new, pattern=paper()),
    )
    outline = Outline(comparison_html(about))
    assert "no outlines are drawn" in outline.text
    assert about.changes[0].sentence in outline.text


def test_the_same_values_give_the_same_page():
    assert comparison_html(a_comparison()) == comparison_html(a_comparison())
