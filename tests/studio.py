"""A small studio for tests of tasks and commands: a client, her bodice, a garment, a fitting."""

import datetime as dt
import sqlite3
from contextlib import closing
from pathlib import Path

from wardrobe import bodice

from tracker.body.card import Consent
from tracker.body.session import MeasuringSession, Reading
from tracker.fitting.garment import Fitting, Garment, GarmentKind
from tracker.history.version import Address, Root, first_version
from tracker.store.engine import Store
from tracker.tasks.clients import new_client
from tracker.tasks.fitting import add_fitting, add_garment
from tracker.tasks.measuring import record_session

TODAY = dt.date(2026, 3, 20)
MEASURED = dt.date(2026, 2, 1)
DRAWN = dt.date(2026, 2, 2)
FITTED = dt.date(2026, 2, 20)


def build(path: Path) -> Store:
    """Make a store with mara, who has a bodice drawn by hand, one test garment and one fitting."""
    store = Store.create(path)
    new_client(store, "mara", "Mara Lind", consent=(Consent(to="measurements", given_on=MEASURED),))
    session = MeasuringSession(
        on=MEASURED,
        by="Ida",
        wearing="thin bra",
        readings=(
            Reading(key="bust-girth", values=(880.0, 884.0)),
            Reading(key="waist-girth", values=(640.0,)),
            Reading(key="hip-girth", values=(960.0,)),
        ),
    )
    record_session(store, "mara", session, new_id=lambda: "session-1")
    version = first_version(
        Address("mara", "bodice", 1), Root("brought in", 1, {}), bodice(), "drawn by hand", DRAWN
    )
    with store.writing() as books:
        books.add_version(version)
    garment = Garment(
        garment_id="garment-1", kind=GarmentKind.TEST_GARMENT, cut_from=None, cloth="calico",
        made_on=DRAWN,
    )  # fmt: skip
    add_garment(store, garment, "mara/bodice@1", None, TODAY)
    fitting = Fitting(
        fitting_id="fitting-1", garment_id="", on=FITTED, fitter="Ida", worn_beneath="thin bra"
    )
    add_fitting(store, "mara", None, fitting, TODAY)
    return store


def everything(path: Path) -> list[str]:
    """Return all that is in a store, as text."""
    with closing(sqlite3.connect(path)) as books:
        return [line for line in books.iterdump() if "INSERT" in line]
