"""A phrase cut into numbers with their units, words and signs."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import gcd

from tacklebox.errors import AskedWronglyError
from tacklebox.stock.naming.numbers import FRACTIONS, HOW_MANY, spoken_number
from tacklebox.stock.naming.shorthand import spelt_out

UNITS: dict[str, str] = {
    spelling: unit
    for unit, spellings in {
        "mm": "mm mms mil mill millimetre millimetres millimeter millimeters",
        "cm": "cm cms centimetre centimetres centimeter centimeters",
        "m": "m mt mts mtr mtrs metre metres meter meters metrer metrers",
        "in": "in ins inch inches incher inchers \" ''",
        "ft": "ft foot feet footer footers '",
        "yd": "yd yds yard yards yarder yarders",
        "thou": "thou thous",
        "lb": "lb lbs pound pounds pounder pounders",
        "oz": "oz ozs ounce ounces ouncer ouncers",
        "dram": "dram drams drm drms",
        "kg": "kg kgs kilo kilos kilogram kilograms kilogramme kilogrammes",
        "g": "g gr grs gm gms gram grams gramme grammes",
        "mg": "mg milligram milligrams milligramme milligrammes",
        "ml": "ml mls cc millilitre millilitres",
    }.items()
    for spelling in spellings.split()
}
MOST_FIGURES = 40
_ENDLESS = re.compile(rf"\d[\d.,]{{{MOST_FIGURES},}}")
MOST_DOZENS = 9  # more before "dozen" is a figure of the thing
SPOKEN_UNITS = {word for word in UNITS if len(word) > 3}  # "an ounce", never "a m"
_ERS = ("cher", "chers", "footer", "footers")
_AFTER_IN = ("a", "the", "my", "each", "it", "them", "every", "one", "line", "-", "turned")
_PACKET = ("pack", "packet", "pkt", "box", "tub", "bag", "wallet", "drawer", "tray", "tin", "case")
_COUNTED = (  # behind a number that says how many: "2 ft, 5 packets"
    *(
        "packet",
        "pack",
        "pkt",
        "pk",
        "bag",
        "box",
        "boxe",
        "card",
        "of",
        "off",
        "left",
        "loose",
        "piece",
    ),
    *("pc", "hooklength", "length", "x"),
)
SMALLER = {"lb": "oz", "ft": "in"}  # "1 lb 8 oz", "3 ft 6 in"
FULL = {"oz": 16, "in": 12}  # of the smaller make one of the larger
LEADING = {  # what a number is called by
    **dict.fromkeys(("no", "nos", "nr", "num", "number", "numbers", "#"), "no"),
    **dict.fromkeys(("size", "sizes", "sz"), "size"),
    **dict.fromkeys(("grade", "rating"), "grade"),
}
_SIGNS = {"×": "x", "*": "x", "x": "x", "by": "x", "–": "-", "—": "-", "−": "-", "&": "and"}
VULGAR = {
    "½": "1/2",
    "¼": "1/4",
    "¾": "3/4",
    "⅓": "1/3",
    "⅔": "2/3",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
}
_ALIKE = {"″": '"', "”": '"', "“": '"', "′": "'", "’": "'", "‘": "'"}
_PIECE = re.compile(
    r"(?P<lead>(?:nos?|nr)\.?(?=\s*\d))|(?P<frac>\d+/\d+(?![\d.,]*\d))|(?P<num>\d*[.,]\d+|\d+)"
    r"|(?P<word>f1s?\b|[^\W\d_]+(?:'(?=s\b))?)|(?P<sign>''|\S)"
)
_QUOTED = re.compile(r"""(?<!\d)"([^"]*[^"\d\s])\"""")
_LETTER_I = re.compile(r"(?<=\d[.,])[il](?=\d)|\b[il](?=0\d)")  # "0.I4", "l00m"
_LETTER_O = re.compile(r"(?<=[a-z])0(?=[a-z])")  # "h0ok"
_NOUGHT = re.compile(r"(?<![\w.])o(?=\.\d)")  # "O.14"
_OUNCES = re.compile(r"(?<=\d)\s*0z\b")
_RUN_ON = re.compile(  # "3AAAwaggler", "18sto.10", "4lbmono"
    r"(?<=\d)(?:(?:aaa|ssg|bb|lbs?|kg|mm|cm)(?=[a-z]{3})(?!mms|lbs|gs)|s(?=to\b))"
)
_CODE = re.compile(r"(?!(?:no|nr|pk|sz|by|bb|ab|x|f)\d)[a-z]{1,2}\d{2,}[a-z]*\b")  # a maker's own


