"""Printed pages read back, for the tests.

Letters are read by pdfminer without what is drawn between them, which would take it several times as long;
words and shapes by PDFium. ``test_readers`` has a third reader, of whole pages, find the same.
"""

import ctypes
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pypdfium2
import pypdfium2.raw as pdfium
import zxingcpp
from pdfminer.converter import PDFLayoutAnalyzer
from pdfminer.layout import LTChar, LTFigure, LTPage
from pdfminer.pdfinterp import PDFPageInterpreter, PDFResourceManager
from pdfminer.pdfpage import PDFPage
from pdfminer.pdftypes import PDFStream, stream_value
from PIL.Image import Image
from pypdfium2 import PdfMatrix

from tacklebox.printing.labels.papers import Paper

MM = 72 / 25.4
Rect = tuple[
    float, float, float, float
]  # left, top, right, bottom in mm from the page's upper left
DRAWN = re.compile(rb"(?m)^n [^(\n]*$")  # a path, on a line of its own


@dataclass(frozen=True)
class Read:
    """A page that was read: its size, its letters in the order they were laid, and its drawn shapes.

    In points from the upper left.
    """

    width: float
    height: float
    letters: list[dict[str, Any]]
    shapes: list[list[tuple[float, float]]]  # the corners of each

    @property
    def squares(self) -> list[float]:
        """The sides of all squares."""
        sides = []
        for shape in self.shapes:
            across, down = zip(*shape, strict=True)
            width, height = max(across) - min(across), max(down) - min(down)
            if len(set(shape)) == 4 and abs(width - height) < 0.1:
                sides.append(width)
        return sides


def pages_of(path: Path) -> list[Read]:
    """Every page of a PDF."""
    document = pypdfium2.PdfDocument(path)
    try:
        return [
            Read(page.get_width(), page.get_height(), letters, _shapes(page))
            for page, letters in zip(document, letters_of(path), strict=True)
        ]
    finally:
        document.close()


def letters_of(path: Path) -> list[list[dict[str, Any]]]:
    """All letters with their boxes, by page."""
    letters = _Letters(PDFResourceManager())
    words = _WordsAlone(letters.rsrcmgr, letters)
    with path.open("rb") as opened:
        for page in PDFPage.get_pages(opened):
            words.process_page(page)
    return letters.pages


class _Letters(PDFLayoutAnalyzer):
    """Gathers the letters of each page."""

    def __init__(self, resources: PDFResourceManager) -> None:
        super().__init__(resources, laparams=None)
        self.pages: list[list[dict[str, Any]]] = []

    def receive_layout(self, ltpage: LTPage) -> None:
        height = ltpage.height
        self.pages.append(
            [
                {
                    "text": char.get_text(), "fontname": char.fontname, "size": char.size,
                    "x0": char.x0, "x1": char.x1, "top": height - char.y1, "bottom": height - char.y0,
                }
                for char in _chars(ltpage)
            ]
        )  # fmt: skip


def _chars(within: LTPage | LTFigure) -> Iterator[LTChar]:
    for one in within:
        if isinstance(one, LTChar):
            yield one
        elif isinstance(one, LTFigure):
            yield from _chars(one)


class _WordsAlone(PDFPageInterpreter):
    """Leaves out what is drawn."""

    def execute(self, streams: Sequence[object]) -> None:
        words = []
        for stream in map(stream_value, streams):
            without = PDFStream({}, DRAWN.sub(b"", stream.get_data()))
            without.set_objid(stream.objid or 0, stream.genno or 0)
            words.append(without)
        super().execute(words)


def _shapes(page: Any) -> list[list[tuple[float, float]]]:
    height, raw = page.get_height(), page.raw
    drawn = [pdfium.FPDFPage_GetObject(raw, n) for n in range(pdfium.FPDFPage_CountObjects(raw))]
    return [[(x, height - y) for x, y in shape] for shape in _corners(drawn, PdfMatrix())]


def _corners(drawn: list[Any], moved: PdfMatrix) -> Iterator[list[tuple[float, float]]]:
    matrix = pdfium.FS_MATRIX()
    for one in drawn:
        kind = pdfium.FPDFPageObj_GetType(one)
        pdfium.FPDFPageObj_GetMatrix(one, matrix)
        at = PdfMatrix.from_raw(matrix).multiply(moved)
        if kind == pdfium.FPDF_PAGEOBJ_FORM:
            count = pdfium.FPDFFormObj_CountObjects(one)
            yield from _corners([pdfium.FPDFFormObj_GetObject(one, n) for n in range(count)], at)
        elif kind == pdfium.FPDF_PAGEOBJ_PATH:
            yield from _shapes_of(one, at)


def _shapes_of(path: Any, at: PdfMatrix) -> Iterator[list[tuple[float, float]]]:
    """The corners of each piece that is drawn without the pen being lifted."""
    x, y = ctypes.c_float(), ctypes.c_float()
    shape: list[tuple[float, float]] = []
    for number in range(pdfium.FPDFPath_CountSegments(path)):
        segment = pdfium.FPDFPath_GetPathSegment(path, number)
        if pdfium.FPDFPathSegment_GetType(segment) == pdfium.FPDF_SEGMENT_MOVETO and shape:
            yield shape
            shape = []
        pdfium.FPDFPathSegment_GetPoint(segment, x, y)
        shape.append(at.on_point(x.value, y.value))
    if shape:
        yield shape


def place_of(paper: Paper, place: int) -> Rect:
    """The edge of a label (0: the first)."""
    x, y = paper.corner_of(place % paper.places)
    top = paper.page.height - y - paper.label.height
    return x, top, x + paper.label.width, top + paper.label.height


def words_of_page(path: Path, page: int = 0) -> str:
    """The words of a page, as a person reads them."""
    document = pypdfium2.PdfDocument(path)
    try:
        return " ".join(document[page].get_textpage().get_text_range().split())
    finally:
        document.close()


def text_of(path: Path, paper: Paper, place: int) -> str:
    """The words printed on a label."""
    left, top, right, bottom = (side * MM for side in place_of(paper, place))
    document = pypdfium2.PdfDocument(path)
    try:
        page = document[place // paper.places]
        height = page.get_height()
        found = page.get_textpage().get_text_bounded(left, height - bottom, right, height - top)
        return " ".join(found.split())
    finally:
        document.close()


def rendered(path: Path, dpi: int, page: int = 0) -> Image:
    """A page as a printer would lay it down."""
    image = pypdfium2.PdfDocument(path)[page].render(scale=dpi / 72, grayscale=True).to_pil()
    assert isinstance(image, Image)
    return image


def cut_out(image: Image, box: Rect, dpi: int) -> Image:
    """One label's piece of a rendered page."""
    left, top, right, bottom = (round(side * dpi / 25.4) for side in box)
    return image.crop((left, top, right, bottom))


def qr_texts(image: Image, *, all_codes: bool = False) -> list[str]:
    """What a reader finds in a picture; with ``all_codes`` it looks for every other kind of code too.

    That takes it ten times as long.
    """
    if all_codes:
        found = zxingcpp.read_barcodes(image)
    else:
        only = zxingcpp.BarcodeFormats(zxingcpp.BarcodeFormat.QRCode)
        found = zxingcpp.read_barcodes(image, formats=only)
    assert all(code.format == zxingcpp.BarcodeFormat.QRCode for code in found)
    return [code.text for code in found]
