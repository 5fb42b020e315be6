"""A box with something of everything, and with texts that spreadsheets like to change."""

import sqlite3
from contextlib import closing
from dataclasses import replace
from pathlib import Path

from tacklebox.matches.after.account import Account
from tacklebox.matches.after.debrief import write_debrief
from tacklebox.matches.files.match import parse_match
from tacklebox.rigs.tying.tie import tie
from tacklebox.rigs.tying.tied import mark_labelled, strip_rigs, tied_with
from tacklebox.stock.bait_timings import record_sinking
from tacklebox.stock.care.box import Box
from tacklebox.stock.care.undo import redo_last, undo_last
from tacklebox.stock.entering import NewItem, add_item, edit_item
from tacklebox.stock.finding import find
from tacklebox.stock.ledger import begin, move, set_level
from tacklebox.stock.levels import Level
from tacklebox.stock.made import Setting
from tacklebox.stock.measuring import (
    record_bucket,
    record_pull,
    record_stretch,
    record_weighing,
    take_back,
)
from tacklebox.stock.notation import read_notation
from tacklebox.stock.putting_right import retire
from tacklebox.stock.reels import Holder, add_reel, load_reel, unload_reel
from tacklebox.stock.tables import Item, Why
from tacklebox.trade.settling.sizes import Timing
from tests.rigs.boxes import DAY, add, canal_rig, fine_hooklength, make_box

ODD = (
    '=HYPERLINK("x")', "+44", "-1+1", "@SUM(1)", "\tx", "\rx", "'=1", "''-x", "'tis", "a,b;c",
    'say "so"', "two\nlines", "two\r\nlines", "é🎣", "0012", "1,5", " spaced ", "",
    "3/4", "2.50", "1e5", "12:30", "2026-03-05", "-5", "12345678901234567890", "'007",
    "5%", "1E+5", "Mar-05", "(5)", "€5", "false", "WAHR", "March 5", "5. Mai", "£2.40", "1 1/2",
    "#N/A", "\\x", "_x0041_",
)  # fmt: skip
EVERY_KIND = (
    "feeder cage 30 g 40 ml",
    "swivel size 12 pack 5",
    "waggler 4BB insert tip 3 mm × 40 mm",
    "olivette 0.3 g pack 5",
    "stick unmarked lignum stem",
    "feeder cage unmarked large",
    "hook unmarked barbless pack 10",
    "shot unmarked",
    "olivette unmarked pack 5",
    # of each kind one of which all is said that can be
    "hook 16 barbless eyed straight eye fine wire crystal bend gold pack 10",
    "braid 0.10 mm 6 kg 100 m sinking green maker mine",
    "pole 4×14 rugby balsa glass stem bristle tip yellow",
    "waggler 3 g loaded",
    "elastic 4-6 hollow red 5 m",
    "winder 13 cm 18 mm red",
    "feeder method 30 g large inline 40 ml",
    "snap link size 12 10 lb pack 5",
    "hooklength 16 barbless eyed straight eye fine wire round bend gold to 0.12 mm 1.5 kg 15 cm hair pack 10",
)
OWN_FILES = ("recipes/my-own.toml", "labels/a4-65.toml", "venues/pond.toml", "matches/open.toml")
MATCH = f"""name = "Open"\ndate = "{DAY}"\nfrom = "10:00"\nto = "15:00"\nvenue = "pond"
[[want]]\nrecipe = "pole-canal-shot"\ncount = 2\n"""
# Of the page for the water, with what a spreadsheet would like to make a date or a sum.
RECORD = f"""TACKLEBOX RECORD 1
record | box/open/{DAY}
match | open
1 | {DAY} 10:42:07 | fish | to roach | weighs 0.125 kg
2 | {DAY} 11:00:00 | note | says =1+1, 3/4; 5%
3 | {DAY} 11:30:00 | day | water 12,5 C
end | 3
"""


