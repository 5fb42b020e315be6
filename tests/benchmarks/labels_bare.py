"""The marks of labels by ReportLab and qrcode alone, with no layout: marks as JSON, PDF to write."""

import json
import sys
from pathlib import Path
from typing import Any

import qrcode
from qrcode.util import MODE_ALPHA_NUM, QRData
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

FONTS = Path(__file__).parents[2] / "tacklebox" / "printing" / "fonts"
REGULAR, BOLD = "DejaVuSansCondensed", "DejaVuSansCondensed-Bold"


def draw(canvas: Any, strokes: list[Any]) -> None:
    """A drawing, shape by shape."""
    for what, transform, width, shade, numbers in strokes:
        canvas.saveState()
        canvas.transform(*transform)
        canvas.setLineWidth(width)
        if shade is not None:
            canvas.setFillGray(shade)
        fill = int(shade is not None)
        match what:
            case "text":
                x, y, text, size = numbers
                canvas.setFillGray(0)
                canvas.setFont(REGULAR, size)
                canvas.drawRightString(x, y, text)
            case "line":
                canvas.line(*numbers)
            case "circle":
                canvas.circle(*numbers, fill=fill)
            case "ellipse":
                x, y, across, up = numbers
                canvas.ellipse(x - across, y - up, x + across, y + up, fill=fill)
            case "rect":
                canvas.rect(*numbers, fill=fill)
            case "polygon":
                path = canvas.beginPath()
                path.moveTo(*numbers[:2])
                for n in range(2, len(numbers), 2):
                    path.lineTo(*numbers[n : n + 2])
                path.close()
                canvas.drawPath(path, fill=fill)
            case "path":
                operators, points = numbers
                path = canvas.beginPath()
                at = 0
                for operator in operators:
                    count = (2, 2, 6, 0)[operator]
                    step = (path.moveTo, path.lineTo, path.curveTo, path.close)[operator]
                    step(*points[at : at + count])
                    at += count
                canvas.drawPath(path, fill=fill)
        canvas.restoreState()


def main() -> None:
    """Draw every word, QR and drawing where it was."""
    source, target = sys.argv[1:]
    marks = json.loads(Path(source).read_text(encoding="utf-8"))
    for face in (REGULAR, BOLD):
        pdfmetrics.registerFont(TTFont(face, str(FONTS / f"{face}.ttf")))
    canvas = Canvas(target, pagesize=marks["page"], pageCompression=1)
    for number, drawing in enumerate(marks["drawings"]):
        canvas.beginForm(f"d{number}", 0, 0, drawing["width"], drawing["height"])
        draw(canvas, drawing["strokes"])
        canvas.endForm()
    page = 0
    for label in marks["labels"]:
        if label["page"] > page:
            canvas.showPage()
            page = label["page"]
        for x, y, size, runs in label["lines"]:
            text = canvas.beginText(x, y)
            for words, bold in runs:
                text.setFont(BOLD if bold else REGULAR, size)
                text.textOut(words)
            canvas.drawText(text)
        x, y, number = label["drawing"]
        canvas.saveState()
        canvas.translate(x, y)
        canvas.doForm(f"d{number}")
        canvas.restoreState()
        x, y, module, words = label["qr"]
        symbol = qrcode.QRCode(error_correction=qrcode.constants.ERROR_CORRECT_M, border=0)
        symbol.add_data(QRData(words, mode=MODE_ALPHA_NUM))
        symbol.make(fit=True)
        high = len(symbol.modules)
        path = canvas.beginPath()
        for row, modules in enumerate(symbol.modules):
            for column, dark in enumerate(modules):
                if dark:
                    path.rect(x + column * module, y + (high - 1 - row) * module, module, module)
        canvas.drawPath(path, stroke=0, fill=1)
    canvas.save()


if __name__ == "__main__":
    main()
