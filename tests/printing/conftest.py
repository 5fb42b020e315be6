"""What the tests of printing share: the shipped recipes as tied from the demo's stock."""

from datetime import date
from pathlib import Path

import pytest

from tacklebox.cli.demo import STOCK
from tacklebox.desk.asking import resolved_recipe
from tacklebox.rigs.recipes.file import Shelf
from tacklebox.rigs.tying.describe import describe
from tacklebox.rigs.tying.snapshot import Snapshot
from tacklebox.rigs.tying.tie import fit_and_check
from tacklebox.stock.care.box import Box, open_box
from tacklebox.stock.csv_file import import_items

DAY = date(2026, 11, 25)


@pytest.fixture(scope="session")
def demo_box(tmp_path_factory: pytest.TempPathFactory) -> Box:
    """A box with the demo's stock."""
    box = open_box(tmp_path_factory.mktemp("demo") / "box")
    import_items(box, Path(STOCK), DAY)
    return box


@pytest.fixture(scope="session")
def shipped(demo_box: Box) -> dict[str, Snapshot]:
    """Each shipped recipe as it would be tied from the demo's stock, by the recipe's name."""
    shelf = Shelf()
    return {
        name: describe(fit_and_check(demo_box, resolved_recipe(shelf, name, {})), f"B{n:02d}L", DAY)
        for n, name in enumerate(shelf.names())
    }