def make_full_box(folder: Path) -> Path:
    """Make it, and close it."""
    box = make_box(folder)
    for number, text in enumerate(ODD):
        with box.writing() as session:
            action = begin(session, text or "x", DAY)
            hook = read_notation(f"hook {10 + number % 3} pack 10")
            add_item(session, action, NewItem(hook, name=f"{text}{number}", place=text))
            move(session, action, find(session, "3"), 1, Why.CORRECTED, text)
    with box.writing() as session:
        for said in ("4", "8"):
            move(session, begin(session, "buy", DAY), find(session, said), 1, Why.BOUGHT)
    strip_rigs(box, [rig.code for rig in tie(box, canal_rig(), 2, DAY).rigs[:1]], DAY)
    undo_last(box, DAY)
    with box.keyed("form 1").writing() as session:
        begin(session, "edit", DAY)
        edit_item(session, find(session, "2"), place="=1", price="2.40", minimum="20 m")
    add(box, "hook 8 pack 10", name="undone")
    undo_last(box, DAY)
    back, lost = (rig.code for rig in tied_with(box, state="ready"))
    mark_labelled(box, [back], DAY, {"a4-65": 2})
    for words in EVERY_KIND:
        add(box, words)
    _measure(box)
    _hold_what_has_tables_of_its_own(box)
    _use_levels(box)
    match = parse_match(MATCH, "open")
    notes = "=cmd|x\nno. 2"
    answer = Account(
        back=[back], lost=[lost], did_well=[back], tackle_lost={"3": "1"}, peg="3/4", weight_g=5.5,
        notes=notes, section="=A", place=3, points=1.5, water_c=12.5, record=RECORD,
    )  # fmt: skip
    write_debrief(box, match, answer, DAY)
    write_debrief(box, match, replace(answer, water_c=-0.5, notes="-1,5"), DAY, correct=True)
    for name in OWN_FILES:
        (box.folder / name).parent.mkdir(exist_ok=True)
        (box.folder / name).write_text(f'name = "{name}"\n', encoding="utf-8")
    box.close()
    return box.folder


def _measure(box: Box) -> None:
    """A reading of each sort, one of them taken back."""
    with box.writing() as session:
        record_pull(session, find(session, "2"), 1.5, "", DAY)
    with box.writing() as session:
        slip = record_pull(session, find(session, "2"), 1.125, "palomar", DAY)
    with box.writing() as session:
        take_back(session, slip.id or 0, DAY)
    with box.writing() as session:
        record_weighing(session, find(session, "6"), 1.26, 20, DAY)
    with box.writing() as session:
        record_bucket(session, find(session, "4"), 0.125, DAY, as_read=True)
    with box.writing() as session:
        record_stretch(session, find(session, "9"), 300.5, DAY)
    with box.writing() as session:
        record_sinking(session, "maggot", Timing(0.5, 12.5, 16.5), DAY)


def _hold_what_has_tables_of_its_own(box: Box) -> None:
    """A batch of hooklengths with what it was tied from, and reels."""
    add(box, "hooklength 20 to 0.08 mm 2.2 lb 6 in pack 10")
    line = add(box, "nylon 0.10 mm 2.2 lb 100 yd")
    tie(box, fine_hooklength(), 2, DAY)
    with box.writing() as session:
        action = begin(session, "load", DAY)
        reel = add_reel(session, "match", Holder.REEL)
        spool = session.get_one(Item, line.id)
        load_reel(session, action, reel, spool, 90_000, already=True, backing="=1")
        session.add(Setting(name="age of line on a reel", said="2 years"))
    with box.writing() as session:
        action = begin(session, "load", DAY)
        load_reel(
            session, action, add_reel(session, "kit", Holder.TOP_KIT), find(session, "9"), 900
        )
    with box.writing() as session:
        unload_reel(session, begin(session, "unload", DAY), reel, back=True)
    undo_last(box, DAY)
    redo_last(box, DAY)
    undo_last(box, DAY)


def _use_levels(box: Box) -> None:
    """Shot of which there is plenty, and some that became low; an item that is out of use."""
    shot = add(box, "shot BB tub")
    for level in (Level.LOW, Level.OUT, Level.LOW):
        with box.writing() as session:
            action = begin(session, "level", DAY)
            set_level(session, action, session.get_one(Item, shot.id), level)
    with box.writing() as session:
        begin(session, "retire", DAY)
        retire(session, find(session, "swivel"))


def dump(box: Box) -> list[str]:
    """Every row that the box holds, but for its own stamp and count, and the check of these."""
    with closing(sqlite3.connect(box.database)) as connection:
        lines = sorted(connection.iterdump())
    its_own = ('INSERT INTO "identity"', """INSERT INTO "aswritten" VALUES('identity'""")
    return [line for line in lines if line.startswith("INSERT") and not line.startswith(its_own)]