@dataclass(frozen=True, slots=True)
class Token:
    """A number, a word, or a sign between them.

    Of a number: ``text`` is the figure as said ("1 1/2"), ``unit`` its unit or "", ``lead`` what it is
    called by ("no", "size", "grade", "count" for a dozen), ``plural`` for "18s".
    """

    kind: str  # "number", "word" or "sign"
    text: str
    value: float = 0.0
    unit: str = ""
    lead: str = ""
    plural: bool = False

    @property
    def said(self) -> str:
        """The figure with its unit, as it is printed: "3.2 lb", "1 lb 8 oz"."""
        return f"{self.text} {self.unit}".strip()

    @property
    def whole(self) -> bool:
        """Whether it is a whole number without a unit: a size, a mark, a count."""
        return self.kind == "number" and not self.unit and self.text.isdecimal()


def refuse_endless(text: str) -> None:
    """Raise AskedWronglyError for a number of more figures than any tackle has, before it costs time."""
    if endless := _ENDLESS.search(text):
        raise _too_many_figures(endless.group())


def _too_many_figures(number: str) -> AskedWronglyError:
    return AskedWronglyError(
        f'"{number[:MOST_FIGURES]}…" has too many figures.', right="Look at the packet again."
    )


def number(text: str, plural: bool = False) -> Token:
    """A number from its figures: a leading nought is put before a bare point.

    Raises AskedWronglyError for more figures than any tackle has.
    """
    if len(text) > MOST_FIGURES:
        raise _too_many_figures(text)
    plain = text.replace(",", ".")
    if plain.startswith("."):
        plain = f"0{plain}"
    value = -1.0 if plain.endswith("/0") else float(sum(Fraction(part) for part in plain.split()))
    return Token("number", str(int(plain)) if plain.isdecimal() else plain, value, plural=plural)


def _is_fraction(text: str) -> bool:
    above, below = (int(part) for part in text.split("/"))
    if below == 0:
        return 1 <= above <= 12  # a hook: 2/0
    return below in (2, 3, 4, 8, 16, 32) and 0 < above < below and gcd(above, below) == 1


def _pieces(text: str) -> list[tuple[str, str]]:
    """The phrase in lower case, cut where letters, figures and signs meet."""
    plain = text.lower()
    for sign, instead in _ALIKE.items():
        plain = plain.replace(sign, instead)
    for sign, instead in VULGAR.items():
        plain = plain.replace(sign, f" {instead} ")
    plain = spelt_out(re.sub(r"(?<=[a-z\d])'s\b", "s", plain))
    plain = _QUOTED.sub(r"\1", plain)
    plain = _LETTER_I.sub("1", plain)
    plain = _LETTER_O.sub("o", plain)
    plain = _NOUGHT.sub("0", _OUNCES.sub("oz", plain))
    plain = _RUN_ON.sub(r"\g<0> ", plain)
    pieces: list[tuple[str, str]] = []
    at = 0
    while found := _PIECE.search(plain, at):
        start = found.start()
        code = _CODE.match(plain, start) if plain[start - 1 : start].strip() == "" else None
        if code:
            pieces.append(("word", code.group()))
        elif (
            found["num"]
            and found["num"][0] in ".,"
            and at
            and plain[at - 1].isdigit()
            and start == at
        ):
            pieces += [("sign", found.group()[0]), ("num", found.group()[1:])]  # ".12.4in"
        else:
            pieces += _piece(str(found.lastgroup), found.group())
        at = (code or found).end()
    return pieces


