"""Hooks, and hooks to nylon: "18 fine wire spade", "ten 18s to 0.10 at six inches"."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from tacklebox.errors import AskedWronglyError
from tacklebox.stock.naming import usual
from tacklebox.stock.naming.described import Figure, diameter, length, pieces, strain, word
from tacklebox.stock.naming.hand import Attempt, Figures, Hand, has_unit, is_sign, is_whole
from tacklebox.stock.naming.lexicon import LEXICON
from tacklebox.stock.naming.lines import in_hundredths, is_diameter, is_strain
from tacklebox.stock.naming.tokens import Token
from tacklebox.stock.tables import UNMARKED, Kind
from tacklebox.trade.hooks import LINE_FOR_SIZE, read_hook_order, write_hook_order

USUAL_SIZES = ("20", "18", "16", "14", "12", "10")
FIXINGS = ("hair", "band", "push stop", "bait spike")
OF_THE_HOOK = ("barb", "end", "eye", "wire", "bend", "colour")
STRONGEST_LB = 20  # that a bare number of a hooklength may be, in pounds or hundredths
LONGEST_MM = 5000.0
MANY_IN_A_PACKET = (30, 40, 50, 100, 200, 250, 500)  # no hook is of such a size
FEW = 5  # so many of something, where it stands after an "x"
SNELL = "a snell is a knot: a knotless knot on an eyed hook, or a whipping on a spade end."


def _size(text: str) -> Figure:
    """A hook's size. Raises AskedWronglyError for what is none."""
    return word(write_hook_order(read_hook_order(text)))


def _is_size(token: Token) -> bool:
    if token.kind != "number" or token.unit or token.lead == "count" or token.lead == "grade":
        return False
    return token.text.isdecimal() or token.text.endswith("/0")


def with_sizes(tokens: Sequence[Token]) -> tuple[Token, ...]:
    """The tokens, in which a hook that is tied "to" a line is called a size: "ten 16 to 0.12" are ten."""
    made = list(tokens)
    for at, (hook, joined, line) in enumerate(zip(made, made[1:], made[2:], strict=False)):
        tied = joined.text in ("to", "/") and (is_diameter(line) or line.unit in ("lb", "oz", "kg"))
        counted = at > 0 and made[at - 1].whole and made[at - 1].text != hook.text
        tied |= counted and joined.text == "to" and line.whole and not line.plural
        if tied and _is_size(hook) and not hook.lead and _is_tied(hook):
            made[at] = replace(hook, lead="size")
    return tuple(made)


def _is_tied(hook: Token) -> bool:
    """Whether hooks of such a size are tied to hooklengths: "6 to 12 lb" is line."""
    return hook.text.endswith("/0") or (hook.value >= 8 and hook.value % 2 == 0 and hook.value < 28)


def _without_its_measures(tokens: list[Token]) -> tuple[list[Token], str]:
    """The tokens without how thick a hook's wire or how wide its eye is, a note: "0.6 mm eye"."""
    hand = Hand(tokens)
    found = hand.take(has_unit("mm"), is_sign("eye", "wire", "gape", "gap", "shank", "shanks"))
    if found is None:
        return tokens, ""
    eye = [Token("word", "eyed")] if found[1].text == "eye" else []
    return [*hand.left, *eye], f"{found[0].said} {found[1].text}"


def _of_the_hook(made: Attempt, said: dict[str, list[str]]) -> None:
    for key in OF_THE_HOOK:
        if key in said:
            made.figures[key] = word(" ".join(said[key]))
    if "micro" in said:
        made.figures.setdefault("barb", word("micro-barbed"))
    for key in ("barb", "end"):
        if len(said.get(key, ())) > 1:
            made.fault = f"a hook is not both {' and '.join(said[key])}."
    if "eye" in said:
        made.figures["end"] = word("eyed")


def _last_times(tokens: list[Token]) -> list[Token]:
    """ "0.15 x 2" at the end says how many, never a size; so does a small number anywhere."""
    for at in range(2, len(tokens)):
        token, last = tokens[at], at == len(tokens) - 1
        if tokens[at - 1].text == "x" and token.whole and (last or token.value <= FEW):
            tokens[at] = replace(token, lead="count")
    return tokens


def _hardly_a_size(tokens: list[Token]) -> list[Token]:
    """ "Eleven hooks" are so many: odd sizes are seldom made, and then called by name."""
    first = tokens[0] if tokens else None
    if (
        first
        and first.whole
        and not first.lead
        and not first.plural
        and first.value % 2
        and first.value > 1
    ):
        return [replace(first, lead="count"), *tokens[1:]]
    return tokens


