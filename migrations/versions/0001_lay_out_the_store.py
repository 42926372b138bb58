"""Lay out the store.

One file holds the whole thread: clients and their measuring sessions; patterns, their versions and
steps; garments, fittings and notes; what was printed; the maker's preferences; and a journal of
what was changed. A piece is kept once, as the canonical text it was digested from, under that
digest, so that a version is a list of pieces and a step that moves one seam adds only the pieces
it moved. Dates are ISO text and lists are JSON text: a damaged one can then be reported in a
sentence. Rows have a number of their own beside the opaque id people's records carry, because the
full-text index goes by row number, and a file written afresh keeps only numbers that are declared.
Nothing cascades. Every constraint has a name, so that later migrations can speak of it.

The names and words here are frozen: this file must always say what release 0.1 laid out, whatever
becomes of ``tracker/store/tables.py``.
"""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None

SEARCHED = ("fitter_words", "client_words", "direction", "sign", "seam", "piece", "edge")


def upgrade() -> None:
    op.create_table(
        "client",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("code", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("card", sa.String(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_client")),
        sa.UniqueConstraint("code", name=op.f("uq_client_code")),
    )
    op.create_table(
        "piece",
        sa.Column("digest", sa.String(), nullable=False),
        sa.Column("format", sa.Integer(), nullable=False),
        sa.Column("drawn", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("digest", name=op.f("pk_piece")),
    )
    op.create_table(
        "preference",
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("value", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("name", name=op.f("pk_preference")),
    )
    op.create_table(
        "journal",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("written_at", sa.String(), nullable=False),
        sa.Column("client_id", sa.Integer(), nullable=True),
        sa.Column("subject", sa.String(), nullable=False),
        sa.Column("subject_key", sa.String(), nullable=False),
        sa.Column("what", sa.String(), nullable=False),
        sa.Column("before", sa.String(), nullable=True),
        sa.Column("after", sa.String(), nullable=True),
        sa.ForeignKeyConstraint(
            ["client_id"], ["client.id"], name=op.f("fk_journal_client_id_client")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_journal")),
    )
    op.create_index(op.f("ix_journal_client_id"), "journal", ["client_id"])

    op.create_table(
        "measuring_session",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("session_id", sa.String(), nullable=False),
        sa.Column("client_id", sa.Integer(), nullable=False),
        sa.Column("held_on", sa.String(), nullable=False),
        sa.Column("by_whom", sa.String(), nullable=False),
        sa.Column("wearing", sa.String(), nullable=False),
        sa.Column("heel_mm", sa.Float(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("reason", sa.String(), nullable=False),
        sa.Column("reason_on", sa.String(), nullable=True),
        sa.Column("note", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(
            ["client_id"], ["client.id"], name=op.f("fk_measuring_session_client_id_client")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_measuring_session")),
        sa.UniqueConstraint("session_id", name=op.f("uq_measuring_session_session_id")),
    )
    op.create_index(op.f("ix_measuring_session_client_id"), "measuring_session", ["client_id"])

    op.create_table(
        "pattern",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("client_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(
            ["client_id"], ["client.id"], name=op.f("fk_pattern_client_id_client")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_pattern")),
        sa.UniqueConstraint("client_id", "name", name=op.f("uq_pattern_client_id_name")),
    )
    op.create_table(
        "reading",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("session_id", sa.Integer(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("measurement", sa.String(), nullable=False),
        sa.Column("side", sa.String(), nullable=False),
        sa.Column("repeats", sa.String(), nullable=False),
        sa.Column("confirmed", sa.Boolean(), nullable=False),
        sa.Column("estimated", sa.Boolean(), nullable=False),
        sa.ForeignKeyConstraint(
            ["session_id"],
            ["measuring_session.id"],
            name=op.f("fk_reading_session_id_measuring_session"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_reading")),
        sa.UniqueConstraint(
            "session_id", "measurement", "side", name=op.f("uq_reading_session_id_measurement_side")
        ),
    )
    op.create_table(
        "version",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("pattern_id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("parent_id", sa.Integer(), nullable=True),
        sa.Column("parent_digest", sa.String(), nullable=False),
        sa.Column("root", sa.String(), nullable=True),
        sa.Column("format", sa.Integer(), nullable=False),
        sa.Column("seams", sa.String(), nullable=False),
        sa.Column("ease", sa.String(), nullable=False),
        sa.Column("sentence", sa.String(), nullable=False),
        sa.Column("made_on", sa.String(), nullable=False),
        sa.Column("digest", sa.String(), nullable=False),
        sa.Column("standing", sa.String(), nullable=False),
        sa.Column("standing_by", sa.String(), nullable=False),
        sa.Column("standing_on", sa.String(), nullable=True),
        sa.ForeignKeyConstraint(
            ["parent_id"], ["version.id"], name=op.f("fk_version_parent_id_version")
        ),
        sa.ForeignKeyConstraint(
            ["pattern_id"], ["pattern.id"], name=op.f("fk_version_pattern_id_pattern")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_version")),
        sa.UniqueConstraint("pattern_id", "number", name=op.f("uq_version_pattern_id_number")),
    )
    op.create_index(op.f("ix_version_parent_id"), "version", ["parent_id"])

    op.create_table(
        "garment",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("garment_id", sa.String(), nullable=False),
        sa.Column("client_id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("cut_from_id", sa.Integer(), nullable=True),
        sa.Column("cloth", sa.String(), nullable=False),
        sa.Column("made_on", sa.String(), nullable=False),
        sa.Column("outlet_mm", sa.Float(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(
            ["client_id"], ["client.id"], name=op.f("fk_garment_client_id_client")
        ),
        sa.ForeignKeyConstraint(
            ["cut_from_id"], ["version.id"], name=op.f("fk_garment_cut_from_id_version")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_garment")),
        sa.UniqueConstraint("garment_id", name=op.f("uq_garment_garment_id")),
    )
    op.create_index(op.f("ix_garment_client_id"), "garment", ["client_id"])
    op.create_index(op.f("ix_garment_cut_from_id"), "garment", ["cut_from_id"])

    op.create_table(
        "printing",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version_id", sa.Integer(), nullable=False),
        sa.Column("printed_on", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(
            ["version_id"], ["version.id"], name=op.f("fk_printing_version_id_version")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_printing")),
    )
    op.create_index(op.f("ix_printing_version_id"), "printing", ["version_id"])

    op.create_table(
        "step",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version_id", sa.Integer(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("step_id", sa.String(), nullable=False),
        sa.Column("format", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("rule", sa.Integer(), nullable=False),
        sa.Column("parameters", sa.String(), nullable=False),
        sa.Column("because", sa.String(), nullable=False),
        sa.Column("sentence", sa.String(), nullable=False),
        sa.Column("effect", sa.String(), nullable=False),
        sa.Column("trace", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(
            ["version_id"], ["version.id"], name=op.f("fk_step_version_id_version")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_step")),
        sa.UniqueConstraint("version_id", "position", name=op.f("uq_step_version_id_position")),
    )
    op.create_table(
        "version_piece",
        sa.Column("version_id", sa.Integer(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("piece_digest", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(
            ["piece_digest"], ["piece.digest"], name=op.f("fk_version_piece_piece_digest_piece")
        ),
        sa.ForeignKeyConstraint(
            ["version_id"], ["version.id"], name=op.f("fk_version_piece_version_id_version")
        ),
        sa.PrimaryKeyConstraint("version_id", "position", name=op.f("pk_version_piece")),
    )
    op.create_index(op.f("ix_version_piece_piece_digest"), "version_piece", ["piece_digest"])

    op.create_table(
        "fitting",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("fitting_id", sa.String(), nullable=False),
        sa.Column("garment_id", sa.Integer(), nullable=False),
        sa.Column("held_on", sa.String(), nullable=False),
        sa.Column("fitter", sa.String(), nullable=False),
        sa.Column("worn_beneath", sa.String(), nullable=False),
        sa.Column("heel_mm", sa.Float(), nullable=False),
        sa.Column("inside_out", sa.Boolean(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(
            ["garment_id"], ["garment.id"], name=op.f("fk_fitting_garment_id_garment")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_fitting")),
        sa.UniqueConstraint("fitting_id", name=op.f("uq_fitting_fitting_id")),
    )
    op.create_index(op.f("ix_fitting_garment_id"), "fitting", ["garment_id"])

    op.create_table(
        "observation",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("observation_id", sa.String(), nullable=False),
        sa.Column("fitting_id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("sign", sa.String(), nullable=False),
        sa.Column("seam", sa.String(), nullable=True),
        sa.Column("piece", sa.String(), nullable=True),
        sa.Column("edge", sa.String(), nullable=True),
        sa.Column("side", sa.String(), nullable=False),
        sa.Column("strength", sa.String(), nullable=False),
        sa.Column("direction", sa.String(), nullable=False),
        sa.Column("readings", sa.String(), nullable=False),
        sa.Column("fitter_words", sa.String(), nullable=False),
        sa.Column("client_words", sa.String(), nullable=False),
        sa.Column("cause", sa.String(), nullable=False),
        sa.Column("state", sa.String(), nullable=False),
        sa.Column("dealt_with_in_id", sa.Integer(), nullable=True),
        sa.Column("settled_at_id", sa.Integer(), nullable=True),
        sa.Column("photo", sa.String(), nullable=True),
        sa.ForeignKeyConstraint(
            ["dealt_with_in_id"],
            ["version.id"],
            name=op.f("fk_observation_dealt_with_in_id_version"),
        ),
        sa.ForeignKeyConstraint(
            ["fitting_id"], ["fitting.id"], name=op.f("fk_observation_fitting_id_fitting")
        ),
        sa.ForeignKeyConstraint(
            ["settled_at_id"], ["fitting.id"], name=op.f("fk_observation_settled_at_id_fitting")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_observation")),
        sa.UniqueConstraint("fitting_id", "number", name=op.f("uq_observation_fitting_id_number")),
        sa.UniqueConstraint("observation_id", name=op.f("uq_observation_observation_id")),
    )
    op.create_index(op.f("ix_observation_dealt_with_in_id"), "observation", ["dealt_with_in_id"])
    op.create_index(op.f("ix_observation_settled_at_id"), "observation", ["settled_at_id"])

    names = ", ".join(f'"{name}"' for name in SEARCHED)
    new = ", ".join(f'new."{name}"' for name in SEARCHED)
    old = ", ".join(f'old."{name}"' for name in SEARCHED)
    forget = (
        f'INSERT INTO "observation_fts" ("observation_fts", rowid, {names}) '
        f"VALUES('delete', old.rowid, {old});"
    )
    learn = f'INSERT INTO "observation_fts" (rowid, {names}) VALUES (new.rowid, {new});'
    connection = op.get_bind()
    for statement in (
        f'CREATE VIRTUAL TABLE "observation_fts" USING FTS5 ({names}, '
        "tokenize='unicode61 remove_diacritics 2', content=\"observation\")",
        f'CREATE TRIGGER "observation_ai" AFTER INSERT ON "observation" BEGIN {learn} END',
        f'CREATE TRIGGER "observation_ad" AFTER DELETE ON "observation" BEGIN {forget} END',
        f'CREATE TRIGGER "observation_au" AFTER UPDATE ON "observation" BEGIN {forget} {learn} END',
    ):
        connection.exec_driver_sql(statement)
