"""A small studio of invented people, as the tests of the store furnish one.

``0001.db`` beside this file was made by release 0.1 from ``furnish`` as it stood then, and is
never made again: the tests open it as it is.
"""

import datetime as dt

from wardrobe import bodice, paper

from tracker.alterations.kinds.take_in_a_seam import AmountAt, TakeIn
from tracker.body.card import Card, Consent
from tracker.body.client import Client
from tracker.body.session import MeasuringSession
from tracker.body.session import Reading as TapeReading
from tracker.fitting.garment import Fitting, Garment, GarmentKind
from tracker.fitting.observation import Observation, Sign
from tracker.fitting.reading import Reading, ReadingKind
from tracker.history.version import Address, Root, Standing, Version, first_version, next_version
from tracker.store.books import Books

NOW = dt.datetime(2025, 3, 9, 17, 30, tzinfo=dt.UTC)

MARA = Client(
    code="mara",
    name="Mara Vogelsang",
    card=Card(
        likes=("a high neck",),
        allergies=("latex",),
        consents=(Consent(to="measurements", given_on=dt.date(2025, 1, 10)),),
    ),
    note="stairs: second floor, no bell",
)
ILSE = Client(code="ilse", name="Ilse Brandt-Osei")

WINTER = MeasuringSession(
    on=dt.date(2025, 1, 10),
    by="H.",
    wearing="underwear",
    readings=(
        TapeReading(key="bust-girth", values=(881.0, 884.5, 882.5)),
        TapeReading(key="shoulder-length", side="right", values=(121.0,)),
        TapeReading(key="shoulder-length", side="left", values=(124.0,)),
        TapeReading(key="waist-girth", values=(0.1 + 0.2 + 690.0,), estimated=True),
    ),
    note='she said "not so tight", and laughed',
)
SPRING = MeasuringSession(
    on=dt.date(2025, 3, 1),
    by="H.",
    kind="passing",
    reason="pregnancy",
    reason_on=dt.date(2025, 9, 20),
    readings=(TapeReading(key="waist-girth", values=(742.0,), confirmed=True),),
)


def take_in(seam: str, amount_mm: float) -> TakeIn:
    """Take a side seam in at the waist, to nothing at the underarm."""
    return TakeIn(
        seam=seam,
        amounts=(
            AmountAt(corner="side waist", distance_mm=0.0, amount_mm=amount_mm),
            AmountAt(corner="underarm point", distance_mm=0.0, amount_mm=0.0),
        ),
    )


def roots() -> Version:
    """The first version of a bodice, brought in."""
    return first_version(
        Address("mara", "bodice", 1),
        Root("brought in", 1, {"from": "tissue", "bust": 0.1 + 0.2}, estimated=("waist-girth",)),
        bodice(),
        "Bodice brought in from tissue",
        dt.date(2025, 1, 12),
    )


def rounds() -> tuple[Version, ...]:
    """Three versions of the bodice and a copy of the second under another name."""
    one = roots()
    two = next_version(
        one, Address("mara", "bodice", 2), ((take_in("side", 10.0), ("note-1",)),), "",
        dt.date(2025, 2, 3),
    )  # fmt: skip
    three = next_version(
        two, Address("mara", "bodice", 3), ((take_in("side", -4.0), ("note-2",)),), "",
        dt.date(2025, 3, 4),
    )  # fmt: skip
    summer = next_version(
        two, Address("mara", "summer bodice", 1), ((take_in("side", 2.0), ()),), "For linen",
        dt.date(2025, 3, 5),
    )  # fmt: skip
    return one, two, three, summer


TEST_GARMENT = Garment(
    garment_id="garment-1",
    kind=GarmentKind.TEST_GARMENT,
    cut_from="mara/bodice@1",
    cloth="calico",
    made_on=dt.date(2025, 1, 20),
    outlet_mm=25.0,
)
FIRST_FITTING = Fitting(
    fitting_id="fitting-1",
    garment_id="garment-1",
    on=dt.date(2025, 2, 1),
    fitter="H.",
    worn_beneath="underwear",
    inside_out=True,
)
SECOND_FITTING = Fitting(
    fitting_id="fitting-2", garment_id="garment-1", on=dt.date(2025, 3, 2), fitter="H.",
    heel_mm=30.0,
)  # fmt: skip
LOOSE = Observation(
    observation_id="note-1",
    fitting_id="fitting-1",
    number=1,
    sign=Sign.TOO_LOOSE,
    seam="side",
    readings=(Reading(kind=ReadingKind.PINNED_FOLD, corner="side waist", value_mm=5.0),),
    fitter_words="bags under the décolleté, pinned at both sides",
    client_words="feels like a sack",
)
GAPING = Observation(
    observation_id="note-2",
    fitting_id="fitting-1",
    number=2,
    sign=Sign.GAPING,
    piece="front",
    edge="neckline",
    fitter_words="stands off the neck",
    photo="ab" * 32,
)


def furnish(books: Books) -> None:
    """Fill an empty store with two clients and everything there can be of one."""
    books.add_client(MARA)
    books.add_client(ILSE)
    books.add_session("mara", "session-1", WINTER)
    books.add_session("mara", "session-2", SPRING)
    one, two, three, summer = rounds()
    for version in (one, two, three, summer):
        books.add_version(version)
    books.add_version(
        first_version(
            Address("ilse", "coat", 1), Root("brought in", 1, {}), paper(), "A bought coat",
            dt.date(2025, 2, 2),
        )
    )  # fmt: skip
    books.set_standing(one.address, Standing.FITTED, "H.", dt.date(2025, 2, 1))
    books.mark_printed(one.address, dt.date(2025, 1, 19))
    books.mark_printed(two.address, dt.date(2025, 2, 4))
    books.add_garment("mara", TEST_GARMENT)
    books.add_fitting("mara", FIRST_FITTING)
    books.add_fitting("mara", SECOND_FITTING)
    books.add_note("mara", LOOSE)
    books.add_note("mara", GAPING)
    settled = LOOSE.altered_in("mara/bodice@2").looked_at("fitting-2", settled=True)
    books.change_note("mara", LOOSE.altered_in("mara/bodice@2"))
    books.change_note("mara", settled)
    books.set_preference("unit", "cm")
