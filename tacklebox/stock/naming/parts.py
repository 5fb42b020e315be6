"""Small parts, pole elastic and winders."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from tacklebox.stock.naming import usual
from tacklebox.stock.naming.described import Figure, length, pieces, strain, word
from tacklebox.stock.naming.hand import (
    Attempt,
    Figures,
    Hand,
    has_unit,
    is_sign,
    is_whole,
    singular,
)
from tacklebox.stock.naming.lexicon import LEXICON
from tacklebox.stock.naming.lines import is_diameter
from tacklebox.stock.naming.tokens import Token
from tacklebox.stock.naming.words import SIZE_WORDS
from tacklebox.stock.tables import Kind

# What a word that stands alone may be, the likeliest first.
MAY_BE = {
    "stop": ("float stop", "line stop", "hair stop", "ledger stop"),
    "link": ("snap link", "feeder link", "link swivel"),
    "band": ("bait band",),
    "tail": ("tail rubber",),
    "barrel": ("swivel",),
}
WIDTHS_MM = (12, 35)  # that a bare number of a winder may be
SHORTEST_WINDER_MM, WIDEST_WINDER_MM = 40, 50
HIGHEST_SIZE = 30  # of swivels and snaps, which go down to 26 or so
SOFTEST, HARDEST = 1, 40
THICKEST_BARE_MM = 3  # a bare decimal up to here is how thick elastic is, no grade
USUAL_GRADES = (4, 5, 6, 8, 10, 12)


def read_part(tokens: Iterable[Token]) -> Attempt:
    """The phrase as a small part; with nothing but a size it may be a swivel."""
    tokens = list(tokens)
    hand, said = _words_taken(tokens)
    made = Attempt(
        Kind.PART, note=", ".join(n for n in said.get("note", ()) if n not in ("ptfe", "latex"))
    )
    made.evident = bool(said.keys() & {"sort", "loose"})
    _part_sort(made, said, hand)
    _part_size(made, said, hand, tokens)
    sort = made.figures.get("sort", word("")).value
    single = sort in usual.SOLD_SINGLY
    if sort == "putty" and (weighs := hand.one(has_unit("g", "oz"))):
        made.note = ", ".join(n for n in (made.note, weighs.said) if n)  # what a tub holds of it
    if made.evident and (many := hand.one(is_whole(1 if single else 4, 500))):  # "swivel 12 10"
        made.doubt("pack", [{"pack": pieces(int(many.value))}])
    made.left = hand.rest()
    if "loose" in said and "sort" in said:  # "run ring with link"
        made.left = (*made.left, *(Token("word", loose) for loose in said["loose"]))
    return made


def _part_sort(made: Attempt, said: dict[str, list[str]], hand: Hand) -> None:
    """Set which part it is: a swivel where nothing but a number is said."""
    sorts = _own_names(said.get("sort", []))
    if len(sorts) == 1:
        made.figures["sort"] = word(sorts[0])
    elif sorts:
        made.doubt("sort", ({"sort": word(s)} for s in sorts))
    elif said.get("loose") == ["barrel"]:
        made.figures["sort"] = word("swivel")
    elif "loose" in said:
        made.doubt("sort", ({"sort": word(s)} for s in MAY_BE[said["loose"][0]]))
    else:
        made.figures["sort"] = word("swivel")
        if not any(t.kind == "number" for t in hand.left):
            made.fault = "it names no part."
        if (
            "size" in said
            or said.get("note")
            or any("." in t.text or t.unit not in ("", "kg", "lb", "oz") for t in hand.left)
        ):
            made.fault = "it names no part."


def _part_size(
    made: Attempt, said: dict[str, list[str]], hand: Hand, tokens: Sequence[Token]
) -> None:
    """Set its size, by number, by measure and in words, and what it bears."""
    if wide := hand.take(is_whole(1, 30), is_sign("to", "-"), has_unit("mm")):
        made.figures["size"] = word(f"{wide[0].text}–{wide[2].said}")  # bands for 4-6 mm pellets
        return
    _line_for(made, hand)
    sizes = list(said.get("size", ()))
    plummet = made.figures.get("sort", word("")).value == "plummet"
    weighed = hand.one(has_unit("g", "oz")) if plummet else None
    weighs = any(token.text.startswith(("feeder", "bomb")) for token in tokens)
    ounces = weighs and "lb" not in " ".join(token.said for token in tokens)
    if strong := hand.one(has_unit("kg", "lb", *(() if ounces else ("oz",)))):
        made.figures["strain"] = strain(strong.said)
    ranged = hand.take(_is_size, is_sign("to", "-", "/"), _is_size) if _by_range(made) else None
    if ranged and not _by_number(made):  # "connector 10/12", by its elastic
        sizes.insert(0, f"{ranged[0].text}–{ranged[2].text}")
    elif ranged:
        made.doubt("size", ({"size": word(ranged[at].text)} for at in (0, 2)))
    measured = weighed or hand.one(has_unit("mm", "cm", "in"))
    if _by_bore(made):
        measured = _bore_and_length(made, hand, measured)
    numbered = None if measured else hand.one(_is_size)
    if numbered and "." in numbered.text and _by_bore(made):
        measured, numbered = replace(numbered, unit="mm", lead=""), None
    elif numbered and "." in numbered.text and not numbered.lead:
        hand.left.append(numbered)  # is likely a price
        numbered = None
    _mark_beyond(made, (numbered, *(ranged or ())))
    if numbered and _is_apart(numbered, tokens) and _by_number(made):  # "swivels large, 8"
        made.doubt("size", _size_or_number(made, numbered.text, sizes)[-2:])
        numbered = None
    if numbered and numbered.whole and not numbered.lead and not _by_number(made):
        made.doubt("size", _size_or_number(made, numbered.text, sizes))
        numbered = None
    several = [size for size in sizes if size in SIZE_WORDS]
    if len(several) > 1:  # "bung medium and bung large"
        made.doubt("size", ({"size": word(size)} for size in several))
        sizes = []
    sizes = [*(t.said for t in (measured, numbered) if t), *sizes]
    if sizes:
        made.figures["size"] = word(" ".join(sizes))
    made.fault = made.fault or _of_no_size(measured)


def _is_beyond(made: Attempt, numbers: Sequence[Token | None]) -> bool:
    """Whether a number is no size of what goes by its size, which is its fault."""
    beyond = [t for t in numbers if t and t.value > HIGHEST_SIZE]
    if not beyond or not _by_number(made):
        return False
    sort = made.figures["sort"].words
    made.fault = f'"{beyond[0].text}" is no size of a {sort}.' if made.evident else "no part."
    return True


def _mark_beyond(made: Attempt, numbers: Iterable[Token | None]) -> None:
    """A number that is no size of what goes by its number is its fault."""
    beyond = [t for t in numbers if t and t.value > HIGHEST_SIZE]
    if beyond and _by_number(made):
        sort = made.figures["sort"].words
        made.fault = f'"{beyond[0].text}" is no size of a {sort}.' if made.evident else "no part."


def _line_for(made: Attempt, hand: Hand) -> None:
    """The line that a stop is for is a note: "0.10-0.16 line"."""
    strong = (
        hand.take(is_whole(1, 30), is_sign("to", "-"), has_unit("lb"))
        if "sort" in made.figures
        else None
    )
    if strong:
        made.note = ", ".join(
            n for n in (made.note, f"{strong[0].text}–{strong[2].said} line") if n
        )
        hand.one(is_sign("line"))
    ends = hand.take(is_diameter, is_sign("to", "-"), is_diameter)
    if ends and "sort" in made.figures:
        of_line = "" if str(made.figures["sort"].value) == "silicone tube" else " line"
        ranged = f"{ends[0].text}–{ends[2].text} mm{of_line}"
        made.note = ", ".join(n for n in (made.note, ranged) if n)
        hand.one(is_sign("line"))
    elif ends:
        hand.left[:0] = ends


def _bore_and_length(made: Attempt, hand: Hand, measured: Token | None) -> Token | None:
    """The bore of a tube; how long a piece comes in the packet is a note: "silicone 0.5 mm, 1 m"."""
    long = measured if measured and measured.unit != "mm" else None
    if long:
        measured = hand.one(has_unit("mm"))
    long = long or hand.one(has_unit("m", "cm", "ft", "in", "yd"))
    if long:
        made.note = ", ".join(n for n in (made.note, long.said) if n)
    return measured


def _words_taken(tokens: Sequence[Token]) -> tuple[Hand, dict[str, list[str]]]:
    """What the words say; a name that numbers part is read as one: "swivels size 20 quick change"."""
    hand = Hand(tokens)
    said = hand.words(LEXICON[Kind.PART])
    apart = Hand(
        [
            *(replace(t, text=singular(t.text)) for t in tokens if t.kind == "word"),
            *(t for t in tokens if t.kind != "word"),
        ]
    )
    together = apart.words(LEXICON[Kind.PART])
    sorts, fewer = (len(_own_names(words.get("sort", []))) for words in (said, together))
    loose, less = ("loose" in words for words in (said, together))
    if fewer and (fewer, len(apart.left), less) < (sorts, len(hand.left), loose):
        return apart, together
    return hand, said


def _of_no_size(measured: Token | None) -> str:
    """The fault of a ring of no bore, or a bead of no size."""
    if measured is None or measured.value:
        return ""
    return f'"{measured.said}" is no size of a small part.'


def _own_names(sorts: list[str]) -> list[str]:
    """Without a sort that another of them is one of: "swivel 14 rolling" is a rolling swivel."""
    return [s for s in sorts if not any(other.endswith(f" {s}") for other in sorts)]


def _is_size(token: Token) -> bool:
    return token.kind == "number" and not token.unit and token.lead in ("", "size", "no")


def _by_bore(made: Attempt) -> bool:
    """Whether it is tubing or a bush, which go by their bore in millimetres."""
    return "sort" in made.figures and made.figures["sort"].words.endswith(("tube", "bush"))


def _is_apart(number: Token, tokens: Sequence[Token]) -> bool:
    """Whether a bare number stands last of all, behind a comma or a size in words."""
    behind = len(tokens) > 2 and tokens[-1] is number and number.whole and not number.lead
    sized = LEXICON[Kind.PART].get(tokens[-2].text, ("", ""))[0] == "size" if behind else False
    return sized or (behind and tokens[-2].text == ",")


def _by_number(made: Attempt) -> bool:
    """Whether such parts go by numbered sizes: swivels and links; a number of rings may be how many."""
    sort = made.figures["sort"].words if "sort" in made.figures else ""
    return any(word in sort for word in ("swivel", "snap", "quick link"))


def _by_range(made: Attempt) -> bool:
    """Whether two numbers of such a part are sizes: of links either, of connectors those of its elastic."""
    fits_elastic = made.figures.get("sort", word("")).words in ("connector", "bung", "puller bung")
    return fits_elastic or _by_number(made)


def _size_or_number(made: Attempt, number: str, sizes: list[str]) -> list[Figures]:
    """A bare number beside beads or stops: their millimetres, their size, or how many in a packet."""
    choices: list[Figures] = []
    sort = made.figures["sort"].words if "sort" in made.figures else ""
    if int(number) <= 20 and sort not in usual.SOLD_SINGLY:
        choices.append({"size": word(" ".join([f"{number} mm", *sizes]))})
        choices.append({"size": word(" ".join([number, *sizes]))})
    if int(number) > 0:
        choices.append({"pack": pieces(int(number))})
    return choices


def read_elastic(tokens: Iterable[Token]) -> Attempt:
    """The phrase as pole elastic; a band of grades is one elastic."""
    hand = Hand(tokens)
    said = hand.words(LEXICON[Kind.ELASTIC])
    made = Attempt(Kind.ELASTIC, note=", ".join(said.get("note", ())))
    made.evident = bool(said.keys() & {"name", "core"})
    for key in ("core", "colour"):
        if key in said:
            made.figures[key] = word(", ".join(said[key]))
    if long := hand.one(has_unit("m", "ft", "yd")):
        made.pack = length(long.said)
    if thick := hand.one(has_unit("mm")):  # some go by that, and by no grade
        made.note = ", ".join(n for n in (made.note, thick.said) if n)
    band = hand.take(_is_grade, is_sign("-", "to", "/"), _is_grade)
    grades = [band[0], band[2]] if band else hand.all(_is_grade)
    made.left = hand.rest()
    if len(said.get("core", ())) > 1:
        made.doubt("core", ({"core": word(core)} for core in said["core"]))
    if not grades:
        made.doubt("grade", ({"grade": word(str(n))} for n in USUAL_GRADES), missing=True)
    elif not all(SOFTEST <= token.value <= HARDEST for token in grades):
        made.fault = f'"{grades[-1].text}" is no elastic grade. Grades run from 1 to {HARDEST}.'
    elif len(grades) == 1:
        made.figures["grade"] = word(f"{grades[0].value:g}")
    elif not band:
        made.doubt("grade", ({"grade": word(f"{token.value:g}")} for token in grades))
    elif grades[0].value >= grades[1].value:
        made.fault = "a band of grades runs from the softer to the harder."
    else:
        made.figures["grade"] = word("–".join(f"{token.value:g}" for token in grades))
    return made


def _is_grade(token: Token) -> bool:
    return (
        token.kind == "number"
        and not token.unit
        and token.lead in ("", "no", "grade", "size")
        and "/" not in token.text
        and (
            "." not in token.text or (token.value > THICKEST_BARE_MM and token.text.endswith(".5"))
        )
    )


def read_winder(tokens: Iterable[Token]) -> Attempt:
    """The phrase as a winder: the longer figure is its length, the shorter its width."""
    hand = Hand(tokens)
    said = hand.words(LEXICON[Kind.WINDER])
    made = Attempt(Kind.WINDER, note=", ".join(said.get("note", ())), evident="name" in said)
    if "colour" in said:
        made.figures["colour"] = word(", ".join(said["colour"]))
    for at, (token, sign, after) in enumerate(
        zip(hand.left, hand.left[1:], hand.left[2:], strict=False)
    ):
        if token.whole and sign.text == "x" and after.unit in ("mm", "cm", "in"):  # "13 x 2 cm"
            if length(after.said).value > WIDEST_WINDER_MM:  # type: ignore[operator]
                made.fault = f'"{after.said}" is no width of a winder.'  # "20 x 13 cm" is twenty
            hand.left[at] = replace(token, unit=after.unit)
    _across(made, hand)
    hand.all(is_sign("x"))
    sizes = [length(t.said) for t in hand.all(has_unit("mm", "cm", "in"))]
    sizes.sort(key=lambda figure: -float(figure.value))
    bare = hand.all(lambda t: t.whole and 5 <= t.value <= 400) if made.evident else []
    made.left = hand.rest()
    many = bare.pop() if len(sizes) == 2 and len(bare) == 1 else None  # "20 x 2 cm, 20"
    if not made.evident:
        made.fault = "no winder is named."
    elif bare:
        for token in bare:
            sizes.append(_winder_size(token, sizes))
        sizes.sort(key=lambda figure: -float(figure.value))
    figures: Figures = {"width": usual.WINDER_WIDTH}
    figures |= dict(zip(("length", "width"), sizes, strict=False))
    if len(sizes) > 2:
        made.fault = "a winder has a length and a width."
    elif sizes and float(sizes[0].value) < SHORTEST_WINDER_MM:
        made.fault = f'"{sizes[0].words}" is no length of a winder.'
    if many:
        made.doubt("pack", [{"pack": pieces(int(many.value))}])
    elif bare or not sizes:
        _winder_in_doubt(made, figures, sizes, bare)
    made.figures |= figures
    return made


def _across(made: Attempt, hand: Hand) -> None:
    """ "Winders 13x1.5" are in cm both ways."""
    both = hand.take(is_whole(5, 40), is_sign("x"), lambda t: not t.unit and "." in t.text)
    if both:
        bare = "" if not made.evident else "cm"
        hand.left += [replace(token, unit=bare) for token in (both[0], both[2])]


def _winder_in_doubt(
    made: Attempt, figures: Figures, sizes: Sequence[Figure], bare: Sequence[Token]
) -> None:
    """A bare figure may be a size, or how many: "26 cm, black, 10"; without a length it is asked."""
    if len(sizes) == 2 and len(bare) == 2:  # "winders 18 x 10" may be ten of 18 cm
        many: Figures = {**figures, "width": usual.WINDER_WIDTH, "pack": pieces(int(bare[1].value))}
        made.doubt("length", [figures, many])
    elif not sizes:
        choices = (length(f"{n} cm") for n in (13, 18, 20, 26))
        made.doubt("length", ({"length": figure} for figure in choices), missing=True)
    elif len(sizes) == 2 and len(bare) == 1:
        alone: Figures = {"length": sizes[0], "width": usual.WINDER_WIDTH}
        so_many: Figures = {**alone, "pack": pieces(int(bare[0].value))}
        wide = WIDTHS_MM[0] <= bare[0].value <= WIDTHS_MM[1]
        made.doubt("length", [figures, so_many] if wide else [so_many])
        if not wide:
            figures.pop("width", None)
    else:
        made.doubt("length", [figures])


def _winder_size(bare: Token, said: Sequence[Figure]) -> Figure:
    """A bare figure of a winder: its length in cm or mm, its width in mm."""
    return length(f"{bare.text} {'mm' if said or bare.value >= 40 else 'cm'}")


def grade_ends(grade: Figure) -> tuple[float, float | None]:
    """The softer end of a grade and the harder end of a band, None for one grade."""
    soft, _, hard = str(grade.value).partition("–")
    return float(soft), float(hard) if hard else None
