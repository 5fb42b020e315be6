"""Printed pages read back, for the tests."""

from pathlib import Path
from typing import Any

import pdfplumber
import pypdfium2
import zxingcpp
from PIL.Image import Image

from tacklebox.printing.labels.papers import Paper

MM = 72 / 25.4
Rect = tuple[
    float, float, float, float
]  # left, top, right, bottom in mm from the page's upper left


def place_of(paper: Paper, place: int) -> Rect:
    """The edge of a label (0: the first)."""
    x, y = paper.corner_of(place % paper.places)
    top = paper.page.height - y - paper.label.height
    return x, top, x + paper.label.width, top + paper.label.height


def letters_of(path: Path) -> list[list[Any]]:
    """All letters with their boxes, by page."""
    with pdfplumber.open(path) as pdf:
        return [list(page.chars) for page in pdf.pages]


def text_of(path: Path, paper: Paper, place: int) -> str:
    """The words printed on a label."""
    with pdfplumber.open(path) as pdf:
        page = pdf.pages[place // paper.places]
        left, top, right, bottom = place_of(paper, place)
        inside = page.within_bbox((left * MM, top * MM, right * MM, bottom * MM), strict=False)
        return " ".join(str(inside.extract_text()).split())


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