def read_hook(tokens: Iterable[Token]) -> Attempt:
    """The phrase as hooks."""
    tokens, measured = _without_its_measures(list(tokens))
    hand = Hand(_hardly_a_size(_last_times(list(tokens))))
    said = hand.words(LEXICON[Kind.HOOK])
    treble = ["treble"] if "treble" in said.get("name", ()) else []
    notes = (*treble, *said.get("note", ()), measured)
    made = Attempt(Kind.HOOK, note=", ".join(note for note in notes if note))
    _of_the_hook(made, said)
    ranged = hand.take(_is_size, is_sign("to"), _is_size)
    named = hand.all(lambda t: _is_size(t) and t.lead in ("size", "no"))
    ranged = ranged or hand.take(_is_size, is_sign("-", "/", "and"), _is_size)
    sizes = named + (_from_to(*ranged) if ranged else [])
    bare = hand.all(_is_size)
    many = [token for token in bare if token.whole and token.value in MANY_IN_A_PACKET]
    if len(bare) == 2 and len(noughts := [token for token in bare if "/0" in token.text]) == 1:
        many = [
            token for token in bare if token not in noughts and token.whole
        ]  # "1/0 eel hooks, 6"
    if len(bare) == 2 and len(many) == 1:  # "hooks 18 spade 50"
        bare.remove(many[0])
        made.doubt("pack", [{"pack": pieces(int(many[0].value))}])
    either = _size_or_packet(bare, tokens) if not sizes else []
    if either:  # "20 barbless spade 10s"
        sizes, bare = either[:1], []
        made.doubt("size", _either(either))
    if not sizes:
        sizes, bare = _sizes_among(bare)
    made.evident = bool(said.keys() & {"name", "barb", "end", "wire", "bend", "eye"})
    made.evident |= bool({"bronze", "nickel", "black nickel"} & set(said.get("colour", ())))
    if "hair rig" in said.get("note", ()) and "name" not in said:
        made.evident = False  # "14 barbless hair rig" has its line on it
    if made.evident and len(bare) == 1 and bare[0].whole:
        behind = bare[0].plural and bare[0] is tokens[-1]  # "10 forged 10s"
        if behind or (sizes and sizes != bare and not bare[0].plural):  # "size 18 barbless, ten"
            made.doubt("pack", [{"pack": pieces(int(bare[0].value))}])
            bare = []
    unmarked = not sizes and hand.one(is_sign(UNMARKED))
    made.left = (*hand.rest(), *bare)
    if unmarked:
        made.figures["size"] = word(UNMARKED)
    elif not sizes:
        usual_ones = (*USUAL_SIZES, UNMARKED)
        made.doubt("size", ({"size": word(size)} for size in usual_ones), missing=True)
    elif not either:
        _set_sizes(made, sizes)
    return made


def _from_to(first: Token, sign: Token, last: Token) -> list[Token]:
    """The sizes from one to another: "16 to 20" has 18s too."""
    if sign.text != "to" or not (first.whole and last.whole):
        return [first, last]
    ends = sorted((int(first.value), int(last.value)))
    between = (size for size in USUAL_SIZES[::-1] if ends[0] < int(size) < ends[1])
    return [first, *(replace(first, text=size, value=float(size)) for size in between), last]


def _sizes_among(bare: list[Token]) -> tuple[list[Token], list[Token]]:
    """Which of bare numbers are sizes, and the rest: one that is a plural is it, "10 20s"."""
    plural = [token for token in bare if token.plural]
    if len(plural) == 1 and plural[0].value == bare[0].value:  # "10 forged 10s"
        bare.sort(key=lambda token: token.plural)
    elif len(plural) == 1:
        bare = [*plural, *(token for token in bare if token is not plural[0])]
    alike = len(plural) == 1 or len({token.value for token in bare}) == 1
    return (bare[:1], bare[1:]) if alike else (bare, [])


def _set_sizes(made: Attempt, sizes: Sequence[Token]) -> None:
    try:
        found = [_size(token.text) for token in sizes]
    except AskedWronglyError as error:
        made.fault = str(error)
        return
    if len({figure.value for figure in found}) > 1:
        made.doubt("size", ({"size": figure} for figure in found))
    else:
        made.figures["size"] = found[0]


def _size_or_packet(bare: Sequence[Token], tokens: Sequence[Token]) -> list[Token]:
    """A size and, last of all, "10s": what a packet holds, or the size itself; else nothing."""
    apart = len(bare) == 2 and bare[1] is tokens[-1] and bare[0] is not tokens[-2]
    return list(bare) if apart and bare[1].plural and not bare[0].plural else []


