"""The QR of a label: its words in the alphanumeric set, and its modules as runs to fill."""

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from tacklebox.printing.wording import fields, kind_words
from tacklebox.rigs.snapshot import Snapshot

MOST_LETTERS = 90  # ISO/IEC 18004, table 7: version 4, error level M, alphanumeric
LETTERS = frozenset("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:")
QUIET_MODULES = 4  # ISO/IEC 18004: the empty border
LEAST_MODULE_MM = 0.33

_SIGNS = str.maketrans(
    {"×": "X", "–": "-", "—": "-", "−": "-", "&": "+", "⁄": "/", "…": ".", "_": "-"}
)
_QUOTES = re.compile(r"[\"'“”‘’«»„!?()]")
_BEFORE_UNIT = re.compile(r"(\d) (MM|CM|M|IN|FT|G|KG|OZ|LB|ML)\b")
_IMPORTANCE = (
    "code", "size", "hooklength", "hook", "line", "shot", "set for", "kind", "date", "name",
)  # fmt: skip
_TOGETHER = ("code", "size", "kind", "set for")  # these read as one phrase; the rest follow "/"
_READING = (*_TOGETHER, "line", "hooklength", "hook", "shot", "date", "name")


@dataclass(frozen=True, slots=True)
class QrWords:
    """A QR's text, and what of the rig is not in it."""

    text: str
    left_out: tuple[str, ...]


def qr_words(snapshot: Snapshot) -> QrWords:
    """The label's words in the alphanumeric set of ISO/IEC 18004, at most 90 letters.

    Until they fit they are said in full, then in short (no "nylon", no blanks in figures,
    diameters without mm), then without the hook's shank end; so with all of them, then without
    the name, then without the date too. If that does not do, each is taken in order of
    importance where it still fits: code, size, hooklength, hook, rig line, shot, what it was
    set for, kind, date, name. What is taken reads from rod to hook. A name with letters that
    the set does not have is left out.
    """
    full = _parts(snapshot)
    short = {part: _short(part, text) for part, text in full.items()}
    shorter = {**short, "hook": re.sub(r" (SPADE|EYED)\b", "", short.get("hook", ""))}
    for left_out in ((), ("name",), ("name", "date")):
        for parts in (full, short, shorter):
            taken = {part: text for part, text in parts.items() if part not in left_out}
            if len(_joined(taken)) <= MOST_LETTERS:
                return QrWords(_joined(taken), _missing(snapshot, taken))
    taken = {}
    for part in _IMPORTANCE:
        more = {**taken, part: shorter.get(part, "")}
        if len(_joined(more)) <= MOST_LETTERS:
            taken = more
    return QrWords(_joined(taken), _missing(snapshot, taken))


def _missing(snapshot: Snapshot, taken: Mapping[str, str]) -> tuple[str, ...]:
    wanted = {**_parts(snapshot), "name": snapshot.name}
    return tuple(p for p in _IMPORTANCE if wanted.get(p) and not taken.get(p))


def _parts(snapshot: Snapshot) -> dict[str, str]:
    said = {field.about: field for field in fields(snapshot)}

    def text_of(about: str) -> str:
        return said[about].full if about in said else ""

    set_for = text_of("set for")
    depth = set_for and said["set for"].heading == "Depth"
    parts = {
        "code": snapshot.code,
        "size": snapshot.size,
        "kind": kind_words(snapshot),
        "set for": f"depth {set_for}" if depth else set_for,
        "line": text_of("line"),
        "hooklength": text_of("hooklength"),
        "hook": f"hook {snapshot.hook}" if snapshot.hook else "",
        "shot": text_of("shot").replace(", ", "/"),
        "date": text_of("date"),
    }
    letters = {part: _letters(text)[0] for part, text in parts.items()}
    name, lost = _letters(snapshot.name)
    return letters | {"name": "" if lost else name}


def _letters(text: str) -> tuple[str, bool]:
    """The text in the QR's letters, and whether some could not be said."""
    plain = unicodedata.normalize("NFKD", text.translate(_SIGNS))
    plain = "".join(c for c in plain if not unicodedata.combining(c)).translate(_SIGNS).upper()
    plain = _QUOTES.sub("", plain).replace(",", " ")
    said = "".join(c if c in LETTERS else " " for c in plain)
    return " ".join(said.split()), any(c not in LETTERS and not c.isspace() for c in plain)


def _short(part: str, text: str) -> str:
    text = _BEFORE_UNIT.sub(r"\1\2", text)
    if part in ("line", "hooklength"):
        text = re.sub(r"(?:^| )NYLON ", " ", text).replace("MM ", " ").strip()
    elif part == "hook":
        text = text.removeprefix("HOOK ")
    elif part == "set for":
        text = text.removeprefix("DEPTH ")
    elif part == "shot":
        text = text.replace(" AT THE FLOAT", "").replace(" AT ", " ").replace(" + ", "+")
        text = re.sub(r"(\d)(CM|MM|M)-([\d.]+\2)\b", r"\1-\3", text)
        text = re.sub(r"(\d) (?=[A-Z])|(?<=NO) (?=\d)", r"\1", text)
    elif part == "date":
        text = re.sub(r"(\d+) (\w+) \d\d(\d\d)", r"\1\2\3", text)
    return text


def _joined(parts: Mapping[str, str]) -> str:
    first = " ".join(parts[p] for p in _TOGETHER if parts.get(p))
    return "/".join([first, *(parts[p] for p in _READING[len(_TOGETHER) :] if parts.get(p))])


@dataclass(frozen=True, slots=True)
class QrShape:
    """A QR's modules without its border: how many a side, and runs (column, row from the top, length)."""

    modules: int
    runs: tuple[tuple[int, int, int], ...]


@lru_cache(maxsize=256)
def qr_shape(text: str) -> QrShape:
    """The QR of a text at error level M, in the smallest version that holds it."""
    from qrcode.constants import ERROR_CORRECT_M
    from qrcode.main import QRCode
    from qrcode.util import MODE_ALPHA_NUM, QRData

    qr = QRCode(error_correction=ERROR_CORRECT_M, border=0)
    qr.add_data(QRData(text, mode=MODE_ALPHA_NUM))
    qr.make(fit=True)
    runs: list[tuple[int, int, int]] = []
    for row, cells in enumerate(qr.get_matrix()):
        line = "".join("1" if cell else "0" for cell in cells)
        runs.extend((m.start(), row, len(m.group())) for m in re.finditer("1+", line))
    return QrShape(len(qr.modules), tuple(runs))
