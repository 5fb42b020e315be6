"""What was understood at once and may as well be meant otherwise is asked: "caster hooks 20" are of size 20
or twenty of them, "hooks 16 x 10" ten hooks or ten packets, "3 AAA wagglers" three floats or what one takes.

Each way of saying it both ways is a rule of its own; what an item's own words say in full is never asked.
"""

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from tacklebox.stock.naming.asking import MOST_READINGS, asked
from tacklebox.stock.naming.counting import FEW
from tacklebox.stock.naming.described import (
    Described,
    Figure,
    Question,
    Reads,
    assumed,
    if_understood,
    mass,
    word,
)
from tacklebox.stock.naming.tries import usual_of
from tacklebox.stock.naming.turns import saying
from tacklebox.stock.naming.usual import CHOICE
from tacklebox.stock.naming.weights import BOMBS
from tacklebox.stock.naming.writing import write, write_with_pack
from tacklebox.stock.tables import Kind

COUNTED_HOOKS = (10, 12, 15, 20, 24, 25, 30)  # bare numbers that hooks come in
USUAL_SIZES = ("18", "16")  # of hooks that are counted and have none said
MOST_PACKETS = 20  # that "x 10" may be
MOST_FLOATS = 6  # of one kind that "3 AAA wagglers" may be
SHORT = 3  # words of "cage feeder 20"
_NOT_BARE = r"(?<![\w./×#-])(?<!size )(?<!sz )(?<!no )(?<!no\. )(?<!number )(?<!nr )"
_SAID_SIZE = saying(r"\b(?:size|sz|sizes)\b")
_NAMED_HOOKS = saying(r"\b(?:hooks|hks|trebles|singles)\b")
_FEW_IN_PACKET = saying(
    r"\b(?:pkts?|packets?|packs?|pks?|bags?)\s+(?P<many>[2-5])\b(?!\s*(?:of|[x×]))"
)
_SO_MANY_PACKETS = saying(
    r"\b(?P<many>\d{1,2})(?P<sized>s?)\s+(?P<packet>pkts?|pks?|packs?|packets?)\b"
)
_TIMES = saying(r"(?:[x×]\s*(?P<behind>\d{1,2})\b(?!\s*[x×./]))|(?:^(?P<before>\d{1,2})\s*[x×]\s)")
_MARKED = re.compile(r"(?P<many>[2-9])\s?(?P<each>AAA|AB|BB|SSG|No \d{1,2})")
_BANDED = saying(r"\bbanded\b(?:\s+[a-z]+)?\s+hooks?\b|\bhooks?\b[\s,-]*banded\b")
_MIXED = saying(
    r"\b(?:assorted|asst\.?|asstd|assort(?:ment)?|mixed|mix|various|set\s+of|selection|odd|odds)\b|\d\s*mm\b"
)
_SAYS_WHICH = ("mass", "mark", "material")  # and what is assumed
_FLOATS = saying(
    r"\b(?:wagglers|waggs|wags|floats|sticks|dibbers|onions|sliders|avons|quills|insert(?:s|ed)?\s+wagglers)\b"
)
_GRAMS = re.compile(r"[\d.]+ g")
_LOADED = saying(r"\b(?:loaded|ldd)\b")
_SORTS_OF = {  # what goes by one word
    "sleeve": ("anti-tangle sleeve", "tail rubber", "silicone tube"),
    "bead": ("quick-change bead", "buffer bead", "ledger bead"),
}
_OR = saying(r"\b(?P<one>[a-z]{4,})\s+/\s+(?P<other>[a-z]{4,})\b")

Either = Callable[[str, Described, Reads], Question | None]


def or_either(text: str, made: Described | Question, reads: Reads) -> Described | Question:
    """What was read, or the question which of two ways of taking the words is meant.

    ``reads`` reads a phrase.
    """
    if isinstance(made, Question):
        return _with_more(text, made)
    if write_with_pack(made).lower() == text.lower():
        return made
    for rule in _RULES:
        if question := rule(text, made, reads):
            return question
    return made


