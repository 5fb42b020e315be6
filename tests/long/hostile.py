"""Hostile command lines and files, made from ordinary ones by rule: the same ones each time.

Each ordinary line is given with every option that it knows. In one place of it stands something hostile,
or a file that it reads is hostile.
"""

import shlex
import sqlite3
from collections.abc import Iterator, Mapping, Sequence
from contextlib import closing
from dataclasses import dataclass, field
from pathlib import Path
from random import Random

from tacklebox.boxfolder import DATABASE_NAME
from tacklebox.matches.water.record import record_key

DAY = "2026-03-05"  # of the match that has been
OUT = "{out}"  # the folder beside the box, where files lie and go
# Every command, with words in every place. {rig} and {batch} are codes that are there.
LINES = (
    "stock add hook 18 barbless spade --pack 10 --price 1.80 --minimum 10 --packs 2 --place tray"
    " --name mine --on 2026-03-05 --with wire=fine --kind hook",
    "stock add nylon 0.10 mm 1 kg --amount '40 m' --as-printed",
    "stock add groundbait hooks --level low",
    "stock import {out}/stock.csv --on 2026-03-05 --as-printed",
    "stock look {out}/stock.csv --as-printed",
    "stock read hook 18 barbless",
    "stock serves 3",
    "stock list hook --kind hook --where size=20 --retired",
    "stock show 3",
    "stock history 3",
    "stock buy 3 --packs 2 --price 1.80 --on 2026-03-05",
    "stock count 3 8 --on 2026-03-05",
    "stock level 4 low --not-counted --on 2026-03-05",
    "stock take 3 2 --why lost --reason snag --on 2026-03-05",
    "stock give 3 2 --reason found --on 2026-03-05",
    "stock correct 3 +2 --reason miscounted --on 2026-03-05",
    "stock edit 3 --name mine --place tray --pack 10 --price 1.80 --minimum 5 --maker mine"
    " --on 2026-03-05",
    "stock reword 3 hook 18 spade barbless --anew --on 2026-03-05 --as-printed",
    "stock retire 3 --on 2026-03-05",
    "stock unretire 3 --on 2026-03-05",
    "stock labels 3 --paper drawers-60 --to {out}/drawers.pdf --start 2 --skip 3",
    "stock labels --kind hook --place tray --to {out}/drawers.pdf",
    "recipe list",
    "recipe show mine",
    "recipe start another --like pole-canal-shot",
    "recipe draw mine --to {out}/rig.svg --set depth=1.2m",
    "check mine --count 2 --set depth=1.2m --use hook=3 --why --water 12 --distance '20 m'"
    " --load '20 g' --sound-from 90 --doubtful-from 50",
    "check pole-canal-shot --plumbed '1.2 m' --over '2 in'",
    "settle pole-canal-shot --set depth=1.2m --bait maggot --sinks '1 m in 24 s' --hook-mass '0.2 g for 20'"
    " --float-mass '0.3 g' --fished 'off bottom' --water 12 --wind '2 m/s' --seen '4 mm' --seconds 20"
    " --svg {out}/fall.svg",
    "settle pole-canal-shot --plumbed '1.4 m' --away '6 m' --beside 'strung out' --bite-at '1 m' --tow",
    "tie mine --count 1 --set hooklength=hooklength-fine --use hook=3 --because mine --sound-from 90"
    " --doubtful-from 50 --on 2026-03-05",
    "rigs list --all",
    "rigs add mine=2 --set depth=1.2m --use hook=3 --on 2026-03-05",
    "rigs show {rig}",
    "rigs strip {rig} --on 2026-03-05",
    "rigs lost {rig} {batch}=2 --on 2026-03-05",
    "rigs change {rig} --hooklength 7 --depth '60 cm' --shot-now '2 No 8 at 20 cm' --carries 5 --note mine"
    " --on 2026-03-05",
    "hooklengths list --all",
    "hooklengths show {batch}",
    "hooklengths add '20 to 0.08 15 cm=2' --counted no --place wallet --on 2026-03-05",
    "reels list",
    "reels add reel --top-kit --on 2026-03-05",
    "reels load first 2 '20 m' --instead --backing old --on 2026-03-05",
    "reels unload first --back --on 2026-03-05",
    "reels cut first '2 m' --on 2026-03-05",
    "reels rename first second --on 2026-03-05",
    "reels retire first --on 2026-03-05",
    "reels age --hooklength-line '2 years' --reel '1 year' --top-kit '1 year' --on 2026-03-05",
    "labels {rig} {batch} --paper a4-65 --to {out}/labels.pdf --start 3 --skip 4 --on 2026-03-05",
    "labels --last --to {out}/labels.pdf",
    "paper list",
    "paper test a4-65 --to {out}/test.pdf",
    "paper measured a4-65 --left '20 mm' --top '21 mm' --across '100 mm' --down '99 mm'",
    "tie-sheet mine=2 --to {out}/sheet.pdf --page a5 --set depth=1.2m --on 2026-03-05",
    "low mine=2 --set depth=1.2m --csv {out}/list.csv --to {out}/list.pdf",
    "venue list",
    "venue start new-water",
    "venue show pond",
    "venue judge pond mine --set depth=1.2m --on 2026-06-20 --groundbait '1.5 kg'",
    "venue keepnet pond --length '3 m' --rings '30 cm' --ring '130 cm' --round '45 cm' --square '40 cm'"
    " --hole '20 mm' --knotless --nets 2",
    "match start new-match --venue pond --on 2099-06-14",
    "match list",
    "match plan open --csv {out}/plan.csv",
    "match shopping open --csv {out}/list.csv --to {out}/list.pdf --page a5",
    "match tie open --labels {out}/labels.pdf --paper a4-65 --start 2 --skip 3 --sheets {out}/sheets.pdf"
    " --page a5 --because mine --sound-from 90 --doubtful-from 50 --on 2026-03-05",
    "match pack open --to {out}/pack.pdf --page a5",
    "match bag open --tick 1 --untick all",
    "match bag been --home all --not-home all",
    "match debrief been --back {rig} --lost {batch}=1 --worn-out {batch}=1 --not-taken {rig} --did-well {rig}"
    " --tackle-lost 'hook 20=1' --changed '{rig} note=mine' --weight '5.4 kg' --peg 12 --notes cold",
    "match debrief been --correct --notes none --section A --place 3 --points 4 --water 12"
    " --from {out}/record.txt --clock 5",
    "match bank open --to {out}/bank.html",
    "match card open --to {out}/card.pdf",
    "match season --by peg --year 2026 --venue pond --csv {out}/season.csv",
    "find hook 20",
    "settings --copies {out} --paper a4-65 --sound-from 90 --doubtful-from 50",
    "match did-well --venue pond --season summer --method pole",
    "feed open --hours 5 --venue pond --feeder '40 ml' --cast-every 5 --share 50 --density 1.1 --water 60"
    " --loose 10 --loose-every 2 --per-pint 2500 --casters",
    "measure pull 2 '1.5 kg' --knot palomar --on 2026-03-05 --as-read",
    "measure weigh 4 '1.6 g' --count 20 --on 2026-03-05 --as-read",
    "measure weigh 'waggler 5BB' '2.4 g' --as-read",
    "measure hook '20 0.2 g' --on 2026-03-05 --as-read",
    "measure sink maggot '1 m 24 s' --water 12 --on 2026-03-05 --as-read",
    "measure float 5 '0.3 g' --on 2026-03-05 --as-read",
    "measure elastic 6 '200 g' --on 2026-03-05",
    "measure list 2",
    "measure withdraw 1 --on 2026-03-05",
    "shot balance 5BB --tip '3 mm × 40 mm' --inside '0.1 g' --show '3 mm' --fished 'dead depth'"
    " --like pole-canal-shot --any-size --material tin --water 12 --show-best 2",
    "shot replace '2 AAA' --tip '3 mm × 40 mm' --any-size --material tin --water 12 --show-best 2",
    "cast --line '2.7 kg' --mass '30 g' --load '25 g' --distance '35 m' --knot palomar --material nylon"
    " --rod-tip-travel '4 m' --sticks 13 --line-per-turn '80 cm' --why",
    "law",
    "phones list",
    "phones shut-out 1",
    "audit",
    "undo --on 2026-03-05",
    "redo --on 2026-03-05",
    "copy {out}/copy.sqlite3",
    "restore {out}/older.sqlite3 --yes",
    "export {out}/export",
    "import {out}/kept",
    "help recipes",
    "demo --into {out}/box",
    "open --port nine",
)  # fmt: skip
# What stands in the place of a word.
WORDS = {
    "nothing": "",
    "blanks": " \t ",
    "a break": "one\ntwo\r\nthree",
    "a sign that clears the screen": "\x1b[2J\x1b]0;title\x07x",
    "the same in one sign": "\x9b2Jx",
    "words turned round": "abc\u202egpj.fdp\u202c",
    "words set apart": "\u2066abc\u2069\u200bd\ufefff",
    "bytes that are no UTF-8": "caf\udce9\udcff",
    "a name of 300 letters": "n" * 300,
    "a name of 300 bytes": "é" * 150,
    "a name of 5,000 letters": "n" * 5000,
    "a path of 5,000 letters": "/tmp/" + "n/" * 2500,
    "5,000 digits": "9" * 5000,
    "100,000 digits": "1" * 100_000,
    "5,000 digits after the point": "0." + "3" * 5000,
    "5,000 digits with a unit": "9" * 5000 + " m",
    "digits of another script": "٣٤ m",
    "a power": "1e999",
    "a small power": "1e-999 mm",
    "no number": "nan",
    "without end": "inf kg",
    "below nothing": "-7",
    "nothing of it": "0",
    "a huge count": "mine=999999999",
    "a quotient": "1/0",
    "a quotient of digits": "1/" + "3" * 4000 + " in",
    "many quotients": "1/2" * 1000,
    "a long sum": "+".join(["2 AAA"] * 2000),
    "many commas": "," * 5000,
    "many brackets": "(" * 20_000 + ")" * 20_000,
    "many hyphens": "-" * 3000,
    "many equals": "a=b=c=" * 500,
    "many times": "×".join(["4"] * 3000),
    "an option": "--json",
    "an unknown option": "--\x1b[31mred",
    "two hyphens": "--",
    "a home of nobody": "~nobody-of-that-name/x.pdf",
    "a home": "~",
    "up and up": "../" * 60 + "etc/passwd",
    "a folder": "/",
    "no end of nothing": "/dev/zero",
    "a full disk": "/dev/full",
    "the memory": "/proc/self/mem",
    "a zero byte": "a\0b",
    "a loop of links": "{out}/loop",
    "below a loop of links": "{out}/loop/x.pdf",
    "a pipe": "{out}/pipe",
    "a socket": "{out}/socket",
    "below a file": "{out}/stock.csv/x.pdf",
    "the box itself": "{out}/../box/tacklebox.sqlite3",
    "a question of SQL": "'; DROP TABLE item; --",
    "any of SQL": "%_%",
    "a field of Python": "{0.__class__}{x}%s%n",
    "a field of a page": "{{ 7*7 }}<script>alert(1)</script>",
    "accents on accents": "e" + "\u0301" * 5000,
    "a smile": "👩\u200d👩\u200d👧",
    "half of a smile": "\ud83d",
    "a day that is none": "2026-02-30",
    "the first day": "0001-01-01",
    "the last day": "9999-12-31",
    "a day too far": "99999-01-01",
    "a day of a week": "2026-W10-4",
    "a long word twice": ("waggler " * 3000).strip(),
    "a unit alone": "mm",
    "a plus": "+",
}
# What stands where a list of stock is read.
LISTS = {
    "nothing": b"",
    "a heading": b"item,name\n",
    "short rows": b"item,name,place\nhook 18 pack 10\nhook 20 pack 10,mine\n",
    "long rows": b"item,name\nhook 18 pack 10,mine,too,much\n",
    "a heading that is none": b"\xff\xfe\x00\x00",
    "UTF-16": "item,name\nhook 18 pack 10,mine\n".encode("utf-16"),
    "bytes that are no UTF-8": b"item,name\nhook 18 pack 10,caf\xe9\n",
    "zero bytes": b"item,name\nhook 18\0pack 10,mine\n",
    "an open quote": b'item,name\n"hook 18 pack 10,mine\n' + b"x\n" * 5000,
    "a field of a megabyte": b"item,name\n" + b"x" * 1_000_000 + b",y\n",
    "a heading of many columns": b"item" + b",name" * 3000 + b"\n" + b"hook 18" + b",x" * 3000,
    "many signs that clear the screen": b"item,name\nhook 18 pack 10,\x1b[2Jmine\n\x1b[2J,x\n",
    "words turned round": "item,name\nhook 18 \u202epack,\u202emine\n".encode(),
    "thousands of digits": b"item,amount\nhook 18 pack 10," + b"9" * 5000 + b"\n",
    "thousands of digits in the item": b"item\nnylon " + b"9" * 5000 + b" mm 1 kg 50 m\n",
    "brackets": b"item\n" + b"(" * 50_000 + b"\n",
    "20,000 bad rows": b"item,name\n" + b"what is this,\n" * 20_000,
    "line ends of old": b"item,name\rhook 18 pack 10,mine\r",
    "another separator": b"item;name\nhook 18 pack 10;mine\n",
    "a formula": b"item,name\nhook 18 pack 10,=cmd|' /C calc'!A0\n",
    "one column twice": b"item,name,name\nhook 18 pack 10,a,b\n",
    "an unknown column": b"item,\x1b[31mred\nhook 18 pack 10,a\n",
}
# What stands where the record of a day at the water is read.
_FIRST = b"TACKLEBOX RECORD 1\nrecord | been\nmatch | been\n"
_TAP = b"%d | 2026-03-05 10:00:00 | %s\n"
RECORDS = {
    "nothing": b"",
    "no record": b"\x1b[2J\xff\xfe",
    "its first line": _FIRST,
    "thousands of digits": b"TACKLEBOX RECORD " + b"9" * 5000 + b"\n",
    "too many lines": _FIRST + b"x\n" * 6000,
    "lines that are none": _FIRST + b"".join(_TAP % (n, b"fish | roach | x") for n in range(4000)),
    "signs that clear the screen": _FIRST
    + _TAP % (1, "note | says \x1b[2J\x9b2J".encode())
    + b"end | 1\n",
    "words turned round": _FIRST + _TAP % (1, "note | says \u202ex\u2066".encode()) + b"end | 1\n",
    "a line without end": _FIRST + _TAP % (1, b"note | says " + b"x" * 1_000_000),
    "days that are none": _FIRST
    + b"1 | 0000-99-99 99:99:99 | cast\n2 | 9999-12-31 23:59:59 | cast\n",
    "numbers of digits": _FIRST
    + b"9" * 5000
    + b" | 2026-03-05 10:00:00 | cast\nend | "
    + b"9" * 5000,
    "what is taken back of digits": _FIRST
    + b"back | "
    + b"9" * 5000
    + b",,,\nrigs | "
    + b"A01T " * 900,
    "weights without end": _FIRST + _TAP % (1, b"fish | to roach | weighs 1e999 kg") + b"end | 1\n",
    "weights of digits": _FIRST + _TAP % (1, b"fish | weighs " + b"9" * 400 + b" g") + b"end | 1\n",
    "rigs of nobody": _FIRST + _TAP % (1, b"lost | rig ???? | item 99999999") + b"end | 1\n",
    "UTF-16": "TACKLEBOX RECORD 1\nmatch been\n".encode("utf-16"),
}
_HEAD = 'name = "Mine"\nmakes = "rig"\nmethod = "float"\nfor = "any"\n'
# What stands where a TOML file of one's own is read.
TABLES = {
    "nothing": b"",
    "no TOML": b"\x1b[2J = [",
    "bytes that are no UTF-8": b'name = "caf\xe9"\n',
    "zero bytes": b'name = "a\0b"\n',
    "dotted keys": b"a" + b".a" * 20_000 + b" = 1\n",
    "dotted headings": b"[a" + b".a" * 20_000 + b"]\n",
    "dotted keys of many": b"".join(
        b"a" + b".b%d" % n + b".c" * 400 + b" = 1\n" for n in range(75)
    ),
    "nested lists": b"a = " + b"[" * 20_000 + b"]" * 20_000,
    "nested tables": b"a = " + b"{a=" * 10_000 + b"1" + b"}" * 10_000,
    "thousands of digits": _HEAD.encode() + b"x = " + b"9" * 5000,
    "thousands of digits in words": _HEAD.encode()
    + b'[choose.depth]\nusual = "'
    + b"9" * 5000
    + b' m"\nfrom = "1 m"\nto = "2 m"\n',
    "an unknown key that clears the screen": (_HEAD + '"\\u001b[2J" = 1\n').encode(),
    "a name that clears the screen": b'name = "\\u001b[2Jmine"\nmakes = "rig"\n',
    "words turned round": 'name = "\u202emine"\nmakes = "\u202erig"\n'.encode(),
    "over 64 kB": b"# " + b"x" * 70_000,
    "a date": b"name = 2026-01-01\ndate = 2026-01-01T00:00:00Z\n",
    "not a number": b"name = nan\nx = inf\n",
    "a list of everything": b"name = [1, 'a', 2.0, [], {}]\n",
    "wants without end": _HEAD.encode() + b"[[want]]\nrecipe = 'mine'\ncount = 999999999\n",
    "parts that are no tables": _HEAD.encode() + b"part = [1, 2, 3]\n",
    "thousands of parts": _HEAD.encode()
    + b'[[part]]\nname = "a"\nis = "hook"\nsize = "20"\n' * 1300,
    "a length that refers to itself": (
        _HEAD + '[[part]]\nname = "line"\nis = "line"\nlength = "line + line"\n'
    ).encode(),
    "a shot pattern of all": (_HEAD + "shotting = '" + "2 AAA, " * 3000 + "'\n").encode(),
}
OWN = {
    "recipes": (
        "recipe list",
        "recipe start other --like mine",
        "recipe show mine",
        "check mine",
        "tie mine",
        "low mine=1",
    ),
    "venues": ("venue list", "venue show pond", "match plan open", "venue judge pond mine"),
    "bags": ("match bag open", "match bag open --tick all"),
    "matches": (
        "match list",
        "match plan open",
        "match pack open --to {out}/pack.pdf",
        "feed open",
    ),
    "labels": (
        "paper list",
        "paper test mine --to {out}/test.pdf",
        "labels --paper mine --to {out}/l.pdf",
    ),
}
_NAMES = {"recipes": "mine", "venues": "pond", "matches": "open", "labels": "mine", "bags": "open"}
# What may have become of the database: by SQL, with nothing to hold it back.
DAMAGE = {
    "a day that is none": 'UPDATE movement SET "on" = \'2026-99-99\'',
    "a day of another sort": 'UPDATE action SET "on" = 17, written_at = x\'ff\'',
    "a rig's day": "UPDATE tied SET tied_on = 'soon'",
    "a reel's day": "UPDATE reel SET loaded_on = 'soon'",
    "a snapshot that is none": "UPDATE tied SET snapshot = '{'",
    "a snapshot nested deep": f"UPDATE tied SET snapshot = '{'[' * 50_000}'",
    "a snapshot of other keys": "UPDATE tied SET snapshot = '{\"code\": 1}'",
    "a snapshot of nothing": "UPDATE tied SET snapshot = 'null'",
    "a snapshot that is no text": "UPDATE tied SET snapshot = x'ff'",
    "a batch's snapshot": "UPDATE batch SET snapshot = '[]'",
    "an unknown state": "UPDATE tied SET state = char(27) || '[2J'",
    "an unknown kind": "UPDATE item SET kind = 'rod' WHERE id = 3",
    "an unknown level": "UPDATE item SET level = 'much' WHERE id = 4",
    "an amount of words": "UPDATE item SET on_hand = 'some'",
    "an amount without end": "UPDATE item SET on_hand = 9e99",
    "a packet of nothing": "UPDATE item SET pack_size = 0",
    "a packet below nothing": "UPDATE item SET pack_size = -3, minimum = -7",
    "a price of words": "UPDATE item SET pack_price_cents = 'dear'",
    "a name that clears the screen": "UPDATE item SET name = char(27) || '[2J' || name",
    "a name turned round": "UPDATE item SET name = char(0x202e) || name, place = char(0x202e)",
    "a name that is no text": "UPDATE item SET name = x'fffe' WHERE id = 3",
    "a name that is no UTF-8": "UPDATE item SET name = CAST(x'fffe' AS TEXT) WHERE id = 3",
    "figures that are gone": "DELETE FROM hook",
    "a figure of words": "UPDATE line SET diameter_mm = 'thin', breaks_at_kg = x'00'",
    "a figure without end": "UPDATE line SET diameter_mm = 9e999",
    "a hook of no size": "UPDATE hook SET size = '', size_order = 'x'",
    "a capacity below nothing": "UPDATE float SET capacity_g = -1, mark = ''",
    "a code that is none": "UPDATE tied SET code = '????', code_number = 9000000000 WHERE id = 1",
    "a change of nothing": "UPDATE change SET was = '{', became = '{'",
    "a change of an unknown table": "UPDATE change SET table_name = 'x; DROP TABLE item'",
    "an action that undoes itself": "UPDATE action SET undoes = id WHERE id = (SELECT max(id) FROM action)",
    "no identity": "DELETE FROM identity",
    "an identity of words": "UPDATE identity SET changes = 'many', stamp = x'ff'",
    "a table that is gone": "DROP TABLE movement",
    "a column that is gone": "ALTER TABLE tied RENAME COLUMN snapshot TO picture",
    "a rule that is gone": "DROP TRIGGER {trigger}",
    "a foreign rule": "CREATE TRIGGER foreign_rule AFTER INSERT ON action BEGIN DELETE FROM item; END",
    "a view in the place of a table": "ALTER TABLE item RENAME TO i; CREATE VIEW item AS SELECT * FROM i",
    "schema text that is none": "UPDATE sqlite_master SET sql = 'CREATE TABLE item(' WHERE name = 'item'",
    "schema text of another table": "UPDATE sqlite_master SET sql = 'CREATE TABLE item (id)'"
    " WHERE name = 'item'",
    "schema text that is no UTF-8": "UPDATE sqlite_master SET sql ="
    " CAST('CREATE TABLE ' || x'c6c6' || ' (' AS TEXT) WHERE name = 'item'",
    "schema text that is no text": "UPDATE sqlite_master SET sql = x'ff00' WHERE name = 'item'",
    "a root that is none": "UPDATE sqlite_master SET rootpage = 9999 WHERE name = 'item'",
    "a setting of digits": f"INSERT INTO setting VALUES ('reel', '{'9' * 5000} years')",
    "a place on a sheet": "INSERT OR REPLACE INTO sheetinuse VALUES ('a4-65', -5), ('drawers-60', 'x')",
    "a debrief of words": "UPDATE debrief SET weight_g = 'heavy', venue = x'ff'",
    "a newer version": "PRAGMA user_version = 99",
    "a version below nothing": "PRAGMA user_version = -1",
    "a version before the first": "PRAGMA user_version = 1",
    "another's mark": "PRAGMA application_id = 7",
    "a reading without end": "UPDATE measurement SET breaks_at_kg = 9e999, mass_g = 'x', knot = x'ff'",
}  # fmt: skip
READS = (
    "stock list", "stock show 3", "stock history 3", "rigs list --all", "rigs show {rig}",
    "hooklengths list", "reels list", "low", "low mine=1", "match plan open", "match list",
    "match pack open --to {out}/p.pdf", "match debrief been --show", "match did-well", "measure list",
    "labels --to {out}/l.pdf", "stock labels --to {out}/d.pdf", "check mine", "law", "audit",
    "tie mine", "stock buy 3", "undo", "rigs strip {rig}", "copy {out}/c.sqlite3", "export {out}/e",
    "restore {out}/damaged.sqlite3", "stock add hook 16 pack 10", "shot replace '1 No 8'",
    "rigs lost {batch}=1", "hooklengths show {batch}", "match tie open --labels {out}/l.pdf",
)  # fmt: skip


