"""The client's page: figures, tree, charts, and how it stands in a browser."""

import re
from dataclasses import replace
from datetime import date
from xml.etree import ElementTree

import pytest
from output.showcase import a_history

from tracker.output.chart import Reading, Series, series_chart
from tracker.output.client import client_html, tree
from tracker.units import Unit


def plain(page: str) -> str:
    return " ".join(re.sub(r"<[^>]+>", " ", page[page.index("<main>") :]).split())


@pytest.fixture(scope="module")
def page():
    return client_html(a_history())


def test_everything_on_the_card_and_every_note_is_there(page):
    text = plain(page)
    about = a_history()
    for name, words in about.card:
        assert f"{name} {words}" in text
    assert about.cautions[0] in text
    assert "1 of 2 notes still open" in text
    for garment in about.garments:
        assert garment.name in text
        for fitting in garment.fittings:
            assert fitting.warning in text
            for note in fitting.notes:
                assert note.place in text
                assert note.state in text
    assert "Not fitted yet." in text


def test_charts_and_table_hold_the_same_figures(page):
    text = plain(page)
    assert "bust girth 94.2 cm 94.8 cm 99.0 cm, passing 94.5 cm 96.2 cm +2.0 cm 1.2 cm" in text
    # One reading makes no chart, but has its row; an estimate is marked and is no change.
    assert page.count('role="img"') == 5
    assert "armhole depth 20.5 cm" in text
    assert "41.0 cm, estimated 41.2 cm 0.7 cm" in text


def test_a_change_more_than_measuring_explains_is_marked(page):
    marked = re.findall(r'<td class="n real">([^<]*)</td>', page)
    assert marked == ["+2.0 cm", "+1.6 cm"]


def test_inches_are_written_for_those_who_count_in_them():
    text = plain(client_html(a_history(Unit.INCH)))
    assert "bust girth 37 1/16 in" in text
    assert "22°" in text


def test_versions_stand_under_the_one_they_were_made_from():
    about = a_history()
    (root,) = tree(about.versions)
    assert root.version.address == "bodice@1"
    (second,) = root.onward
    assert [b.version.address for b in second.onward] == ["bodice@3", "bodice@4"]
    stray = replace(about.versions[3], parent="block@9")
    assert len(tree((*about.versions[:3], stray))) == 2


def test_every_id_on_the_page_is_its_own(page):
    ids = re.findall(r'\bid="([^"]+)"', page)
    assert len(ids) == len(set(ids))
    for target in re.findall(r'(?:href="#|url\(#)([^")]+)', page):
        assert target in ids


def test_a_chart_is_well_formed_named_and_always_the_same():
    series = a_history().series[0]
    svg = series_chart(series, Unit.CM)
    root = ElementTree.fromstring(svg)
    title, words = root[0].text, root[1].text
    assert title == "bust girth"
    assert words == "5 readings, from 94.2 cm in November 2024 to 96.2 cm in November 2026."
    assert svg == series_chart(series, Unit.CM)
    assert "clipPath" in svg or "clip-path" not in svg


def test_readings_stand_higher_the_larger_they_are():
    days = [date(2025, 1, 1), date(2025, 7, 1), date(2026, 1, 1)]
    values = [900.0, 950.0, 920.0]
    series = Series("bust girth", tuple(map(Reading, days, values)), 10.0)
    svg = series_chart(series, Unit.CM)
    line = max(
        (re.findall(r"(?:M|L) ([\d.]+) ([\d.]+)", d) for d in re.findall(r'd="([^"]+)"', svg)
         if "z" not in d and "C" not in d),
        key=lambda points: len(points) if len(points) == 3 else 0,
    )  # fmt: skip
    xs, ys = ([float(p[k]) for p in line] for k in (0, 1))
    # y runs down: 950 highest, then 920, then 900, in proportion.
    assert (ys[0] - ys[2]) / (ys[0] - ys[1]) == pytest.approx(20 / 50, abs=1e-3)
    assert (xs[1] - xs[0]) / (xs[2] - xs[0]) == pytest.approx(181 / 365, abs=1e-3)


def test_names_with_marks_in_them_are_shown_not_obeyed():
    series = Series("<b>bust</b> & girth", (Reading(date(2025, 1, 1), 900.0),) * 2)
    page = client_html(replace(a_history(), series=(series,), client_code="<i>x</i>"))
    assert "<b>bust" not in page
    assert "<i>x" not in page


def test_a_client_with_nothing_yet_has_a_page():
    from tracker.output.client import ClientHistory

    text = plain(client_html(ClientHistory("N-001")))
    assert "0 measuring sessions, 0 versions, 0 garments" in text
