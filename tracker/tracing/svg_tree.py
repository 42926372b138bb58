"""The elements of an SVG drawing with the lines they stand on, and their place in millimetres."""

import math
import re
import xml.parsers.expat
from collections.abc import Iterator
from dataclasses import dataclass, field

from tracker.geometry.point import Point
from tracker.tracing.faults import Faults

#: What is in these is not drawn where it stands (SVG 2, chapter 5).
NOT_DRAWN = {"defs", "symbol", "clipPath", "mask", "marker", "pattern", "metadata", "style"}
_PER_UNIT = {"mm": 1.0, "cm": 10.0, "in": 25.4, "pt": 25.4 / 72, "pc": 25.4 / 6, "q": 0.25}
_SIZE = re.compile(r"\s*([-+]?[\d.]+(?:[eE][-+]?\d+)?)\s*([a-zA-Z%]*)\s*")
_MOVE = re.compile(r"\s*,?\s*(\w+)\s*\(([^)]*)\)")


@dataclass(slots=True)
class Node:
    """An element."""

    tag: str
    attributes: dict[str, str]
    line: int
    children: list["Node"] = field(default_factory=list)
    text: str = ""

    def said(self, tag: str) -> str:
        """Return the words of the first child of a tag, or ""."""
        found = next((c.text for c in self.children if c.tag == tag), "")
        return found if tag == "metadata" else " ".join(found.split())

    @property
    def name(self) -> str:
        """Its title, or else its id with underscores as blanks."""
        return self.said("title") or self.attributes.get("id", "").replace("_", " ").strip()

    def all(self, tag: str) -> Iterator["Node"]:
        """Return every element of a tag, itself among them."""
        if self.tag == tag:
            yield self
        for child in self.children:
            yield from child.all(tag)


@dataclass(frozen=True, slots=True)
class Place:
    """An affine map: x' = a·x + c·y + e, y' = b·x + d·y + f."""

    a: float = 1.0
    b: float = 0.0
    c: float = 0.0
    d: float = 1.0
    e: float = 0.0
    f: float = 0.0

    def of(self, p: Point) -> Point:
        """Return where a point goes."""
        x, y = p.real, p.imag
        return complex(self.a * x + self.c * y + self.e, self.b * x + self.d * y + self.f)

    def after(self, inner: "Place") -> "Place":
        """Return the map of the inner one followed by this one."""
        i, o = inner, self
        return Place(
            o.a * i.a + o.c * i.b, o.b * i.a + o.d * i.b,
            o.a * i.c + o.c * i.d, o.b * i.c + o.d * i.d,
            o.a * i.e + o.c * i.f + o.e, o.b * i.e + o.d * i.f + o.f,
        )  # fmt: skip


def tree_of(text: str, faults: Faults) -> Node | None:
    """Read a drawing; nothing, with a fault told, where it is none."""
    reader = xml.parsers.expat.ParserCreate("UTF-8", " ")  # decoded already, whatever it says
    stack = [Node("", {}, 1)]

    def begin(tag: str, attributes: dict[str, str]) -> None:
        plain = {k.rpartition(" ")[2]: v for k, v in attributes.items() if " " not in k}
        node = Node(tag.rpartition(" ")[2], plain, reader.CurrentLineNumber)
        stack[-1].children.append(node)
        stack.append(node)

    def end(_: str) -> None:
        stack.pop()

    def words(some: str) -> None:
        stack[-1].text += some

    def declared(*_: object) -> None:
        raise ValueError("it declares entities, which a drawing has no need of")

    reader.StartElementHandler, reader.EndElementHandler = begin, end
    reader.CharacterDataHandler, reader.EntityDeclHandler = words, declared
    reader.buffer_text = True
    try:
        reader.Parse(text.encode(), True)
    except xml.parsers.expat.ExpatError as fault:
        why = xml.parsers.expat.errors.messages[fault.code]
        faults.tell(fault.lineno, f"this is not SVG ({why})")
        return None
    except ValueError as fault:
        faults.tell(reader.CurrentLineNumber, f"this drawing is not read: {fault}")
        return None
    root = stack[0].children[0]
    if root.tag != "svg":
        faults.tell(root.line, f"this is <{root.tag}>, not <svg>; save the drawing as plain SVG")
        return None
    return root


def full_scale(root: Node, faults: Faults) -> Place | None:
    """Return how the drawing's units become millimetres, y still down, its origin kept."""
    wide, high = (_mm(root.attributes.get(k, "")) for k in ("width", "height"))
    box = [
        float(n)
        for n in re.findall(r"[-+]?[\d.]+(?:[eE][-+]?\d+)?", root.attributes.get("viewBox", ""))
    ]
    if wide is None or high is None:
        faults.tell(
            root.line,
            "the drawing does not say how large it is; give its width and height in mm, cm or in, "
            "and a viewBox",
        )
        return None
    if len(box) != 4 or min(box[2:]) <= 0:
        # Without a viewBox one unit is a CSS pixel, 96 to the inch.
        return Place(25.4 / 96, 0, 0, 25.4 / 96)
    across, down = wide / box[2], high / box[3]
    if not math.isclose(across, down, rel_tol=1e-3):
        faults.tell(
            root.line,
            f"the width and height of the drawing do not fit its viewBox: one unit is "
            f"{across:.4g} mm across and {down:.4g} mm down",
        )
        return None
    return Place(across, 0, 0, across)


def _mm(text: str) -> float | None:
    found = _SIZE.fullmatch(text)
    if found is None:
        return None
    unit = found[2].lower() or "px"
    per = 25.4 / 96 if unit == "px" else _PER_UNIT.get(unit)
    size = float(found[1]) * per if per else 0.0
    return size if size > 0 else None


def place_of(node: Node, faults: Faults) -> Place:
    """Read an element's transform."""
    text, at, out = node.attributes.get("transform", ""), 0, Place()
    while text[at:].strip():
        found = _MOVE.match(text, at)
        step = _step(found[1], found[2]) if found else None
        if found is None or step is None:
            faults.tell(node.line, f"the transform “{text[at : at + 30]}” cannot be read")
            return Place()
        out, at = out.after(step), found.end()
    return out


def _step(word: str, inside: str) -> Place | None:
    try:
        n = [float(v) for v in re.split(r"[\s,]+", inside.strip())]
    except ValueError:
        return None
    if word == "matrix" and len(n) == 6:
        return Place(*n)
    if word == "translate" and len(n) in (1, 2):
        return Place(e=n[0], f=n[1] if len(n) == 2 else 0.0)
    if word == "scale" and len(n) in (1, 2):
        return Place(a=n[0], d=n[-1])
    if word == "rotate" and len(n) in (1, 3):
        cos, sin = math.cos(math.radians(n[0])), math.sin(math.radians(n[0]))
        turn = Place(cos, sin, -sin, cos)
        if len(n) == 1:
            return turn
        return Place(e=n[1], f=n[2]).after(turn).after(Place(e=-n[1], f=-n[2]))
    if word in ("skewX", "skewY") and len(n) == 1:
        slant = math.tan(math.radians(n[0]))
        return Place(c=slant) if word == "skewX" else Place(b=slant)
    return None
