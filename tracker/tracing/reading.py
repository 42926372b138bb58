"""Rows into a tracing: each cell read for what it means, whatever is wrong told with its line."""

from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from tracker.errors import nearest_names
from tracker.geometry.point import Point
from tracker.pattern.bodyside import BodySide
from tracker.tracing.faults import Faults
from tracker.tracing.rows import Row, Rows
from tracker.tracing.seams_read import seams_of
from tracker.tracing.tracing import (
    Stop,
    TracedDart,
    TracedEdge,
    TracedLine,
    TracedMark,
    TracedNotch,
    TracedPiece,
    Tracing,
)

LAYERS = ("shell", "facing", "lining", "interfacing")
KINDS = ("corner", "curve", "square", "mouth")
Key = tuple[str, BodySide]


@dataclass(slots=True)
class Names:
    """Names as they were first written; capitals make no other name."""

    known: dict[str, str] = field(default_factory=dict)

    def of(self, text: str) -> str:
        """Return the name as it was first written."""
        return self.known.setdefault(text.casefold(), text)


class Reader:
    """Reads the rows of one file."""

    def __init__(self, rows: Rows, faults: Faults) -> None:
        self.rows, self.faults = rows, faults
        self.names = Names()
        self.pieces: dict[Key, TracedPiece] = {}

    # -- words -----------------------------------------------------------------------------

    def name(self, row: Row, heading: str) -> str:
        """Return a cell's name as it is written everywhere."""
        text = row.text(heading)
        return self.names.of(text) if text else ""

    def word(self, row: Row, heading: str, known: tuple[str, ...], usual: str) -> str:
        """Return a cell that has to be one of some words."""
        word = row.text(heading, usual).lower()
        if word not in known:
            said = [k for k in known if k]
            self.faults.tell(
                row.line,
                f"{heading} is {', '.join(said[:-1])} or {said[-1]}, not “{word}”."
                f"{nearest_names(word, list(known), 1)}",
            )
            return usual
        return word

    def side(self, row: Row, heading: str) -> BodySide | None:
        """Return a body side, or nothing where none was said."""
        if not row.text(heading):
            return None
        return BodySide(self.word(row, heading, tuple(BodySide), "both"))

    def whole(self, row: Row, heading: str, usual: int, most: int) -> int:
        """Return a whole number from 1."""
        text = row.text(heading, str(usual))
        if not text.isdigit() or not 1 <= int(text[:6]) <= most:
            self.faults.tell(
                row.line, f"{heading} is a whole number from 1 to {most}, not “{text}”"
            )
            return usual
        return int(text)

    def point(self, row: Row) -> Point | None:
        """Return x and y as a point; what cannot be read is told."""
        x = self.rows.length(row, "x", self.faults)
        y = self.rows.length(row, "y", self.faults)
        if (x is None) != (y is None) and bool(row.text("x")) != bool(row.text("y")):
            self.faults.tell(row.line, "a point needs both x and y")
        return None if x is None or y is None else complex(x, y)

    # -- pieces ----------------------------------------------------------------------------

    def declared(self) -> None:
        """Read the table of pieces."""
        for row in self.rows.of("pieces"):
            side = self.side(row, "body side") or BodySide.BOTH
            key = self.name(row, "piece"), side
            if key in self.pieces:
                self.faults.tell(
                    row.line,
                    f"the {key[0]} stands in line {self.pieces[key].line} already; give this one "
                    "another name or body side",
                )
                continue
            fold = self.name(row, "fold")
            self.pieces[key] = TracedPiece(
                *key,
                row.line,
                half=self.word(row, "half", ("right", "left"), "") if row.text("half") else "",
                layer=self.word(row, "layer", LAYERS, "shell"),
                copies=self.whole(row, "copies", 2 if side is BodySide.BOTH else 1, 99),
                fold=fold,
                cut=row.text("cut"),
                taken_from=self.name(row, "taken from"),
            )

    def key(self, row: Row) -> Key | None:
        """Return which piece a row is of; a piece nobody declared is there all the same."""
        name, said = self.name(row, "piece"), self.side(row, "piece side")
        sides = [side for known, side in self.pieces if known == name]
        if said is None and len(sides) > 1:
            said = self.side(row, "body side")
            if said not in sides:
                self.faults.tell(
                    row.line, f"there are two pieces called {name}; say which under “piece side”"
                )
                return None
        side = said or (sides[0] if sides else BodySide.BOTH)
        if (name, side) not in self.pieces:
            if self.rows.of("pieces") and sides:
                self.faults.tell(row.line, f"the {name} has no {side} piece; it has {sides[0]}")
                return None
            copies = 2 if side is BodySide.BOTH else 1
            self.pieces[name, side] = TracedPiece(name, side, row.line, copies=copies)
        return name, side

    def grouped(self, table: str, heading: str) -> dict[Key, dict[Key, list[Row]]]:
        """Return a table's rows by piece, and by name and body side within it."""
        out: dict[Key, dict[Key, list[Row]]] = {}
        for row in self.rows.of(table):
            piece = self.key(row)
            if piece is not None:
                name = self.name(row, heading) if heading else ""
                side = self.side(row, "body side") or piece[1]
                out.setdefault(piece, {}).setdefault((name, side), []).append(row)
        return out

    # -- what is on a piece ----------------------------------------------------------------

    def edges(self) -> None:
        """Read the tables of points and of edges."""
        by_tape = self.grouped("edges", "edge")
        for piece, edges in self.grouped("points", "edge").items():
            found = tuple(
                TracedEdge(*key, rows[0].line, self.stops(rows)) for key, rows in edges.items()
            )
            self.pieces[piece] = replace(self.pieces[piece], edges=found)
        for piece, edges in by_tape.items():
            known = {(e.name, e.side): e for e in self.pieces[piece].edges}
            drawn = bool(known)
            for key, rows in edges.items():
                self.once(rows, f"the {key[0]} of the {piece[0]}")
                row = rows[0]
                if drawn and key not in known:
                    self.faults.tell(
                        row.line,
                        f"the {piece[0]} has points, but none for its {key[0]}; give that points "
                        f"too, or leave it out.{nearest_names(key[0], [k[0] for k in known], 1)}",
                    )
                    continue
                edge = known.get(key, TracedEdge(*key, row.line))
                tape = self.rows.length(row, "length", self.faults)
                if tape is not None and tape <= 0:
                    self.faults.tell(row.line, f"the {key[0]} is longer than nothing")
                start, end = self.name(row, "from"), self.name(row, "to")
                known[key] = replace(edge, start=start, end=end, tape_mm=tape)
            self.pieces[piece] = replace(self.pieces[piece], edges=tuple(known.values()))

    def stops(self, rows: Iterable[Row]) -> tuple[Stop, ...]:
        """Read points in order of their numbers."""
        out: list[tuple[float, Stop]] = []
        seen: dict[float, int] = {}
        last = 0.0
        for row in rows:
            said = row.text("point").replace(",", ".")
            try:
                last = number = float(said) if said else last + 1
            except ValueError:
                self.faults.tell(row.line, f"point is its number along the line, not “{said}”")
                continue
            point = self.point(row)
            if number in seen:
                self.faults.tell(
                    row.line,
                    f"point {said or f'{number:g}'} of the {row.text('edge', row.text('dart'))} "
                    f"stands in line {seen[number]} already; number them in turn",
                )
            seen[number] = row.line
            kind = self.word(row, "kind", (*KINDS, ""), "")
            if kind == "mouth" and not row.text("name"):
                self.faults.tell(row.line, "name the dart whose mouth this is, under “name”")
            if point is not None:
                name = self.name(row, "name")
                square = kind == "square"
                stop = Stop(
                    point, "corner" if square else kind, name, row.line, f"{number:g}", square
                )
                out.append((number, stop))
        return tuple(stop for _, stop in sorted(out, key=lambda one: one[0]))

    def once(self, rows: list[Row], what: str) -> None:
        """Tell where something stands a second time."""
        for row in rows[1:]:
            self.faults.tell(row.line, f"{what} stands in line {rows[0].line} already")

    def darts(self) -> None:
        """Read the tables of darts and legs."""
        bent = self.grouped("legs", "dart")
        for piece, darts in self.grouped("darts", "dart").items():
            found = []
            for key, rows in darts.items():
                for row in rows[2:]:
                    self.faults.tell(row.line, f"the {key[0]} has two points already")
                points = tuple(p for row in rows if (p := self.point(row)) is not None)
                back = self.rows.length(rows[0], "stand back", self.faults) or 0.0
                if back < 0:
                    self.faults.tell(rows[0].line, "a dart is sewn short of its point, not past it")
                legs = bent.get(piece, {}).pop(key, [])
                found.append(
                    TracedDart(
                        *key,
                        rows[0].line,
                        points[:2],
                        back,
                        rows[0].text("pressed"),
                        self.legs(legs),
                    )
                )
            self.pieces[piece] = replace(self.pieces[piece], darts=tuple(found))
        for piece, rest in bent.items():
            for key, rows in rest.items():
                self.faults.tell(
                    rows[0].line, f"the {piece[0]} has no {key[0]} in its table of darts"
                )

    def legs(self, rows: list[Row]) -> tuple[tuple[Stop, ...], tuple[Stop, ...]]:
        """Read the points on a dart's two legs."""
        one = [r for r in rows if self.word(r, "leg", ("1", "2"), "1") == "1"]
        two = [r for r in rows if r not in one]
        return self.stops(one), self.stops(two)

    def notches(self) -> None:
        """Read the table of notches."""
        for piece, notches in self.grouped("notches", "notch").items():
            found = []
            for key, rows in notches.items():
                self.once(rows, f"the {key[0]} of the {piece[0]}")
                row = rows[0]
                away, spot = self.rows.length(row, "distance", self.faults), self.point(row)
                if away is None and spot is None and not row.text("distance") + row.text("x"):
                    self.faults.tell(
                        row.line, "say where the notch is: a corner and a distance, or x and y"
                    )
                if away is not None and not row.text("from"):
                    self.faults.tell(
                        row.line, "name the corner the distance is measured from, under “from”"
                    )
                found.append(
                    TracedNotch(
                        *key,
                        row.line,
                        self.name(row, "edge"),
                        self.name(row, "from"),
                        away,
                        spot,
                        self.whole(row, "count", 1, 3),
                    )
                )
            self.pieces[piece] = replace(self.pieces[piece], notches=tuple(found))

    def lines(self) -> None:
        """Read the tables of grain, lines and marks."""
        for piece, grains in self.grouped("grain", "").items():
            rows = [row for some in grains.values() for row in some]
            points = [p for row in rows if (p := self.point(row)) is not None]
            if len(rows) != 2:
                self.faults.tell(rows[0].line, f"the grain of the {piece[0]} takes two points")
            elif len(points) == 2:
                grain = (points[0], points[1])
                self.pieces[piece] = replace(self.pieces[piece], grain=grain)
        for piece, lines in self.grouped("lines", "line").items():
            found = tuple(self.line(key, rows) for key, rows in lines.items())
            self.pieces[piece] = replace(self.pieces[piece], lines=found)
        for piece, marks in self.grouped("marks", "mark").items():
            got = []
            for key, rows in marks.items():
                self.once(rows, f"the {key[0]} of the {piece[0]}")
                spot = self.point(rows[0])
                if spot is not None:
                    got.append(TracedMark(*key, rows[0].line, spot))
            self.pieces[piece] = replace(self.pieces[piece], marks=tuple(got))

    def line(self, key: Key, rows: list[Row]) -> TracedLine:
        """Read one material line."""
        strokes: dict[str, list[Point]] = {}
        edges = []
        for row in rows:
            point = self.point(row)
            if row.text("edge") and not row.text("x"):
                edges.append(self.name(row, "edge"))
            elif point is not None:
                strokes.setdefault(row.text("stroke", "1"), []).append(point)
            elif not row.text("x"):
                self.faults.tell(row.line, f"the {key[0]} needs x and y here, or an edge")
        for points in strokes.values():
            if len(points) < 2:
                self.faults.tell(rows[0].line, f"the {key[0]} takes two points at least")
        return TracedLine(*key, rows[0].line, tuple(map(tuple, strokes.values())), tuple(edges))


def tracing_of(rows: Rows, faults: Faults) -> Tracing:
    """Read the rows of a file.

    Raises:
        NotATracing: something cannot be read; every fault is told.
    """
    reader = Reader(rows, faults)
    lengths = any(
        row.text(c) for row in rows.rows for c in ("x", "y", "length", "distance", "amount")
    )
    if lengths and not rows.unit:
        faults.tell(0, "the file names no unit; begin it with a line such as units,cm")
    faults.stop_if_any()
    reader.declared()
    reader.edges()
    reader.darts()
    reader.notches()
    reader.lines()
    seams = seams_of(reader)
    girths = tuple(
        (reader.names.of(row.text("line")), mm)
        for row in rows.of("girths")
        if (mm := rows.length(row, "ease", faults)) is not None
    )
    if not reader.pieces:
        faults.tell(0, "there is no piece in this file; it needs points, or edges with lengths")
    faults.stop_if_any()
    return Tracing(tuple(reader.pieces.values()), seams, girths)
