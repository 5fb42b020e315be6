"""Invented rigs of every method, as kept after tying, and invented items, for tests of printing."""

from dataclasses import replace
from datetime import date
from typing import Any

from tacklebox.rigs.tying.snapshot import Mark, Snapshot
from tacklebox.stock.naming.rows import as_row
from tacklebox.stock.naming.writing import write
from tacklebox.stock.notation import read_notation
from tacklebox.stock.tables import Figures, Item

LOOP = "figure-of-eight loop"


def _hooklength(length_mm: float, line: str, hook: str) -> tuple[Mark, ...]:
    return (
        Mark("loop", LOOP, "rig line", length_mm),
        Mark("loop", LOOP, line, length_mm),
        Mark("hook", hook.split()[0], f"hook {hook}", 0.0),
    )


def _shot(mark: str, mass_g: float, place: str, *from_hook_mm: float) -> tuple[Mark, ...]:
    return tuple(Mark("shot", mark, place, at, mass_g) for at in from_hook_mm)


WAGGLER = Snapshot(
    code="A05L",
    recipe="waggler-insert-bulk",
    name="Insert waggler, bulk and droppers",
    kind="rig",
    method="float",
    purpose="roach and skimmers near the bottom, still water and canal",
    tied_on="2026-03-05",
    size="5BB",
    carries="waggler 5BB insert",
    rig_line="nylon 0.14 mm 4.5 lb",
    hooklength="20 cm nylon 0.12 mm 1.6 kg",
    hook="18 barbless spade",
    shot="2 AAA at the float, 4 No 8 + 2 No 10 at 60 cm, 2 No 10 30 cm–45 cm",
    set_for="depth 1.8m",
    lengths={"depth": "1.8m"},
    outcome="sound",
    length_mm=2200.0,
    marks=(
        Mark("loop", LOOP, "main line", 2400.0),
        Mark("adaptor", "adaptor", "adaptor", 1800.0, held="one point"),
        Mark("float", "waggler insert", "waggler 5BB insert", 1800.0, held="one point"),
        *_shot("AAA", 0.8, "at the float", 1800.0, 1800.0),
        *_shot("No 8", 0.06, "bulk", 600.0, 600.0, 600.0, 600.0),
        *_shot("No 10", 0.04, "bulk", 600.0, 600.0),
        *_shot("No 10", 0.04, "droppers", 450.0, 300.0),
        *_hooklength(200.0, "hooklength line", "18 barbless spade"),
    ),
)

POLE = Snapshot(
    code="A01T",
    recipe="pole-canal-shot",
    name="Canal pole, shot",
    kind="rig",
    method="pole",
    purpose="small roach and gudgeon, canal, down the far shelf",
    tied_on="2026-03-05",
    size="4×12",
    carries="pole 4×12 tip 1.2 mm × 25 mm",
    rig_line="nylon 0.12 mm 1.6 kg",
    hooklength="15 cm nylon 0.08 mm 0.7 kg",
    hook="20 barbless spade",
    shot="2 No 8 at 50 cm, 2 No 10 20 cm–35 cm",
    set_for="depth 1.2 m",
    lengths={"depth": "1.2 m"},
    outcome="sound",
    length_mm=1550.0,
    marks=(
        Mark("elastic", "", "elastic 4", 1700.0),
        Mark("connector", "connector", "connector", 1700.0),
        Mark("loop", LOOP, "rig line", 1700.0),
        Mark("float", "pole", "pole 4×12", 1200.0, held="two points"),
        *_shot("No 8", 0.06, "bulk", 500.0, 500.0),
        *_shot("No 10", 0.04, "droppers", 350.0, 200.0),
        *_hooklength(150.0, "hooklength line", "20 barbless spade"),
    ),
)

OLIVETTE = replace(
    POLE,
    code="A11J",
    recipe="pole-deep-olivette",
    name="Deep pole, olivette",
    purpose="skimmers in deep still water",
    size="1.5 g",
    carries="pole 1.5 g",
    shot="olivette 1.3 g at 60 cm, 3 No 8 20 cm–50 cm",
    set_for="depth 3.2 m",
    lengths={"depth": "3.2 m"},
    length_mm=3550.0,
    marks=(
        Mark("loop", LOOP, "rig line", 3700.0),
        Mark("float", "pole", "pole 1.5 g", 3200.0, held="two points"),
        Mark("olivette", "1.3 g", "bulk", 600.0, 1.3),
        *_shot("No 8", 0.06, "droppers", 500.0, 350.0, 200.0),
        *_hooklength(150.0, "hooklength line", "20 barbless spade"),
    ),
)

STICK = replace(
    WAGGLER,
    code="A12H",
    recipe="stick-float",
    name="Stick float, strung out",
    purpose="roach and dace in steady streams",
    size="4 No 4",
    carries="stick 4 No 4",
    shot="13 No 8 + 1 No 12 spread 25 cm–1.6 m",
    marks=(
        Mark("float", "stick", "stick 4 No 4", 1800.0, held="two points"),
        *_shot("No 8", 0.06, "spread", *(1600.0 - 103.8 * n for n in range(13))),
        *_shot("No 12", 0.02, "spread", 250.0),
        *_hooklength(200.0, "hooklength line", "18 barbless spade"),
    ),
)

