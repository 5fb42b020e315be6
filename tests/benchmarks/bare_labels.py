"""The same marks as a sheet of labels, by ReportLab and qrcode alone, with no layout.

Arguments: the marks of a sheet as JSON, the PDF to write, and the code of each label.
"""

import json
import sys
from pathlib import Path

import qrcode
from reportlab.lib.pagesizes import A4
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

WORDS = "POLE 4X12 HL 15CM 0.08MM 0.7KG H20 BL SPADE L 0.12MM 1.6KG DEPTH 120CM 2 8 AT 50CM"
FONTS = Path(__file__).parents[2] / "tacklebox" / "printing" / "fonts"


def main() -> None:
    """Draw every line of text where it was, and a QR of version 4 for each code."""
    marks, target, *codes = sys.argv[1:]
    for face in ("DejaVuSansCondensed", "DejaVuSansCondensed-Bold"):
        pdfmetrics.registerFont(TTFont(face, str(FONTS / f"{face}.ttf")))
    canvas = Canvas(target, pagesize=A4, pageCompression=1)
    for x, y, size, text in json.loads(Path(marks).read_text(encoding="utf-8"))["lines"]:
        canvas.setFont("DejaVuSansCondensed-Bold" if size > 7 else "DejaVuSansCondensed", size)
        canvas.drawString(x, y, text)
    for index, code in enumerate(codes):
        symbol = qrcode.QRCode(error_correction=qrcode.constants.ERROR_CORRECT_M, border=0)
        symbol.add_data(f"{code} {WORDS}")
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
