"""Typed measurements become a session; odd ones are questioned before they are kept."""

from dataclasses import replace

import pytest
from studio import TODAY, everything

from tracker.body.session import MeasuringSession, Reading
from tracker.body.vocabulary import WhichMeasurement
from tracker.errors import TrackerError
from tracker.store.engine import Store
from tracker.tasks.bodies import girths_of
from tracker.tasks.measuring import (
    Questioned,
    compare_sessions,
    correct_session,
    record_session,
    sheet_for,
)
from tracker.tasks.values import read_values
from tracker.units import Unit


@pytest.mark.parametrize(
    ("typed", "readings"),
    [
        (["bust=88.2"], [("bust-girth", "both", (882.0,))]),
        (["bust: 88.2"], [("bust-girth", "both", (882.0,))]),
        (["bust=88.2; 88.6"], [("bust-girth", "both", (882.0, 886.0))]),
        (["bust=88.2", "bust girth=88.6"], [("bust-girth", "both", (882.0, 886.0))]),
        (["bust=34 3/4in"], [("bust-girth", "both", (882.65,))]),
        (["right shoulder length=12.4"], [("shoulder-length", "right", (124.0,))]),
        (["Left-shoulder-length=126mm"], [("shoulder-length", "left", (126.0,))]),
        # as the measuring sheet has them
        (["shoulder length, right=12.4"], [("shoulder-length", "right", (124.0,))]),
        (["Shoulder length, LEFT: 12.6; 12.4"], [("shoulder-length", "left", (126.0, 124.0))]),
        (["bust arc, front=45"], [("bust-arc-front", "both", (450.0,))]),
        (["shoulder slope=22.5°"], [("shoulder-slope", "both", (22.5,))]),
    ],
)
def test_typed_values_are_read(
    typed: list[str], readings: list[tuple[str, str, tuple[float, ...]]]
) -> None:
    found = [(r.key, r.side, r.values) for r in read_values(typed, Unit.CM)]
    for (key, side, values), (wanted_key, wanted_side, wanted) in zip(found, readings, strict=True):
        assert (key, side) == (wanted_key, wanted_side)
        assert values == pytest.approx(wanted)


def test_every_label_of_the_measuring_sheet_can_be_typed_as_it_stands(studio: Store) -> None:
    _, sheet = sheet_for(studio, "mara", ("bodice", "sleeve", "skirt", "trousers"), blank=False)
    boxes = [(line.measurement, side) for line in sheet.lines for side in line.boxes]
    assert {side for _, side in boxes} == {"both", "right", "left"}
    for entry, side in boxes:
        label = entry.name if side == "both" else f"{entry.name}, {side}"
        [reading] = read_values([f"{label}=40"], Unit.CM)
        assert (reading.key, reading.side) == (entry.key, side)


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("shoulder=5in",
         "shoulder girth; shoulder width over the back neck point; shoulder length; or shoulder "
         "slope"),
        ("armhole=42", "armhole depth; or armhole girth"),
        ("crotch=60", "crotch depth; crotch length; crotch length, front; or crotch length, back"),
    ],
)  # fmt: skip
def test_a_name_that_could_be_several_is_asked_about(typed: str, told: str) -> None:
    with pytest.raises(WhichMeasurement, match="Type the one you mean") as asked:
        read_values([typed], Unit.CM)
    assert told in asked.value.sentence


@pytest.mark.parametrize("alone", ["bust", "waist", "hip", "thigh", "upper arm", "wrist"])
def test_a_girth_that_is_plain_needs_no_more_words(alone: str) -> None:
    [reading] = read_values([f"{alone}=50"], Unit.CM)
    assert reading.key == f"{alone.replace(' ', '-')}-girth"


def _session(**values: float) -> MeasuringSession:
    readings = tuple(Reading(key=k.replace("_", "-"), values=(v,)) for k, v in values.items())
    return MeasuringSession(on=TODAY, by="Ida", readings=readings)


def test_an_unusual_value_is_kept_only_when_confirmed(studio: Store) -> None:
    session = _session(bust_girth=1880.0, waist_girth=700.0)
    before = everything(studio.path)
    with pytest.raises(Questioned, match='--keep "bust girth"'):
        record_session(studio, "mara", session)
    assert everything(studio.path) == before
    record_session(studio, "mara", session, keep=["bust"])
    with studio.reading() as books:
        kept = books.sessions("mara")[-1].reading("bust-girth")
    assert kept is not None
    assert kept.confirmed


def test_contradictions_are_pointed_at_and_kept(studio: Store) -> None:
    session = _session(bust_girth=900.0, bust_arc_front=500.0, bust_arc_back=500.0)
    kept = record_session(studio, "mara", session, keep=["all"])
    assert any("bust arc" in found.place for found in kept.contradictions)
    with studio.reading() as books:
        assert len(books.sessions("mara")) == 2


def test_a_line_round_both_legs_is_as_long_as_both_thighs_or_knees(studio: Store) -> None:
    legs = (Reading(key="knee-girth", side="right", values=(360.0,)),
            Reading(key="knee-girth", side="left", values=(352.0,)),
            Reading(key="thigh-girth", values=(570.0,)))  # fmt: skip
    record_session(studio, "mara", replace(_session(bust_girth=880.0), readings=legs))
    with studio.reading() as books:
        girths = girths_of(books, "mara")
    assert girths is not None
    assert (girths["knee line"], girths["crotch line"]) == (712.0, 1140.0)
    assert girths["waist line"] == 640.0


def test_a_correction_that_is_questioned_changes_nothing(studio: Store) -> None:
    before = everything(studio.path)
    with pytest.raises(Questioned):
        correct_session(studio, "mara", 1, read_values(["bust=300"], Unit.CM))
    assert everything(studio.path) == before


def test_the_last_two_sessions_are_compared_unless_others_are_named(studio: Store) -> None:
    record_session(studio, "mara", _session(bust_girth=884.0))
    record_session(studio, "mara", _session(bust_girth=940.0))
    numbers, found = compare_sessions(studio, "mara", None, None)
    assert numbers == (2, 3)
    assert found.is_real
    numbers, found = compare_sessions(studio, "mara", 1, 2)
    assert numbers == (1, 2)
    assert not found.is_real


def test_a_sheet_carries_last_times_values(studio: Store) -> None:
    _, sheet = sheet_for(studio, None, ("bodice",), blank=False)
    lines = {line.measurement.key: line for line in sheet.lines}
    assert lines["bust-girth"].last == (882.0,)
    orders = [line.measurement.order for line in sheet.lines]
    assert orders == sorted(orders)
    _, empty = sheet_for(studio, None, ("bodice",), blank=True)
    assert all(value is None for line in empty.lines for value in line.last)


def test_nothing_measured_is_told(studio: Store) -> None:
    with pytest.raises(TrackerError, match="nothing was measured"):
        record_session(studio, "mara", MeasuringSession(on=TODAY, by="Ida"))