def _piece(group: str, text: str) -> list[tuple[str, str]]:
    if group == "lead":
        return [("word", "no")]
    if group == "frac" and not _is_fraction(text):
        above, below = text.split("/")
        return [("num", above), ("sign", "/"), ("num", below)]
    return [("num" if group == "frac" else group, text)]


def tokenise(text: str) -> tuple[Token, ...]:
    """The phrase as tokens; numbers stand with their units and with what they are called by.

    >>> [token.said for token in tokenise("six number four, 1½oz x 100m")]
    ['6', '4', ',', '1 1/2 oz', 'x', '100 m']
    """
    return tuple(_joined(_numbered(_pieces(text))))


def as_said(text: str) -> str:
    """A figure in its own unit, spelled as it is printed.

    >>> as_said("5ft 6in"), as_said("100yds"), as_said("10 inches")
    ('5 ft 6 in', '100 yd', '10 in')
    """
    return " ".join(token.said for token in tokenise(text))


def _numbered(pieces: Sequence[tuple[str, str]]) -> list[Token]:
    """Numbers in figures and in words made one; everything else a word or a sign."""
    words = [text for _, text in pieces]
    tokens: list[Token] = []
    at = 0
    while at < len(pieces):
        group, text = pieces[at]
        if group == "num":
            mixed = pieces[at + 1 : at + 2]
            if (
                text.isdecimal()
                and (
                    len(text.lstrip("0")) < 2 or UNITS.get("".join(words[at + 2 : at + 3])) == "in"
                )
                and mixed
                and re.fullmatch(r"\d+/[1-9]\d*", mixed[0][1])
            ):
                tokens.append(number(f"{int(text)} {mixed[0][1]}"))
                at += 2
            elif text.isdecimal() and (half := _half_after(words, at + 1)):  # "2 and a half pound"
                tokens.append(number(f"{int(text)} {half}"))
                at += 4
            else:
                tokens.append(number(text))
                at += 1
        elif group == "word" and (spoken := spoken_number(words, at)):
            tokens.append(number(spoken[0], spoken[2]))
            at = spoken[1]
        elif _is_one(words, at):
            tokens.append(number("1"))
            at += 1
        else:
            sign = _SIGNS.get(text, text)
            tokens.append(Token("word" if sign[:1].isalpha() and sign != "x" else "sign", sign))
            at += 1
    return tokens


def _half_after(words: list[str], at: int) -> str:
    """The fraction of "and a half" from ``at``, "" where there is none."""
    rest = words[at : at + 3]
    return FRACTIONS.get(rest[2], "") if rest[:2] == ["and", "a"] and len(rest) == 3 else ""


def _is_one(words: list[str], at: int) -> bool:
    """Whether one of something is meant: "an ounce", and the ounce of "ounce and a half"."""
    following = words[at + 1 : at + 4]
    if words[at] in ("a", "an"):
        return bool(following) and following[0] in SPOKEN_UNITS | HOW_MANY.keys()
    return False


def _joined(tokens: list[Token]) -> list[Token]:
    made: list[Token] = []
    at = 0
    while at < len(tokens):
        token, step = tokens[at], 1
        if token.text in (*SPOKEN_UNITS, "lb", "oz") and _and_a_half(tokens, at):
            token, step = replace(number(f"1 {_and_a_half(tokens, at)}"), unit=UNITS[token.text]), 4
            if made and made[-1] == number("1"):
                made.pop()
        elif token.kind == "number":
            token, step = _with_unit(tokens, at)
            token = _as_inches(token, tokens, at, made)
            if len(made) > 1 and made[-1].text in (".", ":") and made[-2].text in LEADING:
                made.pop()  # "no. eight"
            if made and made[-1].kind in ("word", "sign") and made[-1].text in LEADING:
                token = replace(token, lead=LEADING[made.pop().text])
                if made and made[-1].text in ("size", "grade"):  # "size No 8"
                    made.pop()
            before = made[-1] if made else None
            part = before and SMALLER.get(before.unit, "") == token.unit != ""
            if before and part and token.value < FULL[token.unit]:
                made[-1] = replace(before, text=f"{before.said} {token.text}", unit=token.unit)
                at += step
                continue
        elif token.text in UNITS and _is_one_unit(tokens, at):
            token = replace(number("1"), unit=UNITS[token.text])
        elif token.text in HOW_MANY:
            if len(made) > 1 and made[-1].text == "of" and made[-2].lead == "count":
                made.pop()  # "a couple of dozen"
            times = made.pop().value if made and _multiplies(made[-1]) else 1
            token = replace(number(str(max(1, round(times * HOW_MANY[token.text])))), lead="count")
        made.append(token)
        at += step
    return made


