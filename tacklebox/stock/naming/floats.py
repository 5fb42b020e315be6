"""Floats by kind and by what they carry: "peacock waggler 4BB", "slim 4×14 wire stem", "2+2AAA"."""

import itertools
from collections.abc import Iterable, Sequence
from dataclasses import replace

from tacklebox.errors import AskedWronglyError
from tacklebox.stock.naming import usual
from tacklebox.stock.naming.described import Figure, diameter, length, mass, word
from tacklebox.stock.naming.hand import Attempt, Hand, has_unit, is_sign, is_whole, run_at
from tacklebox.stock.naming.lexicon import LEXICON, MARK_LETTERS
from tacklebox.stock.naming.tokens import Token
from tacklebox.stock.tables import UNMARKED, Kind
from tacklebox.trade.floats import POLE_MARKS, read_capacity

# Of several kinds that are said, the one that a float goes by; the others describe its body.
GOES_BY = (
    *(
        "waggler pellet",
        "waggler slider",
        "waggler driftbeater",
        "waggler antenna",
        "waggler onion",
    ),
    *("dibber", "flat", "bolo", "chubber", "avon", "balsa", "waggler loaded", "waggler insert"),
    *("waggler bodied", "waggler straight", "stick", "pole", "waggler"),
)
WITH_POLE = ("flat", "dibber", "bolo")
BY_GRAMS = ("pole", "dibber", "flat", "bolo", "waggler pellet")
USUAL_MARKS = {
    "waggler pellet": ("4 g", "6 g", "8 g"),
    "waggler slider": ("3SSG", "4SSG"),
    "waggler": ("2BB", "3BB", "4BB", "5BB", "2AAA", "3AAA"),
    "stick": ("4 No 4", "5 No 4", "6 No 4", "8 No 4"),
    "pole": ("4×10", "4×12", "4×14", "4×16", "0.5 g", "1 g"),
    "flat": ("5 g", "10 g", "15 g"),
    "bolo": ("3 g", "4 g", "6 g"),
    "dibber": ("0.1 g", "0.2 g", "0.3 g"),
}
USUAL_MARK = ("3AAA", "4AAA", "3SSG", "4SSG", "6 g")
HAVE_INSIDE = ("load", "ldd", "pellet", "slider", "semi")
OWN_SIZES = range(3, 7)  # the first figure of pole floats
STEPS_G = (0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.6, 0.75, 1, 1.25, 1.5, 2, 3)
MOST_STEPS = 4  # that are offered
SIGN_X = is_sign("x")
NAMES = ("waggler", "wag", "float", "slider", "bolo", "avon")
THICKEST_MM = 10  # of a tip, where it is said in mm
THICKEST_TIP_MM = 7


def read_float(tokens: Iterable[Token]) -> Attempt:
    """The phrase as a float."""
    tokens, fished = _without_what_for(_tips_in_mm(list(tokens)))
    hand = Hand(tokens)
    made = Attempt(Kind.FLOAT, note=fished)
    telling = _mark(made, hand)
    if "mark" not in made.figures and not made.doubts and hand.one(is_sign(UNMARKED)):
        made.figures["mark"] = word(UNMARKED)
    said = hand.words(LEXICON[Kind.FLOAT])
    made.note = ", ".join(n for n in (*said.get("note", ()), made.note) if n)
    if "mark" not in made.figures and not said.get("shape") and "name" in said and not made.doubts:
        bare = hand.one(lambda t: _bare_mark(t) and "." in t.text)
        if bare:  # "float .3"
            _set(made, f"{bare.text} g")
    bodies = [*said.get("body", ()), *said.get("bulk", ())]
    by_bristle = any("bristle" in tip for tip in said.get("tip", ()))
    if said.get("shape") == ["waggler bodied"] and by_bristle and not _is_waggler(tokens):
        said["shape"] = ["pole"]  # wagglers have no bristle
        made.note = ", ".join(n for n in (made.note, "bodied") if n)
    for key, values in {**said, "body": bodies}.items():
        if values and key in ("material", "body", "stem", "tip", "colour"):
            made.figures[key] = word(", ".join(values))
    _grams_beside(made, hand)
    _tip(made, hand)
    if "mark" in made.figures and (
        long := hand.one(has_unit("in", "cm", "mm"))
    ):  # "3AAA, ten inch"
        made.note = ", ".join(n for n in (made.note, long.said) if n)
    named = said.keys() & {"shape", "material", "body", "stem", "tip", "name"}
    if said.get("shape") == ["waggler pellet"] and not _is_waggler(tokens):
        named -= {"shape"}  # "16s for banded pellet"
    if said.get("tip") == ["hollow"] and not any(token.text == "tip" for token in tokens):
        named -= {"tip"}  # elastic is hollow, too
    made.evident = telling or bool(named)
    _shape(made, said.get("shape", []), "name" in said or bool(said))
    _mark_left_over(made, hand)
    made.left = hand.rest()
    return made