def _either(numbers: Sequence[Token]) -> list[Figures]:
    one, other = numbers
    return [
        {"size": _size(size.text), "pack": pieces(int(pack.value))}
        for size, pack in ((one, other), (other, one))
    ]


def read_hooklength(tokens: Iterable[Token]) -> Attempt:
    """The phrase as hooks to nylon."""
    tokens, measured = _without_its_measures(list(tokens))
    hand = Hand(_last_times(tokens))
    said = hand.words(LEXICON[Kind.HOOKLENGTH])
    made = Attempt(
        Kind.HOOKLENGTH, note=", ".join(n for n in (*said.get("note", ()), measured) if n)
    )
    _of_the_hook(made, said)
    if "material" in said:
        made.figures["material"] = word(said["material"][0])
    if "bait" in said:
        made.figures["bait"] = word(", ".join(fix for fix in FIXINGS if fix in said["bait"]))
    ranged = hand.take(_is_size, is_sign("-", "/"), _is_size, is_sign("to"))
    joined = bool(ranged) or _to_what(made, hand)
    thick, strong = hand.all(is_diameter), hand.all(is_strain)
    if "name" in said and not (joined or thick or strong):
        _line_behind(made, hand)
    if thick:
        hand.all(is_sign("x"))  # "18 x 0.11 x 15 cm"
    _line(made, thick, strong)
    if ranged:  # "18-20 to 0.10"
        made.doubt("size", ({"size": _size(ranged[at].text)} for at in (0, 2)))
    long = _hook_and_length(made, hand, tokens)
    named = bool(said.keys() & {"name", "snell"} or "hair" in said.get("bait", ()))
    of_a_hook = bool(said.keys() & {"hook", "barb", "end", "wire", "bend"})
    of_a_hook |= {"rig", "bait"} <= said.keys()  # "banded rigs"
    of_to = joined and ("bait" in said or of_a_hook)  # "18 to 3 with a band"
    made.evident = named or long or of_to or (joined and bool(thick or strong))
    made.evident |= of_a_hook and bool(thick or strong) and "size" in made.figures
    made.evident |= {"size", "length"} <= made.figures.keys() and "waggler" not in said.get(
        "note", ()
    )
    if made.fault and not named and not joined:
        made.evident = False  # "100 m of 8" is line
    nylon = word("nylon") if "hook to nylon" in said.get("name", ()) else usual.NYLON
    made.figures.setdefault("material", nylon)
    if made.evident or joined or {"size", "diameter"} <= made.figures.keys():
        _left_over(made, hand)
    made.left = hand.rest()
    if "rig" in said and not {"bait", "name"} & said.keys():
        _of_a_rig(made, joined=joined)
    if "not" in said:
        made.fault = "that is line to tie them from."
    if "snell" in said and "size" not in made.figures:
        made.fault = SNELL
    elif "snell" in said and "end" not in made.figures:
        made.doubt("end", ({"end": word(end)} for end in ("eyed", "spade")))
    _of_several_sizes(made, said, lined=not joined or bool(thick or strong))
    _what_is_missing(made)
    return made


def _of_several_sizes(made: Attempt, said: dict[str, list[str]], *, lined: bool) -> None:
    """Hooks from one size "to" another, mixed, have no line: "16 to 20 mixed"."""
    if "assorted" in said.get("note", ()) and not lined and "name" not in said:
        made.evident, made.fault = False, "these are hooks of several sizes."


def _of_a_rig(made: Attempt, *, joined: bool) -> None:
    """A rig is more than its hooklength; where nothing but that is said of it, that is asked."""
    line = made.figures.keys() & {"diameter", "strain"}
    if joined and line and "size" in made.figures and not made.left:
        made.doubt("rig", [{}], asks="A rig is tied from its recipe. Is its hooklength meant?")
    else:
        made.left = (*made.left, Token("word", "rig"))


def _to_what(made: Attempt, hand: Hand) -> bool:
    """Whether a hook stands before the line that it is tied to: "18 to", "18/.10", "hooks to 4 lb".

    A whole number after it is hundredths of a mm or pounds, and is asked.
    """
    for at, token in enumerate(hand.left):
        after = hand.left[at + 1] if at + 1 < len(hand.left) else None
        joins = is_sign("to", "/", "on")(token) or (token.text == "-" and _is_thick(after))
        if not joins or after is None or after.kind != "number":
            continue
        before = [t for t in hand.left[:at] if _is_size(t)]
        if token.text in ("/", "on", "-") and not before:
            continue
        if after.whole and not after.lead and before:
            del hand.left[at : at + 2]
            made.doubt(*_hundredths_or_pounds(after))
        elif before and not after.unit and not after.lead and not is_diameter(after):  # "20 to 1.5"
            del hand.left[at : at + 2]
            made.doubt(*_pounds_or_kilos(after))
        else:
            del hand.left[at]
        return True
    return False