def _multiplies(token: Token) -> bool:
    """Whether it is so many dozen: "three dozen", "half a dozen"; never "25 mm, a dozen", "size 12 doz"."""
    bare = token.kind == "number" and not (token.unit or token.plural or "." in token.text)
    return bare and token.value < MOST_DOZENS


def _is_one_unit(tokens: list[Token], at: int) -> bool:
    """Whether a unit without a number is one of it: "foot long", "ounce bomb", "metre feeder hooklengths"."""
    long = [t.text for t in tokens[at + 1 : at + 2]] in (["long"], ["bore"])
    ends = at in (0, len(tokens) - 1) and tokens[at].text in ("metre", "meter", "yard", "foot")
    tied = ends and any(t.text.startswith(("hook", "bottom")) for t in tokens)
    return long or tied or tokens[at].text in ("pound", "ounce")


def _as_inches(token: Token, tokens: list[Token], at: int, made: list[Token]) -> Token:
    """The number with its unit where it stands behind feet: "two foot six"."""
    feet = bool(made) and made[-1].unit == "ft"
    return replace(token, unit="in") if feet and _is_inches(tokens, at, token) else token


def _is_inches(tokens: list[Token], at: int, token: Token) -> bool:
    after = tokens[at + 1].text if at + 1 < len(tokens) else ""
    counted = after.removesuffix("s") in _COUNTED
    inches = token.whole and not token.plural and 0 < token.value < 12
    return inches and after not in ("to", "/") and not counted


def _and_a_half(tokens: list[Token], at: int) -> str:
    """The fraction of "ounce and a half", or "": the number before it must be one or none."""
    if [t.text for t in tokens[at + 1 : at + 2]] != ["and"]:
        return ""
    rest = tokens[at + 2 : at + 4]
    if len(rest) == 2 and rest[0].text == "a" and rest[1].text in FRACTIONS.values():
        return rest[1].text
    return ""


def _with_unit(tokens: list[Token], at: int) -> tuple[Token, int]:
    """A number with its unit, "and a half" after it too, and how many tokens that took."""
    token, step = _unit_after(tokens, at)
    half = _and_a_half(tokens, at + 1) if token.unit and token.text.isdecimal() else ""
    if half:
        return replace(number(f"{token.text} {half}"), unit=token.unit), step + 3
    return token, step


def _unit_after(tokens: list[Token], at: int) -> tuple[Token, int]:
    """A number with the unit or the plural that follows it, and how many tokens that took."""
    token = tokens[at]
    following = tokens[at + 1].text if at + 1 < len(tokens) else ""
    if following == "-" and at + 2 < len(tokens) and tokens[at + 2].text in SPOKEN_UNITS:
        unit = tokens[at + 2].text
        return replace(token, unit=UNITS[unit], plural=unit.endswith(_ERS)), 3  # "four-inchers"
    if following == "in" and _preposition(tokens, at + 1):
        return token, 1
    if following in UNITS:
        return replace(token, unit=UNITS[following], plural=following.endswith(_ERS)), 2
    if following == "s" and token.text.isdecimal():
        return replace(token, plural=True), 2
    return token, 1


def _preposition(tokens: list[Token], at: int) -> bool:
    """Whether this "in" is no inch: "10 in a packet", "8 in pack", "10 in-turned eye"; "6 in pack 8" is."""
    following, beyond = ([t.text for t in tokens[at + n : at + n + 1]] or [""] for n in (1, 2))
    in_packet = following[0] in _PACKET and not (beyond[0] == "of" or beyond[0].isdecimal())
    return in_packet or following[0] in _AFTER_IN