@dataclass(frozen=True)
class Case:
    """A command line, what is hostile about it, and what stands in files: beside the box and in it."""

    name: str
    words: Sequence[str]
    beside: Mapping[str, bytes] = field(default_factory=dict)
    inside: Mapping[str, bytes] = field(default_factory=dict)
    sql: str = ""


def cases(count: int) -> list[Case]:
    """So many of all, a good share of each sort, the same ones each time."""
    by_sort = [list(sort()) for sort in (_of_words, _of_lists, _of_tables, _of_damage)]
    chosen: list[Case] = []
    for sort, share in zip(by_sort, (0.6, 0.08, 0.14, 0.18), strict=True):
        chosen += Random(15).sample(sort, min(len(sort), round(count * share)))
    return chosen


def _of_words() -> Iterator[Case]:
    for line in LINES:
        words = shlex.split(line)
        first = 2 if words[0] in _GROUPS else 1
        for at in range(first, len(words)):
            if words[at].startswith("--"):
                continue
            for name, hostile in WORDS.items():
                said = [*words]
                head, equals, _ = said[at].partition("=")
                put = f"{head}={hostile}" if equals and not hostile.startswith("mine=") else hostile
                said[at] = put
                yield Case(f"{line.split(' --')[0]}: {name} for {words[at]}", said)
                if said[at - 1].startswith("--"):
                    joined = [*said[: at - 1], f"{said[at - 1]}={hostile}", *said[at + 1 :]]
                    yield Case(f"{line.split(' --')[0]}: {name} joined for {words[at]}", joined)