def _is_waggler(tokens: Iterable[Token]) -> bool:
    return any("wag" in token.text or token.text.startswith("spl") for token in tokens)


def _without_what_for(tokens: list[Token]) -> tuple[list[Token], str]:
    """The tokens without what it is fished with, a note: a pole float "for pellet" is no pellet waggler."""
    for at, (joint, bait) in enumerate(itertools.pairwise(tokens)):
        if joint.text == "for" and bait.text in ("pellet", "pellets"):
            return [*tokens[:at], *tokens[at + 2 :]], "pellet"
    return tokens, ""


def _tips_in_mm(tokens: list[Token]) -> list[Token]:
    """A bare decimal after a tip is its thickness: "cane tip 1.5"."""
    for at, (before, token) in enumerate(itertools.pairwise(tokens), 1):
        bare = token.kind == "number" and not token.unit and not token.lead and "." in token.text
        if before.text in ("tip", "bristle") and bare and token.value < THICKEST_TIP_MM:
            tokens[at] = replace(token, unit="mm")
    return tokens


def _mark(made: Attempt, hand: Hand) -> bool:
    """Take what it carries; whether the mark is one that only floats have."""
    crossed = None if _so_many_of(hand) else hand.take(is_whole(1, 9), SIGN_X, is_whole(1, 99))
    slashed = None if crossed else hand.take(is_whole(3, 5), is_sign("/", "-"), is_whole(10, 20))
    if slashed:
        made.doubt("mark", [{"mark": word(f"{slashed[0].text}×{slashed[2].text}")}])
        return False
    if crossed:
        number, size = int(crossed[0].value), int(crossed[2].value)
        by_size = size >= 10 or _is_of_a_pole(hand)
        grams = hand.one(has_unit("g")) if by_size and not _is_known(number, size) else None
        if grams:  # a mark that no table has goes by what it carries
            _set(made, grams.said)
            made.note = f"{number}×{size}"
            return True
        if not by_size:
            made.doubt("mark", [{"mark": word(f"{number} No {size}")}])
        else:
            _pole_mark(made, number, size)
        return True
    _without_times(hand)
    if times := hand.take(is_whole(1, 40), SIGN_X, is_whole(1, 13, "no")):  # "8 x no. 4"
        _set(made, f"{times[0].text} No {times[2].text}")
        return False
    turned = hand.take(is_whole(1, 13, "no"), SIGN_X, is_whole(2, 40))
    if turned:  # "no 4 x 6"
        made.doubt("mark", [{"mark": word(f"{turned[2].text} No {turned[0].text}")}])
        return False
    return _in_shot_or_grams(made, hand)


def _without_times(hand: Hand) -> None:
    """ "6 x BB" is what it takes, as "6BB" is."""
    for at, (many, times) in enumerate(itertools.pairwise(hand.left)):
        if is_whole(1, 20)(many) and SIGN_X(times) and run_at(hand.left, at + 2, MARK_LETTERS):
            del hand.left[at + 1]
            return


def _in_shot_or_grams(made: Attempt, hand: Hand) -> bool:
    """Take what it carries in shot or grams, what is inside it too; whether only floats have such a mark."""
    if _in_two_sorts(made, hand):
        return True
    both = hand.take(_is_grams, is_sign("+"), has_unit("g"))
    shot = any(run_at(hand.left, at, MARK_LETTERS) for at in range(len(hand.left)))
    bare = None if both or shot else hand.take(has_unit("g"), is_sign("+"), _is_count)
    if bare:  # "3g+1"
        both = (bare[0], bare[1], replace(bare[2], unit="g"))
    if both:  # "2 g + 1 g", "3+1.5 g"
        _set(made, f"{both[0].text}+{both[2].said}")
        return True
    loaded = hand.take(_is_count, is_sign("+"), _is_count)
    for at, token in enumerate(hand.left):
        if found := run_at(hand.left, at, MARK_LETTERS):
            (_, mark), end = found
            before = hand.left[at - 1] if at and _is_count(hand.left[at - 1]) else None
            start = at - 1 if before else at
            _lettered(made, mark, before or (loaded[2] if loaded else None), loaded)
            del hand.left[start:end]
            return loaded is not None
        if token.lead == "no" and at and is_whole(1, 40)(hand.left[at - 1]) and token.whole:
            _set(made, f"{int(hand.left[at - 1].value)} No {int(token.value)}")
            del hand.left[at - 1 : at + 1]
            return False
    if grams := hand.one(has_unit("g", "mg", *(("oz",) if _is_named(hand) else ()))):
        _set(made, mark := _loaded_of(grams, loaded))
        hand.left += loaded if loaded and mark == grams.said else ()
    elif loaded:  # "loaded wag 3+1.5"
        inside, on = (_plain(loaded[at]) for at in (0, 2))
        made.doubt("mark", ({"mark": word(f"{inside}+{on}{u}")} for u in (" g", "SSG", "AAA")))
    return False


