"""Makes the README's pictures anew: ``python -m tests.pictures``."""

import tempfile
from pathlib import Path

import pypdfium2
from PIL import ImageOps
from reportlab.graphics import renderPDF
from reportlab.pdfgen.canvas import Canvas

from tacklebox.printing.drawing.rig import draw_upright
from tacklebox.rigs.recipes.file import Shelf
from tacklebox.rigs.tying.snapshot import Snapshot
from tacklebox.rigs.tying.tied import tied_with
from tacklebox.stock.care.box import open_box
from tests.cli.runs import ROOT, run

PICTURES = ROOT / ".pictures"
RIGS = ("waggler-insert-bulk", "feeder-running-paternoster", "pole-canal-shot")


def picture(pdf: Path, target: Path, dpi: int, height_mm: float | None = None) -> None:
    """The first page as PNG, its white margin cut off; only so much of its height."""
    image = pypdfium2.PdfDocument(pdf)[0].render(scale=dpi / 72).to_pil().convert("L")
    if height_mm is not None:
        image = image.crop((0, 0, image.width, round(height_mm * dpi / 25.4)))
    box = ImageOps.invert(image).getbbox()
    assert box is not None
    edge = 20
    image = ImageOps.expand(image.crop(box), edge, 255)
    image.quantize(16).save(target, optimize=True)


def main() -> None:
    """Run the demo; picture its labels, its pack list and the drawings of rigs."""
    PICTURES.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        run("demo", "--into", "demo", cwd=folder)
        picture(folder / "demo" / "labels.pdf", PICTURES / "labels.png", 220, 75)
        picture(folder / "demo" / "strips.pdf", PICTURES / "strips.png", 150, 175)
        picture(folder / "demo" / "pack.pdf", PICTURES / "pack.png", 100)
        tied = tied_with(open_box(folder / "demo" / "box"))
        snapshots = {t.recipe: Snapshot.from_json(t.snapshot) for t in tied}
        canvas = Canvas(str(folder / "rig.pdf"), pagesize=(600, 330))
        for index, recipe in enumerate(RIGS):
            renderPDF.draw(draw_upright(snapshots[recipe], 190, 300), canvas, 10 + 195 * index, 15)
        canvas.save()
        picture(folder / "rig.pdf", PICTURES / "rig.png", 130)
        box = folder / "demo" / "box"
        run("stock", "buy", "pole 4×12", box=box)  # the demo uses them up
        (PICTURES / "recipes").mkdir(exist_ok=True)
        for recipe in Shelf().names():
            drawn = PICTURES / "recipes" / f"{recipe}.svg"
            run("recipe", "draw", recipe, "--to", str(drawn), "--replace", box=box)


if __name__ == "__main__":
    main()
