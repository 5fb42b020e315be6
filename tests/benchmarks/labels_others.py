"""The same labels by other tools: tool, marks as JSON, and the PDF to write.

Words lie where they lay, QRs and drawings are pictures, as a person would place them.
"""

import base64
import io
import json
import subprocess
import sys
from html import escape
from importlib import import_module
from pathlib import Path
from typing import Any

FONTS = Path(__file__).parents[2] / "tacklebox" / "printing" / "fonts"
FACES = ("DejaVuSansCondensed", "DejaVuSansCondensed-Bold")


def qr_picture(words: str) -> Any:
    """A QR as a picture."""
    import qrcode

    symbol = qrcode.QRCode(error_correction=qrcode.constants.ERROR_CORRECT_M, border=0, box_size=4)
    symbol.add_data(words)
    symbol.make(fit=True)
    return symbol.make_image().get_image()


def _plainer(svg: str) -> str:
    """What fpdf2 can read: it knows no colours in percent, and stumbles over the clipping path."""
    svg = svg.replace("clip-path: url(#clip)", "")
    return svg.replace("rgb(0%,0%,0%)", "black").replace("rgb(100%,100%,100%)", "white")


def fpdf2(marks: dict[str, Any], target: Path) -> None:
    """By fpdf2's own drawing of text, pictures and SVG."""
    width, height = marks["page"]
    pdf = import_module("fpdf").FPDF(unit="pt", format=(width, height))
    pdf.set_auto_page_break(False)
    for style, face in zip(("", "B"), FACES, strict=True):
        pdf.add_font("label", style, str(FONTS / f"{face}.ttf"))
    svgs = [io.BytesIO(_plainer(drawing["svg"]).encode()) for drawing in marks["drawings"]]
    page = -1
    for label in marks["labels"]:
        if label["page"] > page:
            pdf.add_page()
            page = label["page"]
        for x, y, size, runs in label["lines"]:
            for words, bold in runs:
                pdf.set_font("label", "B" if bold else "", size)
                pdf.text(x, height - y, words)
                x += pdf.get_string_width(words)
        x, y, module, words = label["qr"]
        picture = qr_picture(words)
        side = picture.width / 4 * module
        pdf.image(picture, x, height - y - side, side, side)
        x, y, number = label["drawing"]
        drawing = marks["drawings"][number]
        svgs[number].seek(0)
        pdf.image(
            svgs[number], x, height - y - drawing["height"], drawing["width"], drawing["height"]
        )
    pdf.output(str(target))


def page_html(marks: dict[str, Any]) -> str:
    """The labels as a page for a browser's layout."""
    width, height = marks["page"]
    pictures = [base64.b64encode(d["svg"].encode()).decode() for d in marks["drawings"]]
    pages: dict[int, list[str]] = {}
    for label in marks["labels"]:
        out = pages.setdefault(label["page"], [])
        for x, y, size, runs in label["lines"]:
            words = "".join(f"<b>{escape(w)}</b>" if bold else escape(w) for w, bold in runs)
            top = height - y - size
            out.append(
                f'<p style="left:{x:.2f}pt;top:{top:.2f}pt;font-size:{size:.2f}pt">{words}</p>'
            )
        x, y, module, words = label["qr"]
        picture = qr_picture(words)
        side, file = picture.width / 4 * module, io.BytesIO()
        picture.save(file, "PNG")
        png = base64.b64encode(file.getvalue()).decode()
        out.append(
            f'<img style="left:{x:.2f}pt;top:{height - y - side:.2f}pt;width:{side:.2f}pt" '
            f'src="data:image/png;base64,{png}">'
        )
        x, y, number = label["drawing"]
        drawing = marks["drawings"][number]
        top = height - y - drawing["height"]
        out.append(
            f'<img style="left:{x:.2f}pt;top:{top:.2f}pt;width:{drawing["width"]:.2f}pt" '
            f'src="data:image/svg+xml;base64,{pictures[number]}">'
        )
    faces = "".join(
        f'@font-face{{font-family:label;font-weight:{weight};src:url("{(FONTS / face).as_uri()}.ttf")}}'
        for weight, face in zip(("normal", "bold"), FACES, strict=True)
    )
    style = (
        f"{faces}@page{{size:{width:.2f}pt {height:.2f}pt;margin:0}}body{{margin:0;font-family:label}}"
        f"section{{position:relative;height:{height:.2f}pt;page-break-after:always}}"
        "p,img{position:absolute;margin:0;line-height:1;white-space:pre}"
    )
    body = "".join(f"<section>{''.join(out)}</section>" for out in pages.values())
    return f'<!doctype html><meta charset="utf-8"><style>{style}</style>{body}'


def weasyprint(marks: dict[str, Any], target: Path) -> None:
    """By WeasyPrint, from a page of HTML."""
    html = import_module("weasyprint").HTML
    html(string=page_html(marks)).write_pdf(target)


def libreoffice(marks: dict[str, Any], target: Path) -> None:
    """By LibreOffice, from the same page of HTML."""
    source = target.with_suffix(".html")
    source.write_text(page_html(marks), encoding="utf-8")
    subprocess.run(
        ["soffice", "--headless", "--convert-to", "pdf", "--outdir", str(target.parent),
         str(source)],
        check=True,
    )  # fmt: skip


def main() -> None:
    """Make the labels by the tool asked for."""
    tool, source, target = sys.argv[1:]
    marks = json.loads(Path(source).read_text(encoding="utf-8"))
    tools = {"fpdf2": fpdf2, "weasyprint": weasyprint, "libreoffice": libreoffice}
    tools[tool](marks, Path(target))


if __name__ == "__main__":
    main()