def _is_untold(made: Described) -> bool:
    """Whether nobody said how many there are."""
    told = made.pack is not None and not made.pack.because
    return made.count is None and made.packs is None and made.left is None and not told


def _bare(number: str) -> str:
    return rf"{_NOT_BARE}\b{re.escape(number)}(?![\w/×-]|\.\d)"


def _size_or_count(text: str, made: Described, _: Reads) -> Question | None:
    """ "Caster hooks 20", "swivels 12"."""
    size = made.words_of("size")
    if made.kind not in (Kind.PART, Kind.HOOK) or not size.isdecimal() or int(size) < 2:
        return None
    if not _is_untold(made) or _SAID_SIZE.search(text):
        return None
    if not re.search(rf"{_plural(made)}.*?{_bare(size)}", text, re.IGNORECASE):
        return None
    without = {key: figure for key, figure in made.figures.items() if key != "size"}
    asks = f"Is {size} the size, or how many there are?"
    if made.kind is Kind.PART:
        so_many = replace(made, figures=without, count=int(size))
        return asked(text, "count", asks, [made, so_many])
    if made.kind is not Kind.HOOK or int(size) not in COUNTED_HOOKS:
        return None
    sized = [
        replace(made, figures={**without, "size": word(one)}, count=int(size))
        for one in USUAL_SIZES
    ]
    return asked(
        text, "count", f"{asks} Of so many, say their size, too.", [made, *sized], "size 18"
    )


def _plural(made: Described) -> str:
    """The things that are named, in the plural."""
    if made.kind is Kind.HOOK:
        return _NAMED_HOOKS.pattern
    return rf"\b{re.escape(made.words_of('sort').split()[-1])}e?s\b"


def _held_or_packets(text: str, made: Described, _: Reads) -> Question | None:
    """ "Bushes 2.3 mm pkt 2" are two packets, or one of two."""
    found = _FEW_IN_PACKET.search(text)
    held = made.pack_size if made.pack and not made.pack.because else None
    if found is None or held != int(found["many"]) or made.packs or made.count:
        return None
    if made.kind not in (Kind.PART, Kind.HOOK):
        return None
    return _pieces_or_packets(text, made, held)


def _size_or_held(text: str, made: Described, _: Reads) -> Question | None:
    """ "Swivels 12 pkt" are a packet of twelve, or one of size 12, or twelve packets; "10s pkt" likewise."""
    found = _SO_MANY_PACKETS.search(text)
    if found is None or made.kind is not Kind.PART or made.packs or made.count:
        return None
    many = int(found["many"])
    if made.words_of("size") == str(many) and found["sized"] and _is_untold(made):
        without = {key: figure for key, figure in made.figures.items() if key != "size"}
        held = replace(made, figures=without, pack=Figure(many, str(many)))
        return asked(text, "pack", f"Is {many} the size, or what a packet holds?", [made, held])
    if made.pack_size != many or "size" in made.figures or found["packet"].endswith("s"):
        return None
    bare = replace(made, pack=usual_of(made))
    sized = replace(bare, figures={**made.figures, "size": word(str(many))})
    asks = f"Does a packet hold {many}, or is it the size, or how many packets?"
    return asked(text, "pack", asks, [made, sized, replace(bare, packs=many)])


def _times(text: str, made: Described, _: Reads) -> Question | None:
    """ "Hooks 16 x 10" are ten hooks, or ten packets."""
    found = _TIMES.search(text)
    if found is None or made.kind is not Kind.HOOK or made.packs:
        return None
    many = int(found["behind"] or found["before"])
    held = made.pack_size if made.pack and not made.pack.because else None
    if not FEW < many <= MOST_PACKETS or many not in (made.count, held):
        return None
    if made.count and held:
        return None
    return _pieces_or_packets(text, made, many)


