"""Shot, olivettes and styls; feeders, bombs and leads."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from tacklebox.errors import AskedWronglyError
from tacklebox.stock.naming import usual
from tacklebox.stock.naming.described import Figure, mass, pieces, word
from tacklebox.stock.naming.hand import Attempt, Figures, Hand, has_unit, is_sign, is_whole, run_at
from tacklebox.stock.naming.lexicon import LEXICON, MARK_LETTERS, MARKS
from tacklebox.stock.naming.tokens import Token
from tacklebox.stock.tables import UNMARKED, Kind
from tacklebox.trade.quantities import read_volume_ml
from tacklebox.trade.shot import read_mark

DUST = tuple(f"No {n}" for n in (8, 9, 10, 11, 12, 13))
USUAL_SHOT = ("AAA", "BB", "No 4", "No 6", "No 8", "No 10")
# A plural number is shot where hooks of that size are hardly used: "number ones", not "number eights".
ONLY_SHOT = (1, 3, 5, 7, 9, 11, 13)
HEAVIEST_OLIVETTE_G = 6  # what a bare mass in grams may be
BOMBS = (
    *("bomb", "lead", "straight lead", "strap lead", "drilled bullet"),
    *("flat lead", "coffin lead", "pear lead", "back lead", "gripper lead"),
)
OPEN_FEEDERS = ("cage", "open-end")
FEEDERS = ("cage", "open-end", "block-end", "method", "hybrid", "pellet")


def _whole_or_marked(token: Token) -> bool:
    return token.whole and token.lead in ("", "no", "size")


def read_weight(tokens: Iterable[Token]) -> Attempt:
    """The phrase as shot, olivettes or styls."""
    hand = Hand(tokens)
    said = hand.words(LEXICON[Kind.WEIGHT])
    made = Attempt(Kind.WEIGHT, note=", ".join(said.get("note", ())))
    forms = said.get("form", [])
    form = next((f for f in ("olivette", "styl") if f in forms), "shot")
    made.figures["form"] = word(form)
    made.figures["material"] = word(said["material"][0]) if "material" in said else usual.TIN
    made.evident = bool(forms or "dust" in said)
    if "material" in said:  # "lead no 8"
        made.evident |= any(t.lead == "no" and t.whole for t in hand.left)
    if len(said.get("material", ())) > 1:
        made.doubt("material", ({"material": word(one)} for one in said["material"]))
    small = [t for t in hand.left if t.kind == "number"]
    if not made.evident and len(small) == 1 and _is_small_mass(small[0]):
        made.figures["form"], form = word("olivette"), "olivette"
    if form == "olivette":
        _olivette(made, hand)
    elif form == "styl":
        _numbered(made, hand, "styl ", ("8", "9", "10", "11"))
    elif "dust" in said and (marks := _of_dust(hand)):
        made.doubt("mark", ({"mark": word(mark)} for mark in marks))
    elif "dust" in said and not any(t.whole for t in hand.left):
        made.doubt("mark", ({"mark": word(mark)} for mark in DUST))
    else:
        _shot(made, hand)
    if (
        form == "shot"
        and "mark" in made.figures
        and (held := hand.one(has_unit("g", "oz", "kg", "lb")))
    ):
        made.note = ", ".join(n for n in (made.note, held.said) if n)  # what a bag holds of it
    made.left = hand.rest()
    return made


def _of_dust(hand: Hand) -> list[str]:
    """The sizes of dust shot, where several are said: "dust 10 11 12"."""
    said = [token for token in hand.left if token.whole and f"No {token.text}" in DUST]
    if len(said) < 2 or any(token.text == "x" for token in hand.left):
        return []
    hand.all(lambda token: token in said or token.text in (",", "-", "/"))
    return [f"No {token.text}" for token in said]


def _is_small_mass(token: Token) -> bool:
    grams = token.unit == "g" and token.value <= HEAVIEST_OLIVETTE_G
    return grams or ("." in token.text and not token.unit)


def _olivette(made: Attempt, hand: Hand) -> None:
    if hand.take(is_whole(1, 9), is_sign("x"), is_whole(1, 99)):
        made.fault = "an olivette goes by its grams."
    said = hand.all(lambda t: t.kind == "number" and not t.lead and t.unit in ("g", "mg", "oz", ""))
    many = [
        t for t in said if t.whole and len(said) == 2 and any("." in o.text or o.unit for o in said)
    ]
    if len(many) == 1:  # "olivette 0.5 10"
        said.remove(many[0])
        made.doubt("pack", [{"pack": pieces(int(many[0].value))}])
    masses = [mass(t.said if t.unit else f"{t.text} g") for t in said]
    if len(masses) == 2 and hand.one(is_sign("to", "-", "–")):  # of a mixed packet
        between = f"{said[0].text} to {masses[1].words}"
        made.note = ", ".join(n for n in (made.note, between) if n)
    if len(masses) > 1 or (said and said[0].whole):
        made.doubt("mass", ({"mass": one} for one in masses))
    elif masses:
        made.figures["mass"] = masses[0]
    elif hand.one(is_sign(UNMARKED)):
        made.figures["mass"] = word(UNMARKED)
    else:
        usual_ones = (*(mass(f"{n} g") for n in ("0.3", "0.5", "0.75", "1")), word(UNMARKED))
        made.doubt("mass", ({"mass": one} for one in usual_ones), missing=True)


def _numbered(made: Attempt, hand: Hand, form: str, marks: Sequence[str]) -> None:
    found = hand.one(_whole_or_marked)
    if found is None and hand.one(is_sign(UNMARKED)):
        made.figures["mark"] = word(UNMARKED)
        return
    if found is None:
        made.doubt("mark", ({"mark": word(mark)} for mark in (*marks, UNMARKED)), missing=True)
        return
    try:
        made.figures["mark"] = word(read_mark(f"{form}{found.text}").mark.removeprefix(form))
    except AskedWronglyError as error:
        made.fault = str(error)


def _shot(made: Attempt, hand: Hand) -> None:
    for at in range(len(hand.left)):
        if found := run_at(hand.left, at, MARK_LETTERS):
            (_, mark), end = found
            counted = not made.evident and bool(at) and hand.left[at - 1].kind == "number"
            many = hand.left[at - 1] if counted else None  # "5BB" may be five of them
            del hand.left[at - counted : end]
            made.evident = made.evident or not counted
            marks = ("AAA", "AB") if mark == "AA" else (mark,)
            if len(marks) > 1:
                made.doubt("mark", ({"mark": word(m)} for m in marks))
            made.figures["mark"] = word(marks[0])
            if many and many.whole and many.value > 1:
                made.doubt("pack", [{"pack": pieces(int(many.value))}])
            _several(made, hand)
            _so_many(made, hand)
            return
    numbered = [t for t in hand.left if t.whole and t.lead == "no"]
    if made.evident and len(numbered) > 2:  # "no 10 shot, no 11 shot, no 12 shot"
        hand.all(lambda t: t in numbered)
        made.doubt("mark", ({"mark": word(f"No {t.text}")} for t in numbered))
        return
    several = hand.take(_whole_or_marked, is_sign("and", "to", "-", "/", ","), _whole_or_marked)
    if several and made.evident:  # "8 and 10 shot" are two
        made.doubt("mark", ({"mark": word(f"No {several[at].text}")} for at in (0, 2)))
        return
    if several:
        hand.left[:0] = several
    numbers = [t for t in hand.left if _whole_or_marked(t)]
    number = numbers[0] if numbers else None
    if number and number.plural and number.lead == "no" and number.value in ONLY_SHOT:
        made.evident = True
    _numbered(made, hand, "", USUAL_SHOT)
    _several(made, hand)
    _so_many(made, hand)


def _several(made: Attempt, hand: Hand) -> None:
    """ "AAA to No 8" is a dispenser of several sizes, each an item of its own: asked which."""
    first = made.figures.get("mark")
    lettered = [token for token in hand.left if token.kind == "word" and _mark_of(token)]
    bare = [t for t in hand.left if t.whole and not t.lead and 1 <= t.value <= 14]
    if lettered or len(bare) > 2:  # "SSG AAA BB 1 4 6 8", "BB, 1, 4, 6, 8"
        hand.left = [
            replace(t, lead="no") if t.whole and not t.lead and 1 <= t.value <= 14 else t
            for t in hand.left
        ]
    others = [mark for token in hand.left if (mark := _mark_of(token))]
    if first is None or not made.evident or not others:
        return
    hand.all(lambda token: bool(_mark_of(token)) or token.text in ("to", "and", "&", "-", ","))
    made.doubt("mark", ({"mark": figure} for figure in dict.fromkeys((first, *map(word, others)))))


def _mark_of(token: Token) -> str:
    """The size of shot that a token names whatever stands beside it, "" for none."""
    if token.kind == "word":
        mark = MARKS.get(token.text, "")
        return "" if mark == "AA" else mark
    sized = token.whole and token.lead == "no" and 1 <= token.value <= 14
    return f"No {token.text}" if sized else ""


def _so_many(made: Attempt, hand: Hand) -> None:
    """A number beside the size is likely what the tub holds."""
    if "mark" in made.figures and made.evident and (many := hand.one(is_whole(10, 5000))):
        made.doubt("pack", [{"pack": pieces(int(many.value))}])


def read_feeder(tokens: Iterable[Token]) -> Attempt:
    """The phrase as a feeder, bomb or lead."""
    hand = Hand(tokens)
    _feeder_leads(hand)
    band = hand.take(is_whole(5, 150), is_sign("-", "to"), has_unit("g"))  # "set of 3, 28-42 g"
    band = band or hand.take(_is_ounces, is_sign("-", "to"), has_unit("oz"))
    numbers = hand.all(lambda token: token.kind == "number")
    said = hand.words(LEXICON[Kind.FEEDER])  # "method feeder 30 g flat"
    hand.left += numbers
    if said.get("shape") == ["method"] and said.get("body") == ["flat lead"]:
        said["shape"] = ["flat method"]  # "method 35 g large flat"
        said.pop("body")
    if not set(said.get("shape", ())) & {"bomb", "lead"}:
        hand.left += [Token("word", body.split(" ")[0]) for body in said.pop("body", ())]
    made = Attempt(Kind.FEEDER, note=", ".join(said.get("note", ())))
    weighed = bool(band) or any(t.unit in ("g", "oz", "dram") for t in hand.left)
    made.evident = bool(said.keys() & {"shape", "name", "bullet", "groundbait"})
    made.evident |= "bait" in said and weighed  # "18 red maggot" is a hook
    if set(said.get("fitting", ())) == {"in line", "elasticated"}:  # its elastic is in the line
        said["fitting"] = ["in line"]
        said["note"] = [*said.get("note", ()), "elasticated"]
        made.note = ", ".join(said["note"])
    for key in ("fitting", "size"):
        if len(said.get(key, ())) > 1:
            made.doubt(key, ({key: word(one)} for one in said[key]))
        elif key in said:
            made.figures[key] = word(said[key][0])
    if wide := hand.one(has_unit("mm")):
        made.note = ", ".join(n for n in (made.note, wide.said) if n)
    if volume := hand.one(has_unit("ml")):
        made.figures["volume"] = Figure(read_volume_ml(volume.said), volume.said)
    _feeder_shape(made, said)
    if band:
        lightest, _, heaviest = (token.text for token in band)
        unit = band[2].unit
        made.note = ", ".join(n for n in (made.note, f"{lightest} to {heaviest} {unit}") if n)
        made.doubt("mass", ({"mass": mass(f"{one} {unit}")} for one in (lightest, heaviest)))
    else:
        _feeder_mass(made, hand)
    made.left = hand.rest()
    return made


def _feeder_leads(hand: Hand) -> None:
    """ "Feeder leads" and "leads for feeders" are no feeders."""
    leads, feeders = is_sign("lead", "leads"), is_sign("feeder", "feeders")
    if of_feeders := hand.take(feeders, leads) or hand.take(leads, is_sign("for"), feeders):
        hand.left += filter(leads, of_feeders)


def _is_ounces(token: Token) -> bool:
    """Whether a bare number is a part of an ounce, or a few: "1/4 to 1 oz"."""
    return token.kind == "number" and token.unit in ("", "oz") and not token.lead


def _feeder_shape(made: Attempt, said: dict[str, list[str]]) -> None:
    shapes = list(dict.fromkeys((*said.get("shape", ()), *said.get("bait", ()))))
    if shapes and set(shapes) <= {"bomb", "lead"} and "body" in said:  # "ledger weight 1 oz, pear"
        shapes = said["body"][:1]
    if "bullet" in said:
        shapes = [*shapes, "bullet"]
    if shapes == ["bomb"] and "name" in said:  # "bomb feeder" is either
        made.doubt("shape", ({"shape": word(s)} for s in ("bomb", "bullet")))
    elif shapes == ["bullet"] and "name" in said:
        made.figures["shape"] = word("bullet")
    elif shapes == ["bullet"] and "bullet" in said:
        made.doubt("shape", ({"shape": word(s)} for s in ("bullet", "drilled bullet")))
    elif shapes == ["lead"] and "name" in said:  # "feeder with a strip of lead"
        made.doubt("shape", ({"shape": word(s)} for s in ("lead", *FEEDERS)))
    elif len(shapes) == 1:
        made.figures["shape"] = word(shapes[0])
    elif set(shapes) == {"block-end", "maggot"}:
        made.figures["shape"] = word("block-end")
    elif len(shapes) == 2 and "lead" in shapes and set(shapes) <= set(BOMBS):
        made.figures["shape"] = word(next(s for s in shapes if s != "lead"))
    elif shapes:
        made.doubt("shape", ({"shape": word(s)} for s in shapes))
    elif said.get("fitting") == ["in line"] and "name" in said:
        made.figures.pop("fitting")
        made.figures["shape"] = word("in-line")
    else:
        kinds = OPEN_FEEDERS if "groundbait" in said else FEEDERS
        light = () if said.keys() & {"name", "groundbait", "size"} else ("bomb",)
        made.doubt("shape", ({"shape": word(s)} for s in (*light, *kinds)))


def _feeder_mass(made: Attempt, hand: Hand) -> None:
    weighed = [mass(token.said) for token in hand.all(has_unit("g", "oz", "dram"))]
    if len({round(float(one.value)) for one in weighed}) > 1:
        made.doubt("mass", ({"mass": one} for one in weighed))
    if weighed:
        made.figures["mass"] = weighed[0]
        return
    if hand.one(is_sign(UNMARKED)):
        made.figures["mass"] = word(UNMARKED)
        return
    if "shape" in made.figures and hand.one(is_sign("swan", "ssg")):  # old blockends go by shot
        many = hand.one(is_whole(1, 9))
        said = f"{many.text} swan" if many else "swan"
        made.note = ", ".join(n for n in (made.note, said) if n)
        bare = None
    else:
        bare = hand.one(lambda t: t.kind == "number" and not t.unit and not t.lead)
    choices: list[Figures]
    if bare is None:
        bomb = "shape" in made.figures and made.figures["shape"].value in BOMBS
        usual_ones: tuple[str, ...] = (
            ("1/4 oz", "3/8 oz", "1/2 oz", "3/4 oz", "1 oz") if bomb else ("20 g", "30 g", "40 g")
        )
        if made.about == "shape":
            usual_ones = ()
        masses = (word(UNMARKED), *map(mass, usual_ones))
        made.doubt("mass", ({"mass": one} for one in masses), missing=True)
    elif not made.evident:
        made.fault = "its mass has no unit."
    elif bare.whole and bare.value >= 5:
        made.figures["mass"] = mass(f"{bare.text} g")
    else:
        units = ("oz",) if "/" in bare.text else ("oz", "g")
        choices = [{"mass": mass(f"{bare.text} {unit}")} for unit in units]
        made.doubt("mass", choices)
