"""The same marks as a sheet of labels, by ReportLab and qrcode alone, with no layout.

Arguments: the marks of a sheet as JSON, and the PDF to write.
"""

import json
import sys
from pathlib import Path

import qrcode
from reportlab.lib.pagesizes import A4
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

FONTS = Path(__file__).parents[2] / "tacklebox" / "printing" / "fonts"


def main() -> None:
    """Draw every line of text where it was, and each QR."""
    source, target = sys.argv[1:]
    marks = json.loads(Path(source).read_text(encoding="utf-8"))
    for face in ("DejaVuSansCondensed", "DejaVuSansCondensed-Bold"):
        pdfmetrics.registerFont(TTFont(face, str(FONTS / f"{face}.ttf")))
    canvas = Canvas(target, pagesize=A4, pageCompression=1)
    for x, y, size, text in marks["lines"]:
        canvas.setFont("DejaVuSansCondensed-Bold" if size > 7 else "DejaVuSansCondensed", size)
        canvas.drawString(x, y, text)
    for index, text in enumerate(marks["symbols"]):
        symbol = qrcode.QRCode(error_correction=qrcode.constants.ERROR_CORRECT_M, border=0)
        symbol.add_data(text)
        symbol.make(fit=True)
        left, top = 30 + index % 5 * 115, 800 - index // 5 * 60
        path = canvas.beginPath()
        for row, modules in enumerate(symbol.modules):
            for column, dark in enumerate(modules):
                if dark:
                    path.rect(left + column * 0.94, top - row * 0.94, 0.94, 0.94)
        canvas.drawPath(path, stroke=0, fill=1)
    canvas.save()


if __name__ == "__main__":
    main()