def _in_two_sorts(made: Attempt, hand: Hand) -> bool:
    """ "4 g + 2BB", "2SSG + 2BB" of a loaded float: another sort inside it than on the line."""
    left = hand.left
    if not any(token.text.startswith(HAVE_INSIDE) for token in left):
        return False
    for at in range(1, len(left) - 2):
        on = run_at(left, at + 2, MARK_LETTERS)
        if not (is_sign("+")(left[at]) and _is_count(left[at + 1]) and on):
            continue
        (_, mark), end = on
        within, start = "", at - 1
        if has_unit("g")(left[at - 1]):
            within = left[at - 1].said
        elif at > 1 and (sort := run_at(left, at - 1, MARK_LETTERS)) and _is_count(left[at - 2]):
            within, start = f"{_plain(left[at - 2])}{sort[0][1]}", at - 2
        if within and mark == "AA":  # one letter short, or AB
            on_line = f"{within}+{_plain(left[at + 1])}"
            made.doubt("mark", ({"mark": word(f"{on_line}{size}")} for size in ("AAA", "AB")))
        elif within:
            _set(made, f"{within}+{_plain(left[at + 1])}{mark}")
        if within:
            del left[start:end]
            return True
    return False


def _loaded_of(grams: Token, loaded: Sequence[Token] | None) -> str:
    """ "12 g (10+2)" is ten inside and two to put on."""
    if loaded and loaded[0].value + loaded[2].value == grams.value:
        return f"{_plain(loaded[0])}+{_plain(loaded[2])} {grams.unit}"
    return grams.said


def _is_grams(token: Token) -> bool:
    return _is_count(token) or has_unit("g")(token)


def _is_named(hand: Hand) -> bool:
    """Whether it is called a float, and no lead, so that it may go by ounces."""
    return any(token.text.removesuffix("s") in NAMES for token in hand.left)


def _so_many_of(hand: Hand) -> bool:
    """Whether "2 x 16s" are two of them, for floats have no such mark."""
    runs = zip(hand.left, hand.left[1:], hand.left[2:], strict=False)
    return any(
        SIGN_X(times) and size.plural and f"{many.text}×{size.text}" not in POLE_MARKS
        for many, times, size in runs
    )


def _is_known(number: int, size: int) -> bool:
    return f"{number}×{size}" in POLE_MARKS


def _is_of_a_pole(hand: Hand) -> bool:
    """Whether "4×8" is its size, and no 4 No 8."""
    return any(token.text.removesuffix("s") in ("pole", "dibber", "bristle") for token in hand.left)


def _grams_beside(made: Attempt, hand: Hand) -> None:
    """ "4×14 0.40 g": the grams are what it carries, and the mark what it goes by."""
    if "mark" not in made.figures or made.figures["mark"].words.endswith("g"):
        return
    if grams := hand.one(has_unit("g")):
        carried = mass(grams.said)
        nominal = read_capacity(made.figures["mark"].words).mass_g
        if not nominal / 2 <= float(carried.value) <= nominal * 2:
            made.doubt("mark", [{"mark": word(grams.said)}, {"mark": made.figures["mark"]}])
        else:
            made.figures["carries"] = carried


def _is_count(token: Token) -> bool:
    return (
        token.kind == "number"
        and not token.unit
        and token.lead in ("", "count")
        and 0 < token.value < 50
    )


def _set(made: Attempt, mark: str) -> None:
    try:
        nominal = read_capacity(mark).mark
        as_said = mark.endswith(("g", "oz")) and "+" not in mark
        made.figures["mark"] = word(mark if as_said else nominal)
    except AskedWronglyError as error:
        made.fault = str(error)


def _can_be(mark: str) -> bool:
    try:
        return read_capacity(mark).mass_g > 0
    except AskedWronglyError:
        return False