def _pieces_or_packets(text: str, made: Described, many: int) -> Question:
    packets = replace(made, pack=usual_of(made), packs=many, count=None)
    return asked(text, "packs", f"{many} in all, or {many} packets?", [made, packets])


def _floats_or_mark(text: str, made: Described, _: Reads) -> Question | None:
    """ "3 AAA wagglers" are three of them, or each takes 3AAA."""
    marked = _MARKED.fullmatch(made.words_of("mark"))
    if made.kind is not Kind.FLOAT or made.count or marked is None or not _FLOATS.search(text):
        return None
    many, each = int(marked["many"]), marked["each"]
    spaced = re.search(
        rf"(?<![\w.]){many}\s+(?:[x×]\s+|(?:no|number)\b)|(?<![\w.]){many}\s*(?:[x×]\s*)no|(?<![\w.]){many}\s+(?=aaa|ab|bb|ssg|swan)",
        text,
        re.IGNORECASE,
    )
    if spaced is None or many > MOST_FLOATS:
        return None
    mark = f"1 {each}" if each.startswith("No") else f"1{each}"
    one = replace(made, figures={**made.figures, "mark": word(mark)}, count=many)
    asks = f"Does each take {made.words_of('mark')}, or are there {many} of them?"
    return asked(text, "count", asks, [made, one])


def _grams_or_count(text: str, made: Described, _: Reads) -> Question | None:
    """ "Bomb 15" weighs 15 g, or there are fifteen."""
    said = made.words_of("mass").removesuffix(" g")
    short = len(text.split()) <= SHORT
    if made.kind is not Kind.FEEDER or not said.isdecimal() or not _is_untold(made) or not short:
        return None
    if not re.search(rf"{_bare(said)}$", text):
        return None
    usual = "1/2 oz" if made.words_of("shape") in BOMBS else "30 g"
    so_many = replace(made, figures={**made.figures, "mass": mass(usual)}, count=int(said))
    asks = f"Does one weigh {said} g, or are there {said} of them? Of so many, say the weight, too."
    return asked(text, "count", asks, [made, so_many], usual)


def _with_more(text: str, made: Question) -> Question:
    """The question, with what else may be meant: so many of it, or an assorted lot."""
    more = [*_so_many(text, made), *_assorted(text, made)]
    if not more:
        return made
    return replace(made, readings=(*made.readings[: MOST_READINGS - len(more)], *more))


def _so_many(text: str, made: Question) -> Iterator[Described]:
    """ "Feeders 11" may be eleven of them."""
    for one in made.readings[:1] if made.about == "shape" else ():
        said = one.words_of("mass").partition(" ")[0]
        bare = re.search(rf"{_bare(said)}(?!\s*(?:g|oz))", text, re.IGNORECASE)
        if one.kind is Kind.FEEDER and said.isdecimal() and _is_untold(one) and bare:
            yield replace(one, figures={**one.figures, "mass": mass("30 g")}, count=int(said))


def _assorted(text: str, made: Question) -> Iterator[Described]:
    """ "Drilled bullets assorted" go by no weight: they may be kept by that name."""
    for one in made.readings[:1] if made.about in ("mass", "mark") and _MIXED.search(text) else ():
        bare = replace(one, figures={k: f for k, f in one.figures.items() if k not in _SAYS_WHICH})
        name = re.sub(r"\s*\((?:note:\s*)?([^()]*)\)", r" \1", write(bare))
        own = replace(one, kind=Kind.PART, figures={"sort": word(name)}, note="")
        yield (
            own if own.pack and not own.pack.because else replace(own, pack=assumed(1, "1", CHOICE))
        )


def _loose_or_tied(text: str, made: Described, _: Reads) -> Question | None:
    """ "Banded hooks 16" may be tied to a line already."""
    if made.kind is not Kind.HOOK or "end" in made.figures or not _BANDED.search(text):
        return None
    asks = "Loose hooks? If they are tied, say the line, too."
    return asked(text, "kind", asks, [made], "to 0.15 mm")


