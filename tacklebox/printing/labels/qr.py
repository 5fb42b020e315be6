"""The QR of a label: its words in the alphanumeric set, and its modules as runs to fill."""

import re
import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from tacklebox.printing.labels.qr_mask import best_mask
from tacklebox.printing.labels.wording import Field, fields, kind_words, plumbed_words, spaced
from tacklebox.rigs.tying.snapshot import Snapshot

# Letters that versions 1 to 4 hold (ISO/IEC 18004, table 7: error level M, alphanumeric)
CAPACITIES = (20, 38, 61, 90)
MOST_LETTERS = CAPACITIES[-1]
LETTERS = frozenset("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:")
QUIET_MODULES = 4  # ISO/IEC 18004: the empty border
LEAST_MODULE_MM = 0.33

PLUMBED = "plumbed depth"  # the water's, and how much over it
_TIGHTENED = (("size", "set for", "line", "hooklength"), ("shot",), ("kind",), ("hook",))
_SIGNS = str.maketrans(
    {"×": "X", "·": "/", "–": "-", "—": "-", "−": "-", "&": "+", "⁄": "/", "…": ".", "_": "-"}
)
_QUOTES = re.compile(r"[\"'“”‘’«»„!?()]")
_LEADING_ZERO = re.compile(r"\b0\.(?=\d)")
_WHOLE_METRES = re.compile(r"\b([1-9]\d\d)CM\b")
_BEFORE_UNIT = re.compile(r"(\d) (MM|CM|M|IN|FT|G|KG|OZ|LB|ML)\b")


@dataclass(frozen=True, slots=True)
class QrWords:
    """A QR's text, and what of the label is not in it."""

    text: str
    left_out: tuple[str, ...] = ()

    @property
    def modules(self) -> int:
        """How many modules a side the smallest QR has that holds the text, without its border."""
        return 21 + 4 * sum(len(self.text) > holds for holds in CAPACITIES[:-1])


@dataclass(frozen=True, slots=True)
class Sayings:
    """What a QR is to say, part by part, in wordings from the fullest to the tightest.

    ``importance`` names all parts, most important first; the parts of ``one_phrase`` read as one phrase,
    those of ``after`` follow it, each behind a "/". ``unsaid`` are parts that the letters cannot say.
    """

    wordings: tuple[Mapping[str, str], ...]
    importance: tuple[str, ...]
    one_phrase: tuple[str, ...]
    after: tuple[str, ...]
    unsaid: tuple[str, ...] = ()

    def text(self, parts: Mapping[str, str]) -> str:
        """The parts in reading order."""
        first = " ".join(parts[p] for p in self.one_phrase if parts.get(p))
        return "/".join([first, *(parts[p] for p in self.after if parts.get(p))])

    def fitted(self) -> QrWords:
        """The fullest text of at most 90 letters.

        Rather than leave a part out, all are worded tighter. Parts go from the least important on;
        when two are gone and it still does not fit, each is taken in order of importance where
        it fits.
        """
        for count in range(3):
            kept = self.importance[: len(self.importance) - count]
            for wording in self.wordings:
                taken = {part: wording.get(part, "") for part in kept}
                if len(self.text(taken)) <= MOST_LETTERS:
                    return QrWords(self.text(taken), self._missing(taken))
        taken = {}
        for part in self.importance:
            more = {**taken, part: self.wordings[-1].get(part, "")}
            if len(self.text(more)) <= MOST_LETTERS:
                taken = more
        return QrWords(self.text(taken), self._missing(taken))

    def _missing(self, taken: Mapping[str, str]) -> tuple[str, ...]:
        said = self.wordings[0]
        return tuple(
            p for p in self.importance if p in self.unsaid or (said.get(p) and not taken.get(p))
        )

    def candidates(self) -> tuple[QrWords, ...]:
        """The texts to print, the fullest first; a shorter one only if it says all of it too."""
        fullest = self.fitted()
        tightest = self.text(self.wordings[-1])
        if fullest.left_out or len(tightest) >= len(fullest.text):
            return (fullest,)
        return fullest, QrWords(tightest)


def rig_sayings(snapshot: Snapshot, said: Sequence[Field] = ()) -> Sayings:
    """What the QR of a rig or hooklength says, reading from rod to hook.

    In full; in short (no "nylon", no blanks in figures, diameters without mm); then tighter and
    tighter, as anglers jot: no leading zeros, cm at the last shot alone, only "waggler" of a waggler
    insert, no shank end.
    A name with letters that the set does not have is left out. ``said`` are the label's fields, where
    they are known already.
    """
    full = _parts(snapshot, said or fields(snapshot))
    name, lost = letters(snapshot.name)
    full["name"] = "" if lost else name
    short = {part: shorter(part, text) for part, text in full.items()}
    wordings = [full, short]
    for parts in _TIGHTENED:
        wordings.append({**wordings[-1], **{p: _tight(p, short.get(p, "")) for p in parts}})
    return Sayings(
        wordings=tuple(wordings),
        importance=(
            *("code", "looked for", "size", "hooklength", "count", "hook", "line", "shot"),
            *("set for", PLUMBED, "date", "kind", "name"),
        ),
        one_phrase=("code", "looked for", "size", "kind", "set for", PLUMBED),
        after=("line", "hooklength", "count", "hook", "shot", "date", "name"),
        unsaid=("name",) if lost else (),
    )


