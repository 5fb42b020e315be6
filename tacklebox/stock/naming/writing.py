"""An item as one line, its figures as they were said; the reader reads it back to the same."""

import re
from collections.abc import Mapping
from dataclasses import replace

from tacklebox.stock.naming.asides import has_number
from tacklebox.stock.naming.described import FIGURES_OF, Described, Figure
from tacklebox.stock.naming.lexicon import all_known
from tacklebox.stock.naming.notes import write_maker
from tacklebox.stock.naming.own import is_own, write_own
from tacklebox.stock.naming.tokens import tokenise
from tacklebox.stock.naming.weights import BOMBS
from tacklebox.stock.naming.words import WORDS
from tacklebox.stock.tables import Kind

Figures = Mapping[str, Figure]


def write(described: Described) -> str:
    """The item in words, without packets and numbers of pieces.

    >>> from tacklebox.stock.naming.reading import described
    >>> write(described("2.2lb mono .1")), write(described("3/8oz bomb"))
    ('nylon 0.10 mm 2.2 lb', 'bomb 3/8 oz')
    """
    figures = described.figures
    written = _WRITERS.get(described.kind, _plain)(described, figures)
    return _joined(*written, _note(described))


def _joined(*pieces: str) -> str:
    """With spaces, but no "size 2 1/2 lb" of a size and half a pound."""
    made = ""
    for piece in pieces:
        runs_on = made[-1:].isdigit() and re.match(r"\d+/\d", piece)
        made += f"{', ' if runs_on else ' '}{piece}" if piece else ""
    return made.strip()


def write_with_pack(described: Described) -> str:
    """As ``write``, with what was said of packets and pieces; it is read back to the same."""
    words, pack = write(described), described.pack
    if pack and not pack.because:
        measured = described.kind in (Kind.LINE, Kind.ELASTIC)
        words = f"{words} {pack.words if measured else f'pack {pack.words}'}"
    if described.packs is not None:
        words = f"{described.packs} packet{'s' * (described.packs > 1)} of {words}"
    if described.left:
        words = f"{described.left.words} left of {words}"
    if described.price_cents is not None:
        words = f"{words} £{described.price_cents / 100:.2f} each"
    if described.count is None:
        return words
    of_a_packet = described.pack is not None and not described.pack.because
    return f"{described.count} {'single' if of_a_packet else 'x'} {words}"


def as_written(described: Described) -> Described:
    """With its notes in the order in which they are written and read back: usual ones before his own."""
    return replace(described, note=", ".join(part for notes in _notes(described) for part in notes))


def _notes(described: Described) -> tuple[list[str], list[str]]:
    """The notes that are usual, and others."""
    known = WORDS[described.kind].get("note", {})
    notes = [note for note in described.note.split(", ") if note]
    return [n for n in notes if n in known], [n for n in notes if n not in known]


def _note(described: Described) -> str:
    """Notes that are usual stand as they are, others in brackets."""
    plain, own = _notes(described)
    if not own:
        return " ".join(plain)
    inside = ", ".join(own)
    read = (
        all_known(tokenise(inside)) or has_number(inside) or "£" in inside
    )  # as part of what it is
    return " ".join([*plain, f"(note: {inside})" if read else f"({inside})"])


def _plain(described: Described, figures: Figures) -> list[str]:
    return [_said(figures, key) for key in FIGURES_OF[described.kind]]


def _said(figures: Figures, key: str) -> str:
    return figures[key].words if key in figures else ""


def _line(_: Described, figures: Figures) -> list[str]:
    words = [_said(figures, "material")]
    words += [
        _said(figures, key).replace(",", "") for key in ("diameter", "strain", "sort", "colour")
    ]
    return [*words, write_maker(_said(figures, "maker")) if "maker" in figures else ""]


def _hook_words(figures: Figures) -> list[str]:
    wire = _said(figures, "wire")
    eye = f"{_said(figures, 'eye')} eye" if "eye" in figures else ""
    return [
        *(_said(figures, key) for key in ("size", "barb")),
        "" if eye else _said(figures, "end"),
        eye,
        f"{wire} wire" if wire and wire != "forged" else wire,
        *(_said(figures, key) for key in ("bend", "colour")),
    ]


def _hook(_: Described, figures: Figures) -> list[str]:
    return ["hook", *_hook_words(figures)]


def _hooklength(_: Described, figures: Figures) -> list[str]:
    material = _said(figures, "material")
    material = "" if material == "nylon" else material
    line = [_said(figures, key) for key in ("diameter", "strain")]
    return [
        "hooklength",
        *_hook_words(figures),
        "to",
        material,
        *line,
        _said(figures, "length"),
        _said(figures, "bait"),
    ]


def _float(_: Described, figures: Figures) -> list[str]:
    family, *rest = _said(figures, "shape").split(" ", 1)
    variety = rest[0] if rest else ""
    stem, tip = _said(figures, "stem"), _said(figures, "tip")
    tip_words = tip if "bristle" in tip else (f"{tip} tip" if tip else "")
    sizes = [_said(figures, key) for key in ("tip diameter", "tip length")]
    if sizes[0]:
        tip_words = f"{tip_words or 'tip'} {' × '.join(size for size in sizes if size)}"
    family = f"{family} float" if family in ("balsa", "flat") else family
    return [
        *(
            family,
            _said(figures, "mark"),
            _said(figures, "carries"),
            variety,
            _said(figures, "body").replace(",", ""),
        ),
        *(
            _said(figures, "material"),
            f"{stem} stem" if stem else "",
            tip_words,
            _said(figures, "colour"),
        ),
    ]


def _weight(_: Described, figures: Figures) -> list[str]:
    return [_said(figures, key) for key in ("form", "mark", "mass", "material")]


def _feeder(_: Described, figures: Figures) -> list[str]:
    shape = _said(figures, "shape")
    first = "" if shape in BOMBS else "feeder"
    return [first, shape, *(_said(figures, key) for key in ("fitting", "mass", "volume", "size"))]


def _part(described: Described, figures: Figures) -> list[str]:
    size, sort = _said(figures, "size"), _said(figures, "sort")
    bare = size[:1].isdigit() and not size.endswith(("mm", "cm", "in", "g", "oz"))
    return [
        write_own(sort) if is_own(described) else sort,
        f"size {size}" if bare else size,
        _said(figures, "strain"),
    ]


def _elastic(_: Described, figures: Figures) -> list[str]:
    return ["elastic", *(_said(figures, key) for key in ("grade", "core", "colour"))]


def _winder(_: Described, figures: Figures) -> list[str]:
    return ["winder", *(_said(figures, key) for key in ("length", "width", "colour"))]


_WRITERS = {
    Kind.LINE: _line,
    Kind.HOOK: _hook,
    Kind.HOOKLENGTH: _hooklength,
    Kind.FLOAT: _float,
    Kind.WEIGHT: _weight,
    Kind.FEEDER: _feeder,
    Kind.PART: _part,
    Kind.ELASTIC: _elastic,
    Kind.WINDER: _winder,
}