def _pole_mark(made: Attempt, number: int, size: int) -> None:
    mark = f"{number}×{size}"
    if mark in POLE_MARKS:
        made.figures["mark"] = word(mark)
        return
    near = [
        known
        for known in POLE_MARKS
        if known[0] == str(number) and abs(int(known.partition("×")[2]) - size) <= 2
    ]
    asks = f'No capacity is known for the mark "{mark}".'
    marks = [{"mark": word(known)} for known in near or POLE_MARKS]
    if number in OWN_SIZES and size in range(8, 31, 2):  # made in it, and in no table
        made.note = mark
        asks = f"{asks} What does it carry?"
        marks = [{"mark": word(f"{grams:g} g")} for grams in _nearest_g(number, size)]
    made.doubt("mark", marks, asks=asks)


def _nearest_g(number: int, size: int) -> list[float]:
    """What a float of a size that no table has may carry, the likeliest first (our choice): it grows
    with both of its figures."""
    of_four = {int(known[2:]): g for known, (g, _) in POLE_MARKS.items() if known[0] == "4"}
    near = min(of_four, key=lambda known: (abs(known - size), known))
    likely = of_four[near] * number / 4 * (size / near) ** 2
    return sorted(STEPS_G, key=lambda grams: abs(grams - likely))[:MOST_STEPS]


def _lettered(
    made: Attempt, mark: str, count: Token | None, loaded: Sequence[Token] | None
) -> None:
    """ "4BB", "2+2AAA"; "3AA" is perhaps 3AAA, and a mark without its number is asked."""
    if loaded:
        _set(made, f"{_plain(loaded[0])}+{_plain(loaded[2])}{'AAA' if mark == 'AA' else mark}")
    elif count is None:
        sizes = (mark,) if mark != "AA" else ("AAA", "AB")
        made.doubt("mark", ({"mark": word(f"{n}{size}")} for size in sizes for n in (1, 2, 3)))
    elif mark == "AA":
        made.doubt("mark", ({"mark": word(f"{_plain(count)}{size}")} for size in ("AAA", "AB")))
    else:
        _set(made, f"{_plain(count)}{mark}")


def _plain(token: Token) -> str:
    """ "2.5" of "2 1/2": half a shot is said in both ways."""
    return f"{token.value:g}"


def _tip(made: Attempt, hand: Hand) -> None:
    sized = hand.take(_is_thick, SIGN_X, has_unit("mm")) or hand.take(_is_thick)
    if sized is None and "tip" in made.figures and "mark" in made.figures:
        sized = hand.take(
            lambda t: (
                t.kind == "number" and not t.unit and "." in t.text and t.value < THICKEST_TIP_MM
            )
        )
    if sized:
        made.figures["tip diameter"] = _thick(sized[0])
        if len(sized) > 1:
            made.figures["tip length"] = length(sized[2].said)


def _is_thick(token: Token) -> bool:
    """Whether it may be a tip's thickness; more is how long the float is."""
    return token.unit == "mm" and token.value <= THICKEST_MM


def _thick(token: Token) -> Figure:
    made = diameter(token.text, "mm")
    return Figure(made.value, f"{token.text} mm")


def _shape(made: Attempt, shapes: Sequence[str], named: bool) -> None:
    """Set what kind of float it is; "peacock 4BB" is a waggler, "4×14 wire stem" a pole float."""
    shape = next((shape for shape in GOES_BY if shape in shapes), "")
    others = [s for s in shapes if s not in (shape, "waggler")]
    if shape in WITH_POLE or shape == "pole" or not shape:  # "foam bodied pole float"
        others = [s for s in others if s not in ("pole", "waggler bodied")]
    mark = made.figures.get("mark", word("")).words
    if _cannot_both_be(shape, others):
        either = [s for s in (shape, *others) if "×" not in mark or s in BY_GRAMS]
        made.doubt("shape", ({"shape": word(s)} for s in either))
        return
    if others and shape.startswith(("waggler", "chubber")):
        body = [made.figures["body"].words] if "body" in made.figures else []
        body += [s.removeprefix("waggler ") for s in others]
        made.figures["body"] = word(", ".join(body))
    shape = shape or _by_its_parts(made)
    if "×" in mark and shape and shape not in BY_GRAMS:
        made.doubt("shape", [{"shape": word("pole")}])
    elif shape == "waggler":
        made.figures["shape"] = word("waggler loaded") if "+" in mark else usual.STRAIGHT
    elif shape:
        made.figures["shape"] = word(shape)
    else:
        _any_shape(made, named)


def _cannot_both_be(shape: str, others: Sequence[str]) -> bool:
    """Whether a waggler is said to be a stick, or the like."""
    every = {shape, *others}
    fixed_twice = {"stick", "pole", "avon", "bolo", "flat", "dibber"} & every
    return bool(fixed_twice) and any(s.startswith("waggler") for s in every)