def _of_a_kind(text: str, made: Described, _: Reads) -> Question | None:
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


def _size_or_in_each(text: str, made: Described, _: Reads) -> Question | None:
    """ "2 packets 12 carp hooks" are of size 12, or hold twelve each."""
    size = made.words_of("size")
    if made.kind is not Kind.HOOK or not made.packs or not made.pack or not made.pack.because:
        return None
    bare = rf"\b(?:packets|packs|pkts|pks)\s+(?:of\s+)?{size}\s+(?:[a-z]+\s+)*hooks\b"
    if int(size) not in COUNTED_HOOKS if size.isdecimal() else True:
        return None
    if not re.search(bare, text, re.IGNORECASE):
        return None
    held = Figure(int(size), size)
    sized = [
        replace(made, figures={**made.figures, "size": word(one)}, pack=held) for one in USUAL_SIZES
    ]
    asks = f"Is {size} the size, or what each packet holds? Of so many, say their size, too."
    return asked(text, "pack", asks, [made, *sized], "size 18")


def _hook_or_count(text: str, made: Described, _: Reads) -> Question | None:
    """ "Hooklengths 20 x 0.09" have a hook of size 20, or are twenty."""
    size = made.words_of("size")
    if made.kind is not Kind.HOOKLENGTH or not size.isdecimal() or not _is_untold(made):
        return None
    if not re.search(rf"s\s+{size}\s*[x×]\s*0?\.\d", text, re.IGNORECASE):
        return None
    so_many = replace(made, figures={**made.figures, "size": word("18")}, count=int(size))
    asks = f"Is {size} the hook, or how many there are? Of so many, say the hook, too."
    return asked(text, "count", asks, [made, so_many], "size 18")


def _in_all_or_load(text: str, made: Described, _: Reads) -> Question | None:
    """ "Loaded waggler 6 g" carries 6 g with its loading, or is loaded with so much."""
    mark = made.words_of("mark")
    pellet = made.words_of("shape") == "waggler pellet"  # it takes no shot
    if not _GRAMS.fullmatch(mark) or not _LOADED.search(text) or pellet or "takes" in made.note:
        return None
    alone = f"{mark} is its loading alone"
    loading = replace(made, note=", ".join(filter(None, (made.note, alone))))
    return asked(text, "mark", f"Is {mark} all that it carries, with its loading?", [made, loading])


def _either_stem(text: str, made: Described, _: Reads) -> Question | None:
    """A float has one stem: "wire stem lignum" names two."""
    stems = made.words_of("stem").split(", ")
    if made.kind is not Kind.FLOAT or len(stems) < 2:
        return None
    each = [replace(made, figures={**made.figures, "stem": word(one)}) for one in stems]
    return asked(text, "stem", f"Which is its stem, {' or '.join(stems)}?", [*each, made])


def _one_or_other(text: str, made: Described, reads: Reads) -> Question | None:
    """ "Tail rubbers / sleeves" names two parts."""
    found = _OR.search(text)
    if found is None or made.kind is not Kind.PART:
        return None
    before, behind = text[: found.start()], text[found.end() :]
    first = if_understood(f"{before}{found['one']}{behind}", reads)
    other = if_understood(f"{before}{found['other']}{behind}", reads)
    if not isinstance(first, Described) or not isinstance(other, Described):
        return None
    if first.words_of("sort") == other.words_of("sort"):
        return None
    asks = f"{found['one'].capitalize()}, or {found['other']}?"
    return asked(text, "kind", asks, [first, other])


_RULES: Sequence[Either] = (
    _of_a_kind,
    _size_or_in_each,
    _hook_or_count,
    _in_all_or_load,
    _size_or_count,
    _held_or_packets,
    _size_or_held,
    _times,
    _floats_or_mark,
    _grams_or_count,
    _loose_or_tied,
    _either_stem,
    _one_or_other,
)
