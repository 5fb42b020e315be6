"""What goes without saying, and is told where it was assumed: nylon, packets, spools, winders' width.

Packets of hooks (10), of hooks to nylon (8 or 10), spools of hooklength line (50 or 100 m) and of main line
(150 m) are common practice; where one of two is taken, which diameter has which, and all the rest, are our
choice.
"""

import re

from tacklebox.stock.naming.described import Figure, assumed
from tacklebox.stock.tables import Kind

COMMON = "common practice"
CHOICE = "our choice"

NYLON = assumed("nylon", "nylon", COMMON)
TIN = assumed("tin", "tin", CHOICE)
STRAIGHT = assumed("waggler straight", "waggler straight", CHOICE)
WINDER_WIDTH = assumed(20.0, "20 mm", COMMON)  # the middle of 15 to 25 mm

# Line up to here comes on spools of 50 m, below the next on 100 m, and from there on 150 m.
FINE_MM, MAIN_MM = 0.12, 0.20
SOLD_SINGLY = (
    *(
        "plummet",
        "pole pot",
        "disgorger",
        "baiting needle",
        "bander",
        "hook tyer",
        "puller kit",
        "threader",
    ),
    *("bung extractor", "method mould", "putty", "winder box", "hooklength box", "tackle box"),
)
TUBES = ("silicone tube", "shrink tube", "tube")  # one piece, where it is said how long it is
_SO_LONG = re.compile(r"\d\s*(?:m|cm|in|ft|yd)\b")
FINE_USES = ("hooklength line", "rig line")


def _spool(metres: int, because: str = CHOICE) -> Figure:
    return assumed(1000.0 * metres, f"{metres} m", because)


def usual_pack(kind: str, figures: dict[str, Figure], note: str = "") -> Figure | None:
    """What a packet or spool usually holds; None for what comes singly, and for shot by the tub."""

    def said(key: str) -> str | float:
        return figures[key].value if key in figures else ""

    if kind == Kind.LINE:
        return _spool_of(figures, note)
    if kind in (Kind.HOOK, Kind.HOOKLENGTH):
        return assumed(10, "10", COMMON)
    if kind == Kind.PART:
        one = said("sort") in SOLD_SINGLY or (said("sort") in TUBES and bool(_SO_LONG.search(note)))
        return assumed(1 if one else 10, "1" if one else "10", CHOICE)
    if kind == Kind.WEIGHT and said("form") == "olivette":
        return assumed(5, "5", CHOICE)
    if kind == Kind.ELASTIC:
        return _spool(3 if said("core") == "hollow" else 6)
    return None


def _spool_of(figures: dict[str, Figure], note: str) -> Figure:
    material = figures["material"].value if "material" in figures else "nylon"
    if material == "power gum":
        return _spool(10)
    if "sort" in figures and "leader" in str(figures["sort"].value):
        return _spool(50)
    thick = figures["diameter"].value if "diameter" in figures else None
    if thick is None and material != "braid" and any(use in note for use in FINE_USES):
        return _spool(100, COMMON)
    if not isinstance(thick, float) or material == "braid" or thick >= MAIN_MM - 1e-9:
        return _spool(150, COMMON)
    return _spool(50 if thick <= FINE_MM + 1e-9 else 100, COMMON)
