"""Small parts, pole elastic and winders."""

from collections.abc import Iterable
from dataclasses import replace

from tacklebox.stock.naming import usual
from tacklebox.stock.naming.described import Figure, length, strain, word
from tacklebox.stock.naming.hand import Attempt, Hand, has_unit, is_sign
from tacklebox.stock.naming.lexicon import LEXICON
from tacklebox.stock.naming.tokens import Token
from tacklebox.stock.tables import Kind

# What a word that stands alone may be, the likeliest first.
MAY_BE = {
    "stop": ("float stop", "line stop", "hair stop", "ledger stop"),
    "link": ("snap link", "feeder link", "link swivel"),
    "band": ("bait band",),
    "tail": ("tail rubber",),
}
SHORTEST_WINDER_MM = 40
SOFTEST, HARDEST = 0.5, 40
USUAL_GRADES = (4, 5, 6, 8, 10, 12)


def read_part(tokens: Iterable[Token]) -> Attempt:
    """The phrase as a small part; with nothing but a size it may be a swivel."""
    hand = Hand(tokens)
    said = hand.words(LEXICON[Kind.PART])
    made = Attempt(
        Kind.PART, note=", ".join(n for n in said.get("note", ()) if n not in ("ptfe", "latex"))
    )
    made.evident = bool(said.keys() & {"sort", "loose"})
    sorts = said.get("sort", [])
    if len(sorts) == 1:
        made.figures["sort"] = word(sorts[0])
        if "loose" in said:
            made.fault = f"a {sorts[0]} is no {said['loose'][0]}."
    elif sorts:
        made.doubt("sort", ({"sort": word(s)} for s in sorts))
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
    sizes = list(said.get("size", ()))
    weighed = (
        hand.one(has_unit("g", "oz"))
        if made.figures.get("sort", word("")).value == "plummet"
        else None
    )
    if strong := hand.one(has_unit("kg", "lb", "oz")):
        made.figures["strain"] = strain(strong.said)
    measured = weighed or hand.one(has_unit("mm", "cm", "in"))
    numbered = hand.one(
        lambda t: t.kind == "number" and not t.unit and t.lead in ("", "size", "no")
    )
    sizes = [*(t.said for t in (measured, numbered) if t), *sizes]
    if sizes:
        made.figures["size"] = word(" ".join(sizes))
    made.left = hand.rest()
    return made


def read_elastic(tokens: Iterable[Token]) -> Attempt:
    """The phrase as pole elastic; a band of grades is one elastic."""
    hand = Hand(tokens)
    said = hand.words(LEXICON[Kind.ELASTIC])
    made = Attempt(Kind.ELASTIC, note=", ".join(said.get("note", ())))
    made.evident = bool(said.keys() & {"name", "core"})
    for key in ("core", "colour"):
        if key in said:
            made.figures[key] = word(", ".join(said[key]))
    if long := hand.one(has_unit("m")):
        made.pack = length(long.said)
    band = hand.take(_is_grade, is_sign("-", "to", "/"), _is_grade)
    grades = [band[0], band[2]] if band else [t for t in (hand.one(_is_grade),) if t]
    made.left = hand.rest()
    if not grades:
        made.doubt("grade", ({"grade": word(str(n))} for n in USUAL_GRADES), missing=True)
    elif not all(SOFTEST <= token.value <= HARDEST for token in grades):
        made.fault = f'"{grades[-1].text}" is no elastic grade. Grades run from 1 to {HARDEST}.'
    elif len(grades) > 1 and grades[0].value >= grades[1].value:
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
            hand.left[at] = replace(token, unit=after.unit)
    sizes = [length(t.said) for t in hand.all(has_unit("mm", "cm", "in"))]
    sizes.sort(key=lambda figure: -float(figure.value))
    bare = (
        hand.one(lambda t: t.whole and 5 <= t.value <= 400) if made.evident and not sizes else None
    )
    made.left = hand.rest()
    if bare:
        made.doubt(
            "length", [{"length": length(f"{bare.text} {'cm' if bare.value < 40 else 'mm'}")}]
        )
    elif not sizes:
        choices = (length(f"{n} cm") for n in (13, 18, 20, 26))
        made.doubt("length", ({"length": figure} for figure in choices), missing=True)
    elif float(sizes[0].value) < SHORTEST_WINDER_MM:
        made.fault = f'"{sizes[0].words}" is no length of a winder.'
    if len(sizes) > 2:
        made.fault = "a winder has a length and a width."
    made.figures |= dict(zip(("length", "width"), sizes, strict=False))
    if len(sizes) < 2:
        made.figures["width"] = usual.WINDER_WIDTH
    return made


def grade_ends(grade: Figure) -> tuple[float, float | None]:
    """The softer end of a grade and the harder end of a band, None for one grade."""
    soft, _, hard = str(grade.value).partition("–")
    return float(soft), float(hard) if hard else None