def _by_its_parts(made: Attempt) -> str:
    """What a float is by its parts, where no kind is named."""
    stem = str(made.figures["stem"].value) if "stem" in made.figures else ""
    mark = str(made.figures["mark"].value) if "mark" in made.figures else ""
    material = str(made.figures["material"].value) if "material" in made.figures else ""
    body = str(made.figures["body"].value) if "body" in made.figures else ""
    if "+" in mark:
        return "waggler loaded"
    if material == "balsa" and mark.endswith(("SSG", "AAA", "AB", "BB")):
        made.figures.pop("material")
        return "balsa"
    if stem in ("lignum", "alloy") and "×" not in mark:
        return "stick"
    if (
        "×" in mark
        or {"stem", "tip"} & made.figures.keys()
        or body in ("slim", "pear", "body-up", "diamond", "round", "teardrop")
    ):
        return "pole"
    if any("×" in mark.words for mark in made.doubted("mark")):
        return "pole"
    if material == "balsa":
        made.figures.pop("material")
        return "balsa"
    return "waggler" if material in ("peacock", "crystal", "sarkandas", "quill") else ""


def _any_shape(made: Attempt, named: bool) -> None:
    """A float of no kind: asked, nearest first by what it carries."""
    mark = str(made.figures["mark"].value) if "mark" in made.figures else ""
    if mark.endswith(" g"):
        shapes = ["pole", "waggler pellet", "bolo"]
    elif " No " in mark:
        shapes = ["stick", "avon", "waggler straight"]
    else:
        shapes = ["waggler straight", "waggler insert", "waggler bodied", "stick"]
    if "mark" in made.figures:
        made.doubt("shape", ({"shape": word(s)} for s in shapes))
        return
    if any(" No " in known.words for known in made.doubted("mark")):  # "wooden floats 4x8"
        made.doubt("shape", ({"shape": word(s)} for s in ("stick", "pole", "waggler insert")))
        return
    if made.about == "mark":  # "3AA" alone
        made.figures["shape"] = usual.STRAIGHT
        return
    if not made.evident:  # "0.4" alone
        made.figures["shape"] = word("pole")
        return
    if named:
        usual_ones = (
            *(
                (shape, UNMARKED)
                for shape in ("waggler straight", "waggler insert", "stick", "pole")
            ),
            *(("waggler straight", "4BB"), ("waggler insert", "4BB")),
            *(("stick", "6 No 4"), ("pole", "4×14")),
        )
        made.doubt(
            "shape", ({"shape": word(s), "mark": word(m)} for s, m in usual_ones), missing=True
        )


def _mark_left_over(made: Attempt, hand: Hand) -> None:
    """A float whose mark is a bare number, or missing."""
    if "mark" in made.figures or made.fault or made.doubted("mark"):
        return
    shapes = made.doubted("shape")
    shape = str(made.figures.get("shape", shapes[0] if shapes else word("")).value)
    if "+" in shape or not shape:
        return
    bare = hand.one(_bare_mark)
    if bare is None:
        key = shape if shape in USUAL_MARKS else shape.split(" ")[0]
        marks = (UNMARKED, *USUAL_MARKS.get(key, USUAL_MARK))
        made.doubt("mark", ({"mark": word(mark)} for mark in marks), missing=True)
    elif shape in BY_GRAMS and "." in bare.text:
        _set(made, f"{bare.text} g")
    else:
        possible = [mark for mark in _meant(shape, bare) if _can_be(mark)]
        made.fault = "" if possible else f'"{bare.text}" is no float capacity.'
        made.doubt("mark", ({"mark": word(mark)} for mark in possible))


def _bare_mark(token: Token) -> bool:
    bare = token.kind == "number" and not token.unit and token.lead in ("", "no", "size")
    return bare and "/" not in token.text


def _meant(shape: str, bare: Token) -> list[str]:
    n = f"{bare.value:g}"
    if shape == "pole" and bare.whole and 10 <= bare.value <= 20:
        return [known for known in POLE_MARKS if known.endswith(f"×{n}")] or [f"{n} g"]
    if shape in BY_GRAMS:
        return [f"{n} g"]
    if shape == "stick":
        return [f"{n} No 4", f"{n}BB"]
    if shape.startswith("waggler"):
        return [f"{n}BB", f"{n}AAA", f"{n}SSG", f"{n} g"]
    return [f"{n} g", f"{n}SSG", f"{n}AAA", f"{n}BB"]
