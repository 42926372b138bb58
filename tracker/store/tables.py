"""The tables: they carry, and know no rule of the trade.

Dates are ISO text and lists are JSON text, read by ``codec``: a damaged one is then reported
instead of stopping the program half-way. What is digested (pieces, seams, steps) is kept as the
canonical text that was digested. Nothing cascades: what is deleted is deleted by name, in
``transfer.erase_client``.
"""

from sqlalchemy import MetaData, UniqueConstraint
from sqlalchemy.orm import registry
from sqlmodel import Field, SQLModel

#: Every constraint has a name, so that a later migration can speak of it.
NAMES = {
    "pk": "pk_%(table_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
}


class Row(SQLModel, registry=registry(metadata=MetaData(naming_convention=NAMES))):
    """What every table is made of."""


class ClientRow(Row, table=True):
    """A client; her card as a record."""

    __tablename__ = "client"

    id: int = Field(default=None, primary_key=True)
    code: str = Field(unique=True)
    name: str
    card: str
    note: str


class SessionRow(Row, table=True):
    """A measuring session."""

    __tablename__ = "measuring_session"

    id: int = Field(default=None, primary_key=True)
    session_id: str = Field(unique=True)
    client_id: int = Field(foreign_key="client.id", index=True)
    held_on: str
    by_whom: str
    wearing: str
    heel_mm: float
    kind: str
    reason: str
    reason_on: str | None = None
    note: str


class ReadingRow(Row, table=True):
    """What the tape said of one measurement in one session: its repeats as a list."""

    __tablename__ = "reading"
    __table_args__ = (UniqueConstraint("session_id", "measurement", "side"),)

    id: int = Field(default=None, primary_key=True)
    session_id: int = Field(foreign_key="measuring_session.id")
    position: int
    measurement: str
    side: str
    repeats: str
    confirmed: bool
    estimated: bool


class PatternRow(Row, table=True):
    """A pattern's name; all else is in its versions."""

    __tablename__ = "pattern"
    __table_args__ = (UniqueConstraint("client_id", "name"),)

    id: int = Field(default=None, primary_key=True)
    client_id: int = Field(foreign_key="client.id")
    name: str


class VersionRow(Row, table=True):
    """A version: its pieces are in ``version_piece``, its steps in ``step``.

    ``digest`` covers everything but the standing; ``parent_digest`` is the parent's as it was.
    """

    __tablename__ = "version"
    __table_args__ = (UniqueConstraint("pattern_id", "number"),)

    id: int = Field(default=None, primary_key=True)
    pattern_id: int = Field(foreign_key="pattern.id")
    number: int
    parent_id: int | None = Field(default=None, foreign_key="version.id", index=True)
    parent_digest: str
    root: str | None = None
    format: int
    seams: str
    ease: str
    sentence: str
    made_on: str
    digest: str
    standing: str
    standing_by: str
    standing_on: str | None = None


class PieceRow(Row, table=True):
    """A piece as drawn, kept once under the digest of its text however many versions have it."""

    __tablename__ = "piece"

    digest: str = Field(primary_key=True)
    format: int
    drawn: str


class VersionPieceRow(Row, table=True):
    """Which pieces a version has, in order."""

    __tablename__ = "version_piece"

    version_id: int = Field(foreign_key="version.id", primary_key=True)
    position: int = Field(primary_key=True)
    piece_digest: str = Field(foreign_key="piece.digest", index=True)


class StepRow(Row, table=True):
    """A step of a version: what was asked, and what it did then."""

    __tablename__ = "step"
    __table_args__ = (UniqueConstraint("version_id", "position"),)

    id: int = Field(default=None, primary_key=True)
    version_id: int = Field(foreign_key="version.id")
    position: int
    step_id: str
    format: int
    kind: str
    rule: int
    parameters: str
    because: str
    sentence: str
    effect: str
    trace: str


class PrintingRow(Row, table=True):
    """A version was printed."""

    __tablename__ = "printing"

    id: int = Field(default=None, primary_key=True)
    version_id: int = Field(foreign_key="version.id", index=True)
    printed_on: str


class GarmentRow(Row, table=True):
    """A garment that was sewn or bought."""

    __tablename__ = "garment"

    id: int = Field(default=None, primary_key=True)
    garment_id: str = Field(unique=True)
    client_id: int = Field(foreign_key="client.id", index=True)
    kind: str
    cut_from_id: int | None = Field(default=None, foreign_key="version.id", index=True)
    cloth: str
    made_on: str
    outlet_mm: float
    note: str


class FittingRow(Row, table=True):
    """A trying-on of a garment."""

    __tablename__ = "fitting"

    id: int = Field(default=None, primary_key=True)
    fitting_id: str = Field(unique=True)
    garment_id: int = Field(foreign_key="garment.id", index=True)
    held_on: str
    fitter: str
    worn_beneath: str
    heel_mm: float
    inside_out: bool
    note: str


class ObservationRow(Row, table=True):
    """A note of a fitting, its readings as a list. Its words are indexed by ``search``."""

    __tablename__ = "observation"
    __table_args__ = (UniqueConstraint("fitting_id", "number"),)

    id: int = Field(default=None, primary_key=True)
    observation_id: str = Field(unique=True)
    fitting_id: int = Field(foreign_key="fitting.id")
    number: int
    sign: str
    seam: str | None = None
    piece: str | None = None
    edge: str | None = None
    side: str
    strength: str
    direction: str
    readings: str
    fitter_words: str
    client_words: str
    cause: str
    state: str
    dealt_with_in_id: int | None = Field(default=None, foreign_key="version.id", index=True)
    settled_at_id: int | None = Field(default=None, foreign_key="fitting.id", index=True)
    photo: str | None = None


class JournalRow(Row, table=True):
    """What was changed: how it stood before, and after. Only added to."""

    __tablename__ = "journal"

    id: int = Field(default=None, primary_key=True)
    written_at: str
    client_id: int | None = Field(default=None, foreign_key="client.id", index=True)
    subject: str
    subject_key: str
    what: str
    before: str | None = None
    after: str | None = None


class PreferenceRow(Row, table=True):
    """A choice of the maker's: her unit, her word for a test garment."""

    __tablename__ = "preference"

    name: str = Field(primary_key=True)
    value: str


METADATA = Row.metadata
