"""Makes the README's pictures anew: ``python -m tests.pictures``."""

import io
import math
import tempfile
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import pypdfium2
from PIL import Image, ImageOps
from reportlab.graphics import renderPDF, renderSVG
from reportlab.graphics.shapes import Drawing, Line, Polygon, Rect, String
from reportlab.lib.colors import white
from reportlab.pdfgen.canvas import Canvas

from tacklebox.desk import Desk, bank
from tacklebox.printing.drawing.rig import draw_upright
from tacklebox.printing.drawing.shapes import INK
from tacklebox.rigs.recipes.file import Shelf
from tacklebox.rigs.tying.snapshot import Snapshot
from tacklebox.rigs.tying.tied import tied_with
from tacklebox.stock.care.box import open_box
from tests.cli.runs import ROOT, run
from tests.desk.water_box import DAY, make_water_box
from tests.web.conftest import CHROMIUM, chromium, serving

if TYPE_CHECKING:
    from playwright.sync_api import ViewportSize

PICTURES = ROOT / ".pictures"
ROUND = ("stock", "check", "tie", "label", "plan", "pack", "debrief")
PAGES = {
    "bench": "/",
    "recipe": "/recipes/waggler-insert-bulk",
    "workbench": "/recipes/waggler-insert-bulk/edit",
    "match": "/matches/club-match",
}
SCREEN: "ViewportSize" = {"width": 1060, "height": 800}
RIGS = ("waggler-made-up", "feeder-running-paternoster", "pole-canal-shot")


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


def draw_round(words: Sequence[str], width: float = 560, height: float = 190) -> Drawing:
    """The round of an angler's week: its steps on a ring, each with an arrow to the next."""
    drawing = Drawing(width, height)
    places = []
    for index, word in enumerate(words):
        angle = math.pi / 2 - 2 * math.pi * index / len(words)
        x = width / 2 + (width / 2 - 60) * math.cos(angle)
        y = height / 2 + (height / 2 - 24) * math.sin(angle)
        places.append((x, y))
        drawing.add(Rect(x - 50, y - 15, 100, 30, rx=6, ry=6, fillColor=white, strokeColor=INK))
        drawing.add(String(x, y - 5, word, fontName="Helvetica", fontSize=15, textAnchor="middle"))
    for (x, y), (to_x, to_y) in zip(places, [*places[1:], places[0]], strict=True):
        far = math.hypot(to_x - x, to_y - y)
        along, up = (to_x - x) / far, (to_y - y) / far
        start, end = _edge(along, up), far - _edge(along, up) - 3
        tip_x, tip_y = x + along * end, y + up * end
        drawing.add(Line(x + along * start, y + up * start, tip_x, tip_y, strokeColor=INK))
        back_x, back_y = tip_x - 7 * along, tip_y - 7 * up
        drawing.add(
            Polygon(
                [
                    tip_x,
                    tip_y,
                    back_x - 4 * up,
                    back_y + 4 * along,
                    back_x + 4 * up,
                    back_y - 4 * along,
                ],
                fillColor=INK,
            )
        )
    return drawing


def _edge(along: float, up: float) -> float:
    """How far it is from the middle of a step's box to its edge, that way."""
    return min(53 / max(abs(along), 1e-9), 18 / max(abs(up), 1e-9))


def picture_pages(box: Path) -> None:
    """Pages of the bench as Chromium shows them, at the size of a small screen."""
    if CHROMIUM is None:
        print("There is no Chromium on this machine: the pictures of pages stay as they are.")
        return
    with serving(box) as served, chromium() as browser:
        page = browser.new_page(viewport=SCREEN)
        page.goto(served.address(f"/enter?token={served.door.new_token()}"))
        page.wait_for_url(served.address("/"))
        for name, path in PAGES.items():
            page.goto(served.address(path), wait_until="networkidle")
            image = Image.open(io.BytesIO(page.screenshot()))
            image.quantize(32).save(PICTURES / f"page-{name}.png", optimize=True)


def photograph_water_page(file: Path, target: Path) -> None:
    """The page for the water at noon on a phone, after a few fish."""
    with chromium() as browser:
        page = browser.new_page(viewport={"width": 360, "height": 780})
        page.clock.set_fixed_time(f"{DAY}T12:00:00")
        page.goto(file.as_uri())
        for name in ("Fish", "roach", "2 oz", "Same again", "Same again", "Cast"):
            page.get_by_role("button", name=name, exact=True).click()
            page.locator("#kept", has_text="✓").wait_for()
        page.evaluate("window.scrollTo(0, 0)")
        page.screenshot(path=target)
    Image.open(target).convert("L").quantize(16).save(target, optimize=True)


def main() -> None:
    """Run the demo; picture its labels, its pack list and the drawings of rigs."""
    PICTURES.mkdir(exist_ok=True)
    round_svg = renderSVG.drawToString(draw_round(ROUND))
    (PICTURES / "round.svg").write_text(round_svg, encoding="utf-8")
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        run("demo", "--into", "demo", cwd=folder)
        picture(folder / "demo" / "labels.pdf", PICTURES / "labels.png", 180, 80)
        picture(folder / "demo" / "sticky.pdf", PICTURES / "sticky.png", 220, 40)
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
        fall = ("--beside", "strung out", "--svg", str(PICTURES / "fall.svg"), "--replace")
        run("settle", "waggler-insert-bulk", *fall, box=box)
        picture_pages(box)
        water = Desk(make_water_box(folder / "water"), today=lambda: DAY)
        bank.page(water, "club", folder / "bank.html")
        photograph_water_page(folder / "bank.html", PICTURES / "bank.png")
        (PICTURES / "recipes").mkdir(exist_ok=True)
        for recipe in Shelf().names():
            drawn = PICTURES / "recipes" / f"{recipe}.svg"
            run("recipe", "draw", recipe, "--to", str(drawn), "--replace", box=box)


if __name__ == "__main__":
    main()
