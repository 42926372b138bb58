"""From the text of a file to a pattern, whatever of ours or of an open standard it is."""

import re
from dataclasses import replace

from tracker.tracing.dxf_in import tracing_of_dxf
from tracker.tracing.faults import Fault, Faults, NotATracing
from tracker.tracing.json_rows import rows_of_json
from tracker.tracing.making import Traced, made
from tracker.tracing.reading import tracing_of
from tracker.tracing.rows import rows_of_csv
from tracker.tracing.svg_in import tracing_of_svg

#: Files larger than this were not meant: a picture in a drawing, or another sort of file.
MOST_BYTES = 4_000_000


def text_of(content: bytes) -> str:
    """Return a file's text, however a spreadsheet saved it.

    Raises:
        NotATracing: it is no text, or far too much of it.
    """
    if len(content) > MOST_BYTES:
        raise NotATracing(
            (Fault(0, f"this file has {len(content) / 1e6:.0f} MB; a traced pattern has one at "
                      "most: leave pictures out of it"),)
        )  # fmt: skip
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        text = content.decode("utf-16", errors="replace")
    else:
        try:
            text = content.decode("utf-8-sig")
        except UnicodeDecodeError:
            text = content.decode("cp1252", errors="replace")
    if "\0" in text:
        raise NotATracing((Fault(0, "this is no text file; save the table as CSV first"),))
    if not text.strip():
        raise NotATracing((Fault(0, "this file is empty"),))
    return text


def traced_in(text: str) -> Traced:
    """Read a tracing's text and make a pattern of it: CSV, JSON, SVG or DXF, told by its beginning.

    Raises:
        NotATracing: it cannot be read, or makes no pattern; every fault is told with its line.
    """
    faults = Faults()
    start = text.lstrip()[:1]
    notes: list[str] = []
    if re.match(r"\s*(0|999)\s*\r?\n", text):
        tracing = tracing_of_dxf(text, faults, notes)
    elif start == "<":
        tracing = tracing_of_svg(text, faults)
    elif start in "{[":
        tracing = tracing_of(rows_of_json(text, faults), faults)
    else:
        tracing = tracing_of(rows_of_csv(text, faults), faults)
    traced = made(tracing, faults)
    return replace(traced, notes=(*notes, *traced.notes))
