"""The layout of a traced pattern: its tables, their columns, and what stands in each.

The same tables are written as CSV (one after another in one file, each under its name) and as
JSON (lists of objects). What is told here is what the program reads: ``described`` is the
document.
"""

from dataclasses import dataclass

#: Units a file may be kept in, and how each is written after a bare number.
UNITS = {
    "mm": "mm", "millimetre": "mm", "millimetres": "mm", "cm": "cm", "centimetre": "cm",
    "centimetres": "cm", "in": "in", "inch": "in", "inches": "in",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table.

    Attributes:
        name: its heading.
        says: what stands in it.
        needed: a row without it cannot be read.
        is_length: a length, in the file's unit unless the cell names another.
    """

    name: str
    says: str
    needed: bool = False
    is_length: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """A table: a name on a line of its own, a line of headings, and rows."""

    name: str
    says: str
    columns: tuple[Column, ...]

    def column(self, heading: str) -> Column | None:
        """Return a column by its heading."""
        return next((c for c in self.columns if c.name == heading), None)


PIECE = Column("piece", "the piece: front, back, sleeve …", needed=True)
X = Column("x", "to the right, from wherever you like on that piece's grid", True, True)
Y = Column("y", "upwards: towards the neck, or the waist of a skirt", True, True)
NUMBER = Column("point", "its number along the line; 3.5 comes between 3 and 4")
KIND = Column("kind", "corner, or curve where the line runs smoothly through")
SIDE = Column("body side", "of this: both, right, left or centre; else as the piece")
OF = Column("piece side", "which piece, where right and left are two pieces of one name")
NOTE = Column("note", "anything; it is kept with the file and not read")


def _table(name: str, says: str, *columns: Column) -> Table:
    return Table(name, says, (*columns, NOTE))


TABLES: dict[str, Table] = {
    table.name: table
    for table in (
        _table(
            "pieces",
            "one row a piece; leave it out where what is usual will do",
            PIECE,
            Column("body side", "both (a pair, or half on the fold), right, left or centre"),
            Column(
                "half",
                "right or left: which half of her lies there, right side up; else told by where "
                "its centre lies to its side",
            ),
            Column("layer", "shell, facing, lining or interfacing; else shell"),
            Column("copies", "how often what is drawn is in the garment; a fold counts twice"),
            Column("fold", "the edge that lies on the fold"),
            Column("cut", "the cut instruction, such as cut 2, a pair"),
            Column("taken from", "the piece a facing or lining follows"),
        ),
        _table(
            "points",
            "the outline, read off the paper along the sewing line, edge after edge all round",
            PIECE,
            Column("edge", "the edge: side, armhole, waist …", needed=True),
            NUMBER,
            X,
            Y,
            Column(
                "kind",
                f"{KIND.says}; square for a corner at a right angle; mouth for either end of a "
                "dart's mouth",
            ),
            Column("name", "of a corner (underarm point), or of the dart whose mouth it is"),
            SIDE,
            OF,
        ),
        _table(
            "edges",
            "lengths taken with the tape: of pieces without points, or to check points by",
            PIECE,
            Column("edge", "the edge", needed=True),
            Column("from", "the corner it begins at, going round the piece"),
            Column("to", "the corner it ends at"),
            Column("length", "as sewn, dart mouths left out; may stay empty", is_length=True),
            SIDE,
            OF,
        ),
        _table(
            "darts",
            "where a dart's two lines meet; two rows for a dart with two points",
            PIECE,
            Column("dart", "the dart: bust dart, waist dart …", needed=True),
            X,
            Y,
            Column("stand back", "how far short of that it is sewn", is_length=True),
            Column("pressed", "to the centre, down …"),
            SIDE,
            OF,
        ),
        _table(
            "legs",
            "points on a dart's lines between mouth and point, where they are not straight",
            PIECE,
            Column("dart", "the dart", needed=True),
            Column("leg", "1 or 2, going round the piece", needed=True),
            NUMBER,
            X,
            Y,
            KIND,
            SIDE,
            OF,
        ),
        _table(
            "notches",
            "by distance from a corner, or by where it is on the paper",
            PIECE,
            Column("notch", "its name, the same on both edges where they meet", needed=True),
            Column("edge", "the edge it is on", needed=True),
            Column("from", "the corner it is measured from"),
            Column("distance", "along the edge as sewn", is_length=True),
            Column("x", "instead of a distance", is_length=True),
            Column("y", "instead of a distance", is_length=True),
            Column("count", "1 single, 2 double, 3 triple; else 1"),
            SIDE,
            OF,
        ),
        _table("grain", "two rows a piece, the lower end first", PIECE, X, Y, OF),
        _table(
            "lines",
            "bust line, waist line, hip line …: two points or more, or the edge that is the line",
            PIECE,
            Column("line", "its name", needed=True),
            Column("stroke", "1, 2 … where it is broken; a dart breaks it by itself"),
            Column("x", "of a point of it", is_length=True),
            Column("y", "of a point of it", is_length=True),
            Column("edge", "instead of points: the edge that is the line"),
            SIDE,
            OF,
        ),
        _table(
            "marks",
            "named points: bust point, blade point …",
            PIECE,
            Column("mark", "its name", needed=True),
            X,
            Y,
            SIDE,
            OF,
        ),
        _table(
            "seams",
            "each side of a seam edge by edge in sewing order",
            Column("seam", "its name: side, shoulder, centre back …", needed=True),
            Column("sewn", "first or second: which side of the seam", needed=True),
            PIECE,
            Column("edge", "the edge", needed=True),
            Column("starts at", "the corner it is sewn from; else told by the corners' names"),
            SIDE,
            Column("seam side", "of the seam: both, right, left or centre"),
        ),
        _table(
            "matches",
            "notches that meet; those of one name on both sides meet without being told",
            Column("seam", "its name", needed=True),
            Column("first piece", "the piece on the first side", needed=True),
            Column("first", "its notch, or a corner the seam runs through", needed=True),
            Column("second piece", "the piece on the second side", needed=True),
            Column("second", "its notch, or a corner the seam runs through", needed=True),
            Column("seam side", "of the seam, where there are two of its name"),
        ),
        _table(
            "ease",
            "how much longer the second side of a seam is meant to be",
            Column("seam", "its name", needed=True),
            Column("amount", "second side less first side", True, True),
            Column("from", "a corner or a notch of the second side", needed=True),
            Column("to", "a corner or a notch of the second side", needed=True),
            Column("seam side", "of the seam, where there are two of its name"),
        ),
        _table(
            "girths",
            "the ease that is planned in the whole girth at a line",
            Column("line", "bust line, waist line …", needed=True),
            Column("ease", "in the whole garment", True, True),
        ),
    )
}

ABOUT = (
    "A traced pattern is a text file of tables. It begins with its unit, a line such as "
    "units,cm (mm, cm or inch); a cell may name another (3 1/8 in). Each table has its name on a "
    "line of its own, then a line of headings, then rows; only the tables you need, in any order, "
    "columns in any order. Commas, semicolons or tabs part the cells; a line that begins with # "
    "is a remark. A file that is nothing but points needs no names of tables.",
    "Go round each piece along the sewing line, in either direction, right side of the cloth up, "
    "neck up. An edge runs from corner to corner; its last point is the next edge's first, and "
    "may be written once or for both. Lines are drawn through the points to 0.3 mm and are "
    "bent sharply at corners only.",
    "As JSON it is one object with “units”, and a list of objects for each table.",
    "As SVG each piece is a group and each edge a path, named by title or id (or a path alone, "
    "named piece and edge: front.side), at full scale (width and height in mm, cm or in, and a "
    "viewBox). A title that begins with dart, notch, grain, line or mark is that; an edge with a "
    "dart is a path of two strokes. The other tables may stand in its metadata as CSV.",
    "DXF is read and written on the layers of ASTM D6673, Sewn Products Pattern Data "
    "Interchange: a piece is a block, its outline on layer 1 or its sewing line on 14, corners on "
    "2, notches on 4, fold on 6, grain on 7, lines inside on 8, drill holes on 13. It has no "
    "place for seams; write the version as csv, name them there, and trace that in.",
)


def described() -> list[tuple[str, list[tuple[str, str, bool]]]]:
    """Return each table's name and purpose, with its columns: heading, meaning, needed."""
    return [
        (f"{t.name}: {t.says}", [(c.name, c.says, c.needed) for c in t.columns])
        for t in TABLES.values()
    ]