_GROUPS = {line.split()[0] for line in LINES if line.split()[0] in (
    "stock", "recipe", "rigs", "hooklengths", "reels", "paper", "venue", "match", "measure", "shot",
)}  # fmt: skip


def _of_lists() -> Iterator[Case]:
    for name, data in LISTS.items():
        for line in ("import", "look", "import --as-printed", "import --json", "look --json"):
            command, _, more = line.partition(" ")
            words = shlex.split(f"stock {command} {{out}}/stock.csv {more}")
            yield Case(f"{line}: {name}", words, beside={"stock.csv": data})

    for name, data in RECORDS.items():
        for more in ("", " --correct", " --json"):
            words = shlex.split(f"match debrief been --from {{out}}/record.txt{more}")
            yield Case(f"debrief{more}: {name}", words, beside={"record.txt": data})


def _of_tables() -> Iterator[Case]:
    for kind, lines in OWN.items():
        for name, data in TABLES.items():
            for line in lines:
                file = {f"{kind}/{_NAMES[kind]}.toml": data}
                yield Case(f"{line}: {name} in {kind}", shlex.split(line), inside=file)


def _of_damage() -> Iterator[Case]:
    for name, sql in DAMAGE.items():
        for line in READS:
            yield Case(f"{line}: {name}", shlex.split(line), sql=sql)