FEEDER = Snapshot(
    code="A07H",
    recipe="feeder-running-paternoster",
    name="Running paternoster feeder",
    kind="rig",
    method="feeder",
    purpose="bream and roach on still water and slow rivers",
    tied_on="2026-03-05",
    size="30 g",
    carries="feeder cage 30 g 40 ml",
    rig_line="nylon 0.20 mm 3.6 kg",
    hooklength="100 cm nylon 0.12 mm 1.6 kg",
    hook="16 barbless spade",
    shot="",
    set_for="",
    outcome="sound",
    length_mm=600.0,
    marks=(
        Mark("loop", LOOP, "main line", 1600.0),
        Mark("swivel", "swivel", "swivel size 14 12 kg", 1000.0),
        Mark("link swivel", "link swivel", "link swivel size 12 10 kg", 1000.0, held="runs free"),
        Mark("bead", "bead", "bead 4 mm", 1000.0, held="runs free"),
        Mark("feeder", "cage", "feeder cage 30 g 40 ml", 1000.0, 30.0, side_mm=203.2),
        *_hooklength(1000.0, "hooklength line", "16 barbless spade"),
    ),
)

METHOD = replace(
    FEEDER,
    code="A13F",
    recipe="feeder-in-line",
    name="Free-running in-line feeder",
    carries="feeder method 30 g",
    hooklength="10 cm nylon 0.17 mm 2.7 kg",
    hook="14 barbless eyed",
    length_mm=500.0,
    marks=(
        Mark("loop", LOOP, "main line", 600.0),
        Mark("feeder", "method", "feeder method 30 g", 130.0, 30.0, held="in line"),
        Mark("bead", "bead", "bead 4 mm", 115.0, held="runs free"),
        Mark("swivel", "swivel", "swivel size 14 12 kg", 100.0),
        *_hooklength(100.0, "hooklength line", "14 barbless eyed"),
    ),
)

BOMB = replace(
    METHOD,
    code="A14D",
    recipe="bomb-running",
    name="Running bomb",
    size="1/2 oz",
    carries="bomb 1/2 oz",
    hooklength="60 cm nylon 0.14 mm 2 kg",
    length_mm=600.0,
    marks=(
        Mark("loop", LOOP, "main line", 1200.0),
        Mark("link swivel", "link swivel", "link swivel size 12 10 kg", 600.0, held="runs free"),
        Mark("bomb", "bomb", "bomb 1/2 oz", 600.0, 14.17, side_mm=60.0),
        Mark("swivel", "swivel", "swivel size 14 12 kg", 600.0),
        *_hooklength(600.0, "hooklength line", "14 barbless eyed"),
    ),
)

FINE = Snapshot(
    code="A09D",
    recipe="hooklength-fine",
    name="Fine hooklength",
    kind="hooklength",
    method="float",
    purpose="small roach and gudgeon on fine line",
    tied_on="2026-03-05",
    size="15 cm",
    carries="",
    rig_line="",
    hooklength="15 cm nylon 0.08 mm 0.7 kg",
    hook="20 barbless spade",
    shot="",
    set_for="length 15cm",
    lengths={"length": "15cm"},
    outcome="sound",
    length_mm=150.0,
    marks=(
        Mark("loop", LOOP, "hooklength line", 150.0),
        Mark("hook", "20", "hook 20 barbless spade", 0.0),
    ),
)

RIGS = (WAGGLER, POLE, OLIVETTE, STICK, FEEDER, METHOD, BOMB, FINE)

EMOJI = replace(WAGGLER, code="A0MR", name='Dad\'s "lucky" 🐟 wäggler 👍🏽')
CYRILLIC = replace(POLE, code="A0NP", name="Удочка на канале, плотва")
GREEK = replace(FEEDER, code="A0RK", name="Καλάμι για τσιπούρα")
LONG = replace(WAGGLER, code="A0TH", name="Long walk to the far bank and back again " * 7 + "end")
ONE_WORD = replace(WAGGLER, code="A0WE", name="w" * 300)
ODD = (EMOJI, CYRILLIC, GREEK, LONG, ONE_WORD)

ALL = (*RIGS, *ODD)


def drawer_item(number: int, words: str, *, name: str = "", **more: Any) -> tuple[Item, Figures]:
    described = read_notation(words)
    written = write(described)
    item = Item(
        id=number,
        kind=described.kind,
        words=written,
        name=name or written,
        pack_size=described.pack_size or 1,
        added_on=date(2026, 3, 5),
        **more,
    )
    return item, as_row(described)


DRAWERS = (
    drawer_item(1, "nylon 0.14 mm 4.5 lb clear 100 m", place="drawer 1", minimum=20_000),
    drawer_item(2, "hook 18 barbless spade pack 10", place="drawer 2", minimum=20),
    drawer_item(13, "waggler 5BB insert tip 3 mm × 40 mm", place="float tube, left", minimum=2),
    drawer_item(4, "shot No 10 tin pack 200", place="shot box"),
    drawer_item(5, "feeder cage 30 g 40 ml", place="feeder tray", minimum=3),
    drawer_item(6, "bomb 20 g"),
    drawer_item(107, "link swivel size 12 10 kg pack 10", place="drawer 3", minimum=4),
    drawer_item(8, "elastic 4 red 6 m", place="pole tray"),
    drawer_item(9, "winder 18 cm 20 mm pack 10", place="winder tray", minimum=4),
    drawer_item(10, "olivette 1.5 g tungsten pack 5", name="Long olivettes", place="shot box"),
    drawer_item(1111, "braid 0.08 mm 5 kg 150 m", name="Плетёнка на фидер, катушка № 2",
          place="спиннинг-бокс, верхний ярус слева", minimum=50_000),
    drawer_item(12, "hook 20 barbless spade pack 10", name="The good ones from the tin " * 12 + "end",
          place="drawer with the broken handle, at the back, under the old shot", minimum=7),
    drawer_item(3, "bead 4 mm pack 50"),
)  # fmt: skip
