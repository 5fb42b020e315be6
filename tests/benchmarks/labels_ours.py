"""Print the labels of rigs kept as JSON: paper, rigs, and the PDF to write."""

import json
import sys
from pathlib import Path


def main() -> None:
    """As the command ``labels`` prints them."""
    from tacklebox.printing.labels.papers import load_paper
    from tacklebox.printing.labels.sheets import print_labels
    from tacklebox.rigs.tying.snapshot import Snapshot

    paper, rigs, target = sys.argv[1:]
    kept = json.loads(Path(rigs).read_text(encoding="utf-8"))
    snapshots = [Snapshot.from_json(text) for text in kept]
    print_labels(snapshots, load_paper(paper), Path(target), overwrite=True)


if __name__ == "__main__":
    main()
