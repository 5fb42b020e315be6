"""Cells made something else one at a time: the audit finds those that matter, and no command falls over."""

import sqlite3
from contextlib import closing, suppress
from pathlib import Path

import pytest

from tacklebox.boxfolder import DATABASE_NAME
from tacklebox.stock.care.aswritten import KEPT
from tacklebox.stock.care.triggers import RULES
from tests.cli import runs
from tests.long.flips import (
    Flip,
    every_flip,
    is_found,
    is_found_by_its_meaning,
    key_of,
    random_flips,
    without_rules,
)
from tests.long.length import WHOLE, so_many
from tests.rigs.boxes import DAY
from tests.stock.full_box import MATCH, make_full_box

pytestmark = pytest.mark.long
# Found by what it means alone, whatever it becomes: amounts, figures, codes, snapshots, states, levels.
SURE = {
    *("movement.amount", "movement.item_id", "item.on_hand", "item.last_movement", "item.level"),
    *("item.kind", "item.words", "item.retired", "item.withdrawn", "item.added_on", "movement.on"),
    *("line.material", "line.diameter_mm", "line.breaks_at_kg", "hook.size", "hook.size_order"),
    *("hooklength.size", "hooklength.diameter_mm", "hooklength.length_mm", "hooklength.material"),
    *("float.mark", "float.capacity_g", "weight.form", "weight.mark", "weight.mass_g"),
    *("feeder.shape", "feeder.mass_g", "feeder.volume_ml", "part.sort", "elastic.grade"),
    *(
        "winder.length_mm",
        "winder.width_mm",
        "tieduse.amount",
        "tieduse.item_id",
        "batchuse.amount",
    ),
    *("tied.code", "tied.code_number", "tied.state", "tied.snapshot", "tied.recipe", "tied.kind"),
    *(
        "tied.action_id",
        "tied.tied_on",
        "batch.code",
        "batch.code_number",
        "batch.tied",
        "batch.left",
    ),
    *(
        "batch.snapshot",
        "batch.item_id",
        "batch.action_id",
        "statechange.was",
        "statechange.became",
    ),
    *("reel.what", "reel.item_id", "reel.loaded_mm", "reel.loaded_on", "reel.retired"),
    *("change.became", "change.table_name", "change.column_name", "sheetinuse.next_free"),
    *("measurement.what", "debriefrig.became", "action.on", "action.redoes"),
}
ASKED = (
    "audit", "stock list", "stock show 2", "stock history 3", "rigs list", "rigs show A01T", "law",
    "labels A01T A03P --to {}/l.pdf", "stock labels --to {}/d.pdf", "low", "undo", "redo", "reels list",
    "measure list 2", "measure list 4", "hooklengths list", "hooklengths show A03P", "check pole-canal-shot",
    "tie pole-canal-shot", "match plan open", "match tie open", "match season", "match debrief open",
    "match pack open", "match shopping open", "match did-well", "match bank open --to {}/b.html",
    "copy {}/c.sqlite3", "export {}/out", "stock count 3 7", "stock buy 3",
)  # fmt: skip

COMING = MATCH.replace(str(DAY), "2099-06-07")
OWN = {"matches/open.toml": COMING, "venues/pond.toml": 'name = "P"\nwater = "still water"\n'}


@pytest.fixture(scope="module")
def database(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return make_full_box(tmp_path_factory.mktemp("made") / "box") / DATABASE_NAME


def test_all_is_found_but_the_count_of_writes(database: Path) -> None:
    with closing(without_rules(database)) as box:
        every = list(every_flip(box, rows_of_each=so_many(3, 1)))
        tried = every if WHOLE else every[:: len(every) // 20]
        missed = {flip.place for flip in tried if not is_found(box, flip)}
        assert missed <= {"identity.changes"}


def test_what_matters_is_found_by_its_meaning_and_of_all_else_most(database: Path) -> None:
    """As in an export that was changed and whose checks were taken out, or in a box of an older version."""
    with closing(without_rules(database)) as box:
        every = [
            flip
            for flip in every_flip(box, rows_of_each=so_many(3, 1))
            if not flip.place.startswith(KEPT)
        ]
        tried = every if WHOLE else every[:: len(every) // 20]
        missed = [flip for flip in tried if not is_found_by_its_meaning(box, flip)]
        assert [flip for flip in missed if flip.place in SURE] == []
        assert len(missed) < 0.15 * len(tried)
        assert {flip.place for flip in every} >= SURE


@pytest.mark.parametrize("seed", range(so_many(4, 1)))
def test_no_command_falls_over_a_flipped_box(
    database: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, seed: int
) -> None:
    monkeypatch.setattr(runs, "WHOLE", False)  # a process for each would take the day
    with closing(without_rules(database)) as box:
        flips = list(random_flips(box, so_many(250, 2), seed))
    for number, flip in enumerate(flips):
        folder = tmp_path / str(number)
        folder.mkdir()
        _write_flipped(database, folder / DATABASE_NAME, flip)
        for name, text in OWN.items():
            (folder / name).parent.mkdir()
            (folder / name).write_text(text)
        asked = ASKED[number % 5 :: 5]
        for words in asked:
            ended = runs.tacklebox(*words.format(folder).split(), box=folder)
            assert ended.returncode in (0, 1, 2), (flip, words, ended)


def _write_flipped(database: Path, to: Path, flip: Flip) -> None:
    with closing(without_rules(database)) as box:
        with suppress(sqlite3.IntegrityError):  # not even the database holds it
            box.execute(
                f'UPDATE "{flip.table}" SET "{flip.column}" = ? WHERE {key_of(flip.table)} = ?',
                (flip.becomes, flip.row),
            )
        for rule in RULES:
            box.execute(rule)
        to.write_bytes(box.serialize())