def damage(database: Path, sql: str) -> None:
    """Do to the database what no rule of it would let happen."""
    connection = sqlite3.connect(database, isolation_level=None)
    triggers = connection.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'")
    rules = triggers.fetchall()
    connection.execute("PRAGMA writable_schema = ON")
    connection.execute("PRAGMA ignore_check_constraints = ON")
    connection.execute("PRAGMA foreign_keys = OFF")
    is_of_rules = "TRIGGER" in sql
    if not is_of_rules:
        for name, _ in rules:
            connection.execute(f"DROP TRIGGER {name}")
    connection.executescript(sql.replace("{trigger}", rules[0][0]))
    if not is_of_rules:
        for _, made in rules:
            connection.execute(  # as text, since the tables may not bear them any more
                "INSERT INTO sqlite_master (type, name, tbl_name, rootpage, sql)"
                " VALUES ('trigger', ?, ?, 0, ?)",
                (made.split()[2], _table_of(made), made),
            )
    connection.close()


def _table_of(trigger: str) -> str:
    words = trigger.replace("\n", " ").split()
    return words[words.index("ON") + 1].strip('"')


def lay_out(case: Case, box: Path, out: Path, codes: Mapping[str, str]) -> list[str]:
    """Put what the case needs into its place; hands back the words of the command."""
    for name, data in case.beside.items():
        (out / name).write_bytes(data.replace(b"record | been", _record_of(box)))
    for name, data in case.inside.items():
        (box / name).parent.mkdir(exist_ok=True)
        (box / name).write_bytes(data)
    if case.sql:
        damage(box / DATABASE_NAME, case.sql)
        (out / "damaged.sqlite3").write_bytes((box / DATABASE_NAME).read_bytes())
    return [_put(word, out, codes) for word in case.words]


def _record_of(box: Path) -> bytes:
    """The line by which a record of the match that has been is known to be of this box."""
    with closing(sqlite3.connect(box / DATABASE_NAME)) as connection:
        (mark,) = connection.execute("SELECT box FROM identity").fetchone()
    return f"record | {record_key(mark, 'been', DAY)}".encode()


def _put(word: str, out: Path, codes: Mapping[str, str]) -> str:
    for name, code in (*codes.items(), ("out", str(out))):
        word = word.replace(f"{{{name}}}", code)
    return word
