"""Reading PDFs back: what is on the paper, in millimetres, from the file's own coordinates."""

import io
from dataclasses import dataclass

import pytest
from browsers import chromium as installed
from wardrobe import bodice

from tracker.geometry.curve import Curve
from tracker.output.order import PrintOrder

MM = 25.4 / 72
FLAGS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
]  # fmt: skip


@dataclass(frozen=True)
class Path:
    """A line on the paper: its chain in millimetres, its thickness and its dashes."""

    chain: Curve
    weight_mm: float
    dash_mm: tuple[float, ...]
    filled: bool


def paths_of(pdf: bytes, page: int = 0, *, forms: bool = True) -> list[Path]:
    """Follow a page's drawing operators (ISO 32000-1, 8.5), those of forms too if wanted."""
    from pypdf import PdfReader
    from pypdf.generic import ContentStream

    reader = PdfReader(io.BytesIO(pdf))
    out: list[Path] = []

    def run(stream, resources, matrix):
        weight, dash, stack = 1.0, (), []
        start, runs = 0j, []

        def at(x, y):
            a, b, c, d, e, f = matrix
            return complex(a * x + c * y + e, b * x + d * y + f) * MM

        for operands, operator in ContentStream(stream, reader).operations:
            n = [float(v) for v in operands] if operator in (b"m", b"l", b"c", b"w", b"cm") else []
            if operator == b"q":
                stack.append((matrix, weight, dash))
            elif operator == b"Q":
                matrix, weight, dash = stack.pop()
            elif operator == b"cm":
                matrix = times(n, matrix)
            elif operator == b"w":
                weight = n[0]
            elif operator == b"d":
                dash = tuple(round(float(v) * MM, 3) for v in operands[0])
            elif operator == b"m":
                start, runs = at(*n), []
            elif operator == b"l":
                runs.append((at(*n),))
            elif operator == b"c":
                runs.append((at(*n[:2]), at(*n[2:4]), at(*n[4:])))
            elif operator == b"h":
                runs.append((start,))
            elif operator in (b"S", b"f", b"f*", b"B"):
                if runs:
                    chain = Curve(start, tuple(runs))
                    out.append(Path(chain, round(weight * MM, 3), dash, operator != b"S"))
                runs = []
            elif operator == b"Do" and forms:
                form = resources["/XObject"][operands[0]].get_object()
                inner = [float(v) for v in form.get("/Matrix", (1, 0, 0, 1, 0, 0))]
                run(form, form.get("/Resources", resources), times(inner, matrix))

    sheet = reader.pages[page]
    run(sheet.get_contents(), sheet["/Resources"], [1, 0, 0, 1, 0, 0])
    return out


def times(n, m):
    a, b, c, d, e, f = n
    return [
        a * m[0] + b * m[2], a * m[1] + b * m[3], c * m[0] + d * m[2], c * m[1] + d * m[3],
        e * m[0] + f * m[2] + m[4], e * m[1] + f * m[3] + m[5],
    ]  # fmt: skip


@pytest.fixture
def order() -> PrintOrder:
    return PrintOrder(bodice(), "A-017", "bodice@3", "for a test garment", "25 November 2026")


@pytest.fixture
def read_paths():
    return paths_of


@pytest.fixture(scope="module")
def browser():
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play:
        chromium = play.chromium.launch(executable_path=installed(), args=FLAGS)
        yield chromium
        chromium.close()


@pytest.fixture
def show(browser, tmp_path):
    """Open a page from a folder, without a network; anything logged or asked for is noted."""
    context = browser.new_context(viewport={"width": 1100, "height": 900})
    context.set_offline(True)
    notes: list[str] = []

    def opened(html: str):
        file = tmp_path / "page.html"
        file.write_text(html, encoding="utf-8")
        page = context.new_page()
        page.on("console", lambda message: notes.append(message.text))
        page.on("pageerror", lambda error: notes.append(str(error)))
        page.on("request", lambda asked: notes.append(asked.url) if asked.url[:4] != "file" else 0)
        page.goto(file.as_uri())
        return page

    yield opened
    context.close()
    assert notes == []


@pytest.fixture
def least_contrast():
    """The least contrast of any words on a page with their ground, to 1 (WCAG 2.2, 1.4.3)."""

    def measured(page) -> float:
        return page.evaluate(
            """() => {
                const light = c => {
                    const [r, g, b] = c.match(/[\\d.]+/g).map(Number).map(v => v / 255)
                        .map(v => v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
                    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
                };
                const ground = e => {
                    for (; e; e = e.parentElement) {
                        const c = getComputedStyle(e).backgroundColor;
                        if (c !== 'rgba(0, 0, 0, 0)') return light(c);
                    }
                    return 1;
                };
                return Math.min(...[...document.querySelectorAll('main *')]
                    .filter(e => [...e.childNodes].some(n => n.nodeType === 3 && n.data.trim()))
                    .map(e => {
                        const s = getComputedStyle(e);
                        const a = light(e.closest('svg') ? s.fill : s.color), b = ground(e);
                        return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
                    }));
            }"""
        )

    return measured
