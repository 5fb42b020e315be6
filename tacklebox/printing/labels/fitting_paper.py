"""Which paper a label goes on where none is named: what fits the winder, or the wallet.

Each of them is cut out of plain paper. All that a label says up to the shot has room on it, in type
that is easy to read.
"""

from collections.abc import Sequence

from tacklebox.printing.labels.layout import LEAST_STRIP_MM, STRIP_AT
from tacklebox.printing.labels.papers import Paper
from tacklebox.rigs.tying.snapshot import Snapshot

WALLET = "wallet-60"
USUAL_STRIP = "strips-180"  # where it is not known what a float or pole rig is wound on


def usual_paper(snapshot: Snapshot, papers: Sequence[Paper]) -> str:
    """The name of the paper for a rig or hooklength.

    Strips as long as the winder allows and no wider than it is; of those that are all too wide the
    lowest. What is on no winder gets a label for a pocket of the wallet.
    """
    long, wide = snapshot.winder_length_mm, snapshot.winder_width_mm
    if snapshot.kind == "hooklength":
        return WALLET
    if not long:
        return WALLET if snapshot.method == "feeder" else USUAL_STRIP
    strips = [p for p in papers if _is_strip(p) and p.label.width <= long]
    fitting = [p for p in strips if p.label.height <= wide]
    if fitting:
        return max(fitting, key=lambda p: (p.label.width, p.label.height)).stem
    return min(strips, key=lambda p: (p.label.height, -p.label.width)).stem if strips else WALLET


def _is_strip(paper: Paper) -> bool:
    size = paper.label
    long = size.width >= max(LEAST_STRIP_MM, STRIP_AT * size.height)
    return paper.cut and not size.fold and long
