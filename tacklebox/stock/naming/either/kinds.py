"""What kind it is, where a word stands for two: "sleeves", "banded hooks", a stem of wire and of lignum."""

import re
from dataclasses import replace

from tacklebox.stock.naming.asking import asked
from tacklebox.stock.naming.described import FIGURES_OF, Described, Question, word
from tacklebox.stock.naming.either.said import Either
from tacklebox.stock.naming.notes import with_note
from tacklebox.stock.naming.turns import saying
from tacklebox.stock.tables import Kind

_BANDED = saying(r"\bbanded\b(?:\s+[a-z]+)?\s+hooks?\b|\bhooks?\b[\s,-]*banded\b")
_BOTTOM = saying(r"^(?!.*\bsp(?:oo)?ls?\b).*\bbottoms?\b(?!\s+line)")
_HOOKS_IN_KG = saying(
    r"^(?!.*\b(?:to|tied|whipped|nylon|hook\s?lengths?|lengths|line|mono|fluoro\w*)\b)"
    r"(?=.*\bhooks?\b).*\d\s?(?:kg|kilos?)\b"
)
_FLAT_INLINE = saying(r"\bin[\s-]?line\s+flats?\b|\bflats?\s+in[\s-]?line\b")
_LEAD_OR_FEEDER = saying(r"\b(?:leads?|bombs?|methods?|feeders?|weights?)\b")
_EACH = saying(r"\b(?:each|ea|apiece)\b")
_GRAMS = re.compile(r"[\d.]+ g")
_LEAD_NOTED = saying(r"(?<!non )(?<!non-)(?<!no )(?<!not )\blead\b(?!\s*free)")
_LOADED = saying(r"(?<!semi )(?<!part )(?<!half )(?<!not )\b(?:loaded|ldd)\b")
_SORTS_OF = {  # what goes by one word
    "sleeve": ("anti-tangle sleeve", "tail rubber", "silicone tube"),
    "line stop": ("float stop", "ledger stop"),
    "bead": ("quick-change bead", "buffer bead", "ledger bead"),
}


def _loose_or_tied(text: str, made: Described) -> Question | None:
    """ "Banded hooks 16" may be tied to a line already."""
    if made.kind is not Kind.HOOK or "end" in made.figures or not _BANDED.search(text):
        return None
    asks = "Loose hooks? If they are tied, say the line, too."
    return asked(text, "kind", asks, [made], "to 0.15 mm")


def _tied_or_not(text: str, made: Described) -> Question | None:
    """ "Size 20 hooks 5 kg" may be tied to line of 5 kg; loose hooks have no strain."""
    if made.kind is not Kind.HOOKLENGTH or not _HOOKS_IN_KG.search(text):
        return None
    said = made.words_of("strain")
    kept = {key: figure for key, figure in made.figures.items() if key in FIGURES_OF[Kind.HOOK]}
    loose = replace(made, kind=Kind.HOOK, figures=kept)
    asks = f"Are they tied to line of {said}, or loose?"
    return asked(text, "kind", asks, [made, *with_note(loose, said).readings])


def _of_a_kind(text: str, made: Described) -> Question | None:
    """ "Sleeves" alone may be of several kinds."""
    sort = made.words_of("sort")
    if (
        made.kind is not Kind.PART
        or sort not in _SORTS_OF
        or text.lower() not in (sort, f"{sort}s")
    ):
        return None
    each = [replace(made, figures={**made.figures, "sort": word(one)}) for one in _SORTS_OF[sort]]
    return asked(text, "sort", f"Which kind of {sort}?", [*each, made])


def _in_all_or_load(text: str, made: Described) -> Question | None:
    """ "Loaded waggler 6 g" carries 6 g with its loading, or is loaded with so much."""
    mark = made.words_of("mark")
    pellet = made.words_of("shape") == "waggler pellet"  # it takes no shot
    if not _GRAMS.fullmatch(mark) or not _LOADED.search(text) or pellet or "takes" in made.note:
        return None
    alone = f"{mark} is its loading alone"
    loading = replace(made, note=", ".join(filter(None, (made.note, alone))))
    return asked(text, "mark", f"Is {mark} all that it carries, with its loading?", [made, loading])


def _of_lead(text: str, made: Described) -> Question | None:
    """What a note calls lead is hardly tin, and the law asks."""
    material = made.figures.get("material")
    if made.kind is not Kind.WEIGHT or material is None or not material.because:
        return None
    if not _LEAD_NOTED.search(made.note):
        return None
    lead = replace(made, figures={**made.figures, "material": word("lead")})
    return asked(text, "material", "Is it of lead?", [lead, made])


def _either_stem(text: str, made: Described) -> Question | None:
    """A float has one stem: "wire stem lignum" names two."""
    stems = made.words_of("stem").split(", ")
    if made.kind is not Kind.FLOAT or len(stems) < 2:
        return None
    each = [replace(made, figures={**made.figures, "stem": word(one)}) for one in stems]
    return asked(text, "stem", f"Which is its stem, {' or '.join(stems)}?", [*each, made])


def _line_or_tied(text: str, made: Described) -> Question | None:
    """ "2.6 lb bottom 0.10" is line off a spool, or hooklengths that are tied."""
    long = made.pack is not None and not made.pack.because
    if made.kind is not Kind.LINE or long or made.left or not _BOTTOM.search(text):
        return None
    asks = "Is it line on a spool? Of tied hooklengths say the hook, too."
    return asked(text, "kind", asks, [made], "size 18")


def _lead_or_feeder(text: str, made: Described) -> Question | None:
    """ "In line flat 45 g" may be a lead, or a flat method feeder."""
    flat = made.kind is Kind.FEEDER and made.words_of("shape") == "flat lead"
    if not flat or not _FLAT_INLINE.search(text) or _LEAD_OR_FEEDER.search(text):
        return None
    feeder = replace(made, figures={**made.figures, "shape": word("flat method")})
    return asked(text, "shape", "A flat lead, or a flat method feeder?", [made, feeder])


def _each_of_a_box(text: str, made: Described) -> Question | None:
    """ "Winders, box of ten, 60p each": each winder, or each box."""
    held = made.pack_size if made.pack and not made.pack.because else None
    if made.kind is not Kind.WINDER or not held or made.packs or made.price_cents is None:
        return None
    if not _EACH.search(text):
        return None
    of_one = replace(made, price_cents=made.price_cents * held)
    return asked(text, "price", "Is that the price of one, or of the box?", [of_one, made])


RULES: tuple[Either, ...] = (
    _each_of_a_box,
    _lead_or_feeder,
    _of_a_kind,
    _loose_or_tied,
    _tied_or_not,
    _line_or_tied,
    _in_all_or_load,
    _of_lead,
    _either_stem,
)