def _line_behind(made: Attempt, hand: Hand) -> None:
    """ "Hooklength 18 3": the first number is the hook, the next is likely the line."""
    bare = [t for t in hand.left if t.whole and not t.lead and not t.plural]
    if len(bare) > 1 and _is_tied(bare[0]) and bare[1].value <= STRONGEST_LB:
        hand.one(lambda t: t is bare[1])
        made.doubt(*_hundredths_or_pounds(bare[1]))


def _is_thick(token: Token | None) -> bool:
    return token is not None and is_diameter(token)


def _left_over(made: Attempt, hand: Hand) -> None:
    """A bare number behind the rest: ounces, a length, or how many, and asked."""
    signs = ("-", "/", ",", "(", ")")
    if [t for t in hand.rest() if t.text not in signs and not is_whole(2, 100)(t)]:
        return
    bare = [t for t in hand.left if is_whole(2, 100)(t)]
    if len(bare) != 1 or "size" not in made.figures:
        return
    said, choices = bare[0].text, list[Figures]()
    pounds = made.figures["strain"].words if "strain" in made.figures else ""
    if pounds.removesuffix(" lb").isdecimal() and pounds.endswith(" lb") and bare[0].value < 16:
        choices.append({"strain": strain(f"{pounds} {said} oz")})
    if "length" not in made.figures:
        choices += [{"length": length(f"{said} {unit}")} for unit in ("in", "cm")]
    choices.append({"pack": pieces(int(said))})
    hand.one(is_whole(2, 100))
    made.doubt("length", choices)


def _hundredths_or_pounds(said: Token) -> tuple[str, list[Figures]]:
    pounds: Figures = {"strain": strain(f"{said.text} lb")}
    if said.value < 5:
        return "strain", [pounds]
    thick: Figures = {"diameter": in_hundredths(said)}
    return "diameter", [thick, pounds] if said.value <= 8 else [thick]


def _pounds_or_kilos(said: Token) -> tuple[str, list[Figures]]:
    return "strain", [{"strain": strain(f"{said.text} {unit}")} for unit in ("lb", "kg")]


def _line(made: Attempt, thick: Sequence[Token], strong: Sequence[Token]) -> None:
    if thick:
        made.figures["diameter"] = diameter(thick[0].text, thick[0].unit)
    if strong:
        made.figures["strain"] = strain(strong[0].said)
    for key, said in (("diameter", thick), ("strain", strong)):
        if len({token.said for token in said}) > 1:
            made.fault = f'both "{said[0].said}" and "{said[1].said}" are said of its {key}.'


def _hook_and_length(made: Attempt, hand: Hand, tokens: Sequence[Token]) -> bool:
    """Whether its length was said as anglers name hooklengths by it: "four-inchers"."""
    long = hand.one(
        lambda t: t.unit in ("in", "ft", "cm", "m", "yd") or (t.unit == "mm" and t.value > 9)
    )
    if long:
        made.figures["length"] = length(long.said)
        if float(made.figures["length"].value) > LONGEST_MM:
            made.fault = f'"{long.said}" is too long for a hooklength.'
    either = _size_or_packet([t for t in hand.left if _is_size(t)], tokens)
    if either:
        hand.all(_is_size)
        made.doubt("size", _either(either))
        return long is not None and long.plural
    named = hand.one(lambda t: _is_size(t) and (t.lead in ("size", "no") or t.plural))
    sizes = [named] if named else [t for t in (hand.one(_is_size),) if t]
    if sizes:
        try:
            made.figures["size"] = _size(sizes[0].text)
        except AskedWronglyError as error:
            made.fault = str(error)
    return long is not None and long.plural


def usual_lines() -> list[Figures]:
    """Each usual size of hook with the line that it is usually tied to."""
    return [
        {"size": word(str(size)), "diameter": diameter(f"{(band.low + band.high) / 2:.2f}")}
        for size, band in LINE_FOR_SIZE.items()
        if 10 <= size <= 22
    ]


def _what_is_missing(made: Attempt) -> None:
    pairs = usual_lines()
    line = {"diameter", "strain"} & {*made.figures, *(doubt.about for doubt in made.doubts)}
    if "size" not in made.figures and made.about != "size":
        choices = [pair if not line else {"size": pair["size"]} for pair in pairs]
        made.doubt("size", choices, missing=True)
    elif not line:
        size = made.figures.get("size")
        fitting = [pair for pair in pairs if size and pair["size"].value == size.value] or pairs
        made.doubt("diameter", ({"diameter": p["diameter"]} for p in fitting), missing=True)
