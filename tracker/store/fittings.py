"""Garments, their fittings, and the notes made at them."""

from sqlmodel import col, select

from tracker.errors import TrackerError
from tracker.fitting.garment import Fitting, Garment
from tracker.fitting.observation import Observation
from tracker.store import codec
from tracker.store.opening import NotStored
from tracker.store.records import fitting_record, garment_record, note_record
from tracker.store.search import matching_rows
from tracker.store.shelf import Shelf, readable
from tracker.store.tables import ClientRow, FittingRow, GarmentRow, ObservationRow


class UnknownGarment(TrackerError):
    """No garment has this id."""


class UnknownFitting(TrackerError):
    """No fitting has this id."""


class UnknownNote(TrackerError):
    """No note has this id."""


class FittingShelf(Shelf):
    """What was sewn, tried on and seen."""

    # -- garments --------------------------------------------------------------------------

    def add_garment(self, client_code: str, garment: Garment) -> None:
        """Put a garment into the books.

        Raises:
            UnknownClient, UnknownPattern, UnknownVersion: what it was cut from is not there.
            NotStored: its id is in use.
        """
        owner = self._client_row(client_code)
        self._free(GarmentRow, GarmentRow.garment_id == garment.garment_id, "garment")
        self.work.add(
            GarmentRow(
                client_id=owner.id,
                cut_from_id=self._cut_from(garment, owner.id),
                **codec.garment_fields(garment),
            )
        )
        self.work.flush()

    def garment(self, garment_id: str) -> Garment:
        """Return a garment.

        Raises:
            UnknownGarment: no garment has this id.
        """
        return self._garment_from(self._garment_row(garment_id))

    def garments(self, client_code: str) -> tuple[Garment, ...]:
        """Return a client's garments in the order they were recorded: it numbers them."""
        owner = self._client_row(client_code)
        rows = self.work.exec(
            select(GarmentRow).where(GarmentRow.client_id == owner.id).order_by(col(GarmentRow.id))
        ).all()
        return tuple(self._garment_from(row) for row in rows)

    def change_garment(self, garment: Garment) -> None:
        """Replace what is known of a garment; the journal keeps how it stood."""
        row = self._garment_row(garment.garment_id)
        before, after = garment_record(self._garment_from(row)), garment_record(garment)
        if before == after:
            return
        for name, value in codec.garment_fields(garment).items():
            setattr(row, name, value)
        row.cut_from_id = self._cut_from(garment, row.client_id)
        self.work.add(row)
        self._write_down(
            "a garment was changed", "garment", garment.garment_id, before, after, row.client_id
        )
        self.work.flush()

    # -- fittings --------------------------------------------------------------------------

    def add_fitting(self, client_code: str, fitting: Fitting) -> None:
        """Put a fitting into the books.

        Raises:
            UnknownClient, UnknownGarment: it is of no garment of hers.
            NotStored: its id is in use.
        """
        owner = self._client_row(client_code)
        garment = self._garment_row(fitting.garment_id)
        if garment.client_id != owner.id:
            raise UnknownGarment(
                f"{client_code} has no garment {fitting.garment_id!r}; it is another client's"
            )
        self._free(FittingRow, FittingRow.fitting_id == fitting.fitting_id, "fitting")
        self.work.add(FittingRow(garment_id=garment.id, **codec.fitting_fields(fitting)))
        self.work.flush()

    def fitting(self, fitting_id: str) -> Fitting:
        """Return a fitting.

        Raises:
            UnknownFitting: no fitting has this id.
        """
        return self._fitting_from(self._fitting_row(fitting_id))

    def fittings(self, client_code: str, garment_id: str | None = None) -> tuple[Fitting, ...]:
        """Return a client's fittings, or one garment's, in the order they were recorded.

        That order numbers them, so that one entered late renumbers none that notes are named by.
        """
        owner = self._client_row(client_code)
        wanted = select(FittingRow).join(
            GarmentRow, col(GarmentRow.id) == col(FittingRow.garment_id)
        )
        wanted = wanted.where(GarmentRow.client_id == owner.id)
        if garment_id is not None:
            wanted = wanted.where(GarmentRow.garment_id == garment_id)
        rows = self.work.exec(wanted.order_by(col(FittingRow.id))).all()
        return tuple(self._fitting_from(row) for row in rows)

    def change_fitting(self, fitting: Fitting) -> None:
        """Replace what is known of a fitting; the journal keeps how it stood.

        Raises:
            UnknownFitting: no fitting has this id.
            NotStored: it would go to another garment.
        """
        row = self._fitting_row(fitting.fitting_id)
        old = self._fitting_from(row)
        if old.garment_id != fitting.garment_id:
            raise NotStored(
                "a fitting stays with its garment; make a new fitting for the other one"
            )
        if old == fitting:
            return
        for name, value in codec.fitting_fields(fitting).items():
            setattr(row, name, value)
        self.work.add(row)
        self._write_down(
            f"the fitting of {old.on.isoformat()} was changed", "fitting", fitting.fitting_id,
            fitting_record(old), fitting_record(fitting), self._owner_of(row),
        )  # fmt: skip
        self.work.flush()

    # -- notes -----------------------------------------------------------------------------

    def add_note(self, client_code: str, note: Observation) -> None:
        """Put a note of a fitting into the books.

        Raises:
            UnknownClient, UnknownFitting: it was made at no fitting of hers.
            UnknownVersion: the version it was dealt with in is not there.
            NotStored: its id, or its number at that fitting, is in use.
        """
        owner = self._client_row(client_code)
        fitting = self._fitting_row(note.fitting_id)
        self._check_owner(client_code, owner, fitting)
        self._free(ObservationRow, ObservationRow.observation_id == note.observation_id, "note")
        same = self.work.exec(
            select(ObservationRow.id).where(
                ObservationRow.fitting_id == fitting.id, ObservationRow.number == note.number
            )
        ).first()
        if same is not None:
            raise NotStored(f"the fitting of {fitting.held_on} has a note {note.number} already")
        row = ObservationRow(fitting_id=fitting.id, **codec.note_fields(note))
        self._refer(row, note, owner.id)
        self.work.add(row)
        self.work.flush()

    def note(self, observation_id: str) -> Observation:
        """Return a note.

        Raises:
            UnknownNote: no note has this id.
        """
        return self._note_from(self._note_row(observation_id))

    def notes(self, client_code: str, fitting_id: str | None = None) -> tuple[Observation, ...]:
        """Return a client's notes, or one fitting's, in the order they were made."""
        owner = self._client_row(client_code)
        wanted = (
            select(ObservationRow)
            .join(FittingRow, col(FittingRow.id) == col(ObservationRow.fitting_id))
            .join(GarmentRow, col(GarmentRow.id) == col(FittingRow.garment_id))
            .where(GarmentRow.client_id == owner.id)
        )
        if fitting_id is not None:
            wanted = wanted.where(FittingRow.fitting_id == fitting_id)
        rows = self.work.exec(wanted.order_by(col(FittingRow.id), col(ObservationRow.number))).all()
        return tuple(self._note_from(row) for row in rows)

    def next_note_number(self, fitting_id: str) -> int:
        """Return the number the next note of a fitting has."""
        fitting = self._fitting_row(fitting_id)
        numbers = self.work.exec(
            select(ObservationRow.number).where(ObservationRow.fitting_id == fitting.id)
        ).all()
        return max(numbers, default=0) + 1

    def change_note(self, client_code: str, note: Observation) -> None:
        """Replace what a note says or what became of it; the journal keeps how it stood.

        Raises:
            UnknownClient, UnknownNote: it is no note of hers.
            NotStored: it would go to another fitting.
        """
        owner = self._client_row(client_code)
        row = self._note_row(note.observation_id)
        fitting = self._referred(FittingRow, row.fitting_id)
        self._check_owner(client_code, owner, fitting)
        old = self._note_from(row)
        if (old.fitting_id, old.number) != (note.fitting_id, note.number):
            raise NotStored(
                "a note stays with the fitting it was made at, under its number; make a new one"
            )
        if old == note:
            return
        for name, value in codec.note_fields(note).items():
            setattr(row, name, value)
        self._refer(row, note, owner.id)
        self.work.add(row)
        told = f"is now {note.state}" if old.state is not note.state else "was changed"
        self._write_down(
            f"note {note.number} of the fitting of {fitting.held_on} {told}", "note",
            note.observation_id, note_record(old), note_record(note), owner.id,
        )  # fmt: skip
        self.work.flush()

    def find_notes(self, words: str) -> tuple[tuple[str, Observation], ...]:
        """Return the notes with all these words, with their client's code; best match first.

        Accents do not matter; a star stands for the rest of a word.
        """
        found = []
        for row_id in matching_rows(self.driver, words):
            row = self._referred(ObservationRow, row_id)
            fitting = self._referred(FittingRow, row.fitting_id)
            owner = self._referred(ClientRow, self._owner_of(fitting))
            found.append((owner.code, self._note_from(row)))
        return tuple(found)

    # -- rows ------------------------------------------------------------------------------

    def _free(
        self, table: type[GarmentRow] | type[FittingRow] | type[ObservationRow],
        same: bool, what: str,
    ) -> None:  # fmt: skip
        if self.work.exec(select(table).where(same)).first() is not None:
            raise NotStored(f"a {what} with this id is in the store already")

    def _cut_from(self, garment: Garment, client_id: int | None) -> int | None:
        if garment.cut_from is None:
            return None
        return self._version_at(garment.cut_from, client_id, "a garment").id

    def _refer(self, row: ObservationRow, note: Observation, client_id: int | None) -> None:
        row.dealt_with_in_id = (
            None
            if note.dealt_with_in is None
            else self._version_at(note.dealt_with_in, client_id, f"note {note.number}").id
        )
        row.settled_at_id = None
        if note.settled_at is not None:
            later = self._fitting_row(note.settled_at)
            if self._owner_of(later) != client_id:
                raise UnknownFitting(
                    f"note {note.number} cannot be settled at another client's fitting"
                )
            row.settled_at_id = later.id

    def _check_owner(self, client_code: str, owner: ClientRow, fitting: FittingRow) -> None:
        if self._owner_of(fitting) != owner.id:
            raise UnknownFitting(
                f"{client_code} has no fitting {fitting.fitting_id!r}; it is another client's"
            )

    def _owner_of(self, fitting: FittingRow) -> int:
        return self._referred(GarmentRow, fitting.garment_id).client_id

    def _garment_row(self, garment_id: str) -> GarmentRow:
        row = self.work.exec(select(GarmentRow).where(GarmentRow.garment_id == garment_id)).first()
        if row is None:
            raise UnknownGarment(f"no garment has the id {garment_id!r}")
        return row

    def _fitting_row(self, fitting_id: str) -> FittingRow:
        row = self.work.exec(select(FittingRow).where(FittingRow.fitting_id == fitting_id)).first()
        if row is None:
            raise UnknownFitting(f"no fitting has the id {fitting_id!r}")
        return row

    def _note_row(self, observation_id: str) -> ObservationRow:
        row = self.work.exec(
            select(ObservationRow).where(ObservationRow.observation_id == observation_id)
        ).first()
        if row is None:
            raise UnknownNote(f"no note has the id {observation_id!r}")
        return row

    def _garment_from(self, row: GarmentRow) -> Garment:
        with readable(f"the {row.cloth} garment of {row.made_on}"):
            return codec.garment_of(row, self._address_of(row.cut_from_id))

    def _fitting_from(self, row: FittingRow) -> Fitting:
        garment = self._referred(GarmentRow, row.garment_id)
        with readable(f"the fitting of {row.held_on}"):
            return codec.fitting_of(row, garment.garment_id)

    def _note_from(self, row: ObservationRow) -> Observation:
        fitting = self._referred(FittingRow, row.fitting_id)
        settled = None
        if row.settled_at_id is not None:
            settled = self._referred(FittingRow, row.settled_at_id).fitting_id
        with readable(f"note {row.number} of the fitting of {fitting.held_on}"):
            return codec.note_of(
                row, fitting.fitting_id, self._address_of(row.dealt_with_in_id), settled
            )