def qr_words(snapshot: Snapshot) -> QrWords:
    """The label's words in the alphanumeric set of ISO/IEC 18004, at most 90 letters."""
    return rig_sayings(snapshot).fitted()


def _parts(snapshot: Snapshot, of_label: Sequence[Field]) -> dict[str, str]:
    said = {field.about: field for field in of_label}

    def text_of(about: str) -> str:
        return said[about].full if about in said else ""

    plumbed = plumbed_words(snapshot)
    set_for = text_of("set for").removesuffix(f" ({spaced(plumbed)})")
    depth = set_for and said["set for"].heading == "Depth"
    parts = {
        "code": snapshot.code,
        "looked for": snapshot.looked_for,
        "size": snapshot.size,
        "kind": "" if snapshot.looked_for else kind_words(snapshot),
        "set for": f"depth {set_for}" if depth else set_for,
        PLUMBED: plumbed if set_for else "",
        "line": text_of("line"),
        "hooklength": text_of("hooklength"),
        "hook": f"hook {snapshot.hook}" if snapshot.hook else "",
        "count": f"count {text_of('count')}" if "count" in said else "",
        "shot": text_of("shot").replace(", ", "/"),
        "date": text_of("date"),
    }
    return {part: letters(text)[0] for part, text in parts.items()}


def letters(text: str) -> tuple[str, bool]:
    """The text in the QR's letters, and whether some could not be said."""
    plain = unicodedata.normalize("NFKD", text.translate(_SIGNS))
    plain = "".join(c for c in plain if not unicodedata.combining(c)).translate(_SIGNS).upper()
    plain = _QUOTES.sub("", plain).replace(",", " ")
    said = "".join(c if c in LETTERS else " " for c in plain)
    return " ".join(said.split()), any(c not in LETTERS and not c.isspace() for c in plain)


def shorter(part: str, text: str) -> str:
    """A part in short: no blanks between figures and units, what can be missed left out."""
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
        text = re.sub(r"(?<=\d)(?=SPREAD)", " ", text)
    elif part == "date":
        text = re.sub(r"(\d+) (\w+) \d\d(\d\d)", r"\1\2\3", text)
    return text


def _tight(part: str, text: str) -> str:
    """A part as it is jotted where room is short."""
    text = _LEADING_ZERO.sub(".", text)
    if part == "hook":
        text = re.sub(r" (SPADE|EYED)\b", "", text)
        text = re.sub(r"^(\d+) (?=BARBLESS)", r"\1", text)
    elif part == "kind":
        text = re.sub(
            r"^WAGGLER .*|(?<=.) (FLOAT|FEEDER)$", lambda m: "" if m[1] else "WAGGLER", text
        )
    elif part in ("size", "set for"):
        text = re.sub(r"(?<=\d) NO (?=\d)", "NO", text)
        text = _WHOLE_METRES.sub(lambda m: f"{int(m[1]) / 100:g}M", text)
    elif part == "shot":
        text = text.replace(" SPREAD ", " ").replace("OLIVETTE ", "OLIV ")
        groups = text.split("/")
        placed = [n for n, group in enumerate(groups) if group.endswith("CM")]
        for n in placed[:-1]:
            groups[n] = groups[n].removesuffix("CM")
        text = "/".join(groups)
    return text


@dataclass(frozen=True, slots=True)
class QrShape:
    """A QR's modules without its border: how many a side, and runs (column, row from the top, length)."""

    modules: int
    runs: tuple[tuple[int, int, int], ...]


def _smallest_version(text: str) -> int:
    """Of a text in the QR's letters: two take 11 bits, a last one 6. The library finds the same by writing
    them out, more than once."""
    from qrcode.constants import ERROR_CORRECT_M
    from qrcode.exceptions import DataOverflowError
    from qrcode.util import BIT_LIMIT_TABLE, MODE_ALPHA_NUM, length_in_bits

    letters_take = len(text) // 2 * 11 + len(text) % 2 * 6
    for version, most in enumerate(BIT_LIMIT_TABLE[ERROR_CORRECT_M][1:], 1):
        if 4 + length_in_bits(MODE_ALPHA_NUM, version) + letters_take <= most:
            return version
    raise DataOverflowError


@lru_cache(maxsize=256)
def qr_shape(text: str) -> QrShape:
    """The QR of a text at error level M, in the smallest version that holds it."""
    from qrcode.constants import ERROR_CORRECT_M
    from qrcode.main import QRCode
    from qrcode.util import MODE_ALPHA_NUM, QRData

    drawn = 0
    qr = QRCode(
        _smallest_version(text), error_correction=ERROR_CORRECT_M, border=0, mask_pattern=drawn
    )
    qr.add_data(QRData(text, mode=MODE_ALPHA_NUM))
    qr.make(fit=False)
    best = best_mask(
        qr.modules, drawn
    )  # the library's own choice takes six times as long as all else
    if best != drawn:
        qr.mask_pattern = best
        qr.make(fit=False)
    runs: list[tuple[int, int, int]] = []
    for row, cells in enumerate(qr.get_matrix()):
        line = "".join("1" if cell else "0" for cell in cells)
        runs.extend((m.start(), row, len(m.group())) for m in re.finditer("1+", line))
    return QrShape(len(qr.modules), tuple(runs))
