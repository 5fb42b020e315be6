"""Line on a spool: "nylon 0.14 4 lb 100 m", "6 lb mono", "sinking brown 5 lb", "12 line"."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace

from tacklebox.stock.naming import usual
from tacklebox.stock.naming.described import Figure, diameter, length, strain, word
from tacklebox.stock.naming.hand import Attempt, Figures, Hand, has_unit, is_sign
from tacklebox.stock.naming.lexicon import LEXICON
from tacklebox.stock.naming.tokens import Token
from tacklebox.stock.tables import Kind

THINNEST_MM = 0.001  # the last decimal that is written
THINNEST_SPUN_MM = 0.02  # none is thinner: ".009" is a slip, or in inches
THICKEST_BARE_MM = 0.8  # a bare decimal up to here is a line's diameter
THICKEST_LINE_MM = 1.2  # that is taken for line where nothing else says so
SAME_STRAIN = 0.06  # "3.5 lb/1.6 kg" on one packet is one strain in two units

HEAVIEST_SPOOL_KG = 0.25  # bulk spools come by the quarter and the half of a pound
LEAST_STRAIN_G = 100  # less is what a float takes


def is_strain(token: Token) -> bool:
    """Whether a number is what a line bears."""
    return has_unit("lb", "oz", "kg", "g")(token) and not (
        token.unit == "g" and token.value < LEAST_STRAIN_G
    )


def is_diameter(token: Token) -> bool:
    """Whether a number can only be a line's thickness: mm, thousandths, or a bare decimal."""
    if token.kind != "number" or (token.lead and (token.unit or "." not in token.text)):
        return False  # "size .13" is one
    if token.unit in ("mm", "thou"):
        return token.value < 2 or token.unit == "thou"
    if token.unit == "in":
        return token.value < 0.1
    return not token.unit and "." in token.text and token.value <= THICKEST_BARE_MM


def in_hundredths(token: Token) -> Figure:
    """A whole number said for hundredths of a millimetre: "12 line" is 0.12 mm."""
    return diameter(f"0.{int(token.value):02d}")


def read_line(tokens: Iterable[Token]) -> Attempt:
    """The phrase as line."""
    hand = Hand(tokens)
    said = hand.words(LEXICON[Kind.LINE])
    notes = dict.fromkeys((*said.get("use", ()), *said.get("note", ())))
    made = Attempt(Kind.LINE, note=", ".join(sorted(notes, key=lambda n: not n.endswith("line"))))
    for key in ("material", "sort", "colour"):
        if key in said:
            made.figures[key] = word(", ".join(said[key]))
    if len(said.get("material", ())) > 1:  # "mono, bought with the braid"
        made.doubt("material", ({"material": word(one)} for one in said["material"]))
    lengths = hand.all(has_unit("m", "yd"))
    if lengths or any(map(is_diameter, hand.left)):
        hand.all(is_sign("x"))  # "0.12 mm x 100 m"
    tapered = hand.take(lambda t: t.whole, is_sign("-", "to"), is_strain)
    _thicknesses(made, hand.all(is_diameter))
    strains = [*_both_ends(tapered), *hand.all(is_strain)]
    if weighed := _weight_of_spool(strains):
        strains.remove(weighed)
        made.note = ", ".join(n for n in (made.note, weighed.said) if n)
    _strains(made, strains)
    _spools(made, lengths)
    hooklength = bool(lengths) or "hooklength line" not in said.get("note", ())
    made.evident = bool(
        (said.keys() & {"material", "sort", "name", "use"} and hooklength)
        or {"diameter", "strain"} <= made.figures.keys()
        or ({"diameter", "strain"} & made.figures.keys() and lengths)
    )
    leads = ("", "no") if "name" in said else ("",)  # "no 10 line"
    thick = made.figures.get("diameter")
    if thick and float(thick.value) > THICKEST_LINE_MM and not said.keys() & {"material", "name"}:
        made.evident = False  # "1.7 mm hollow, 3 m" is elastic
    bare = hand.all(
        lambda t: t.kind == "number" and not t.unit and t.lead in leads and not t.plural
    )
    strange = _bare(made, bare, plain=said.keys() <= {"name", "note", "colour"} and "name" in said)
    if set(said.get("sort", ())) & {"copolymer", "pre-stretched"}:
        made.figures["material"] = made.figures.get("material", word("nylon"))
    if "not" in said:
        made.fault = "line is not in line."
    if "material" not in made.figures:
        made.figures["material"] = usual.NYLON
    made.left = (*hand.rest(), *strange)
    if not {"diameter", "strain"} & {*made.figures, *(doubt.about for doubt in made.doubts)}:
        made.doubt(*_what_is_usual(made), missing=True)
    return made


def _weight_of_spool(strains: Sequence[Token]) -> Token | None:
    """What a bulk spool weighs, beside what its line bears: "6 lb, 1/4 lb bulk spool"."""
    kilos = [float(strain(t.said).value) for t in strains]
    light = [t for t, kg in zip(strains, kilos, strict=True) if kg < HEAVIEST_SPOOL_KG]
    beside = len(strains) > len(light) == 1 and max(kilos) > 3 * min(kilos)
    return light[0] if beside and not light[0].unit.endswith("g") else None


def _thicknesses(made: Attempt, said: Sequence[Token]) -> None:
    figures = [diameter(token.text, token.unit) for token in said]
    if len(said) == 1 and not said[0].unit and len(said[0].text) == 3 and said[0].value > 0.35:
        slip = diameter(f"0.0{said[0].text[-1]}")  # "0.5" may be 0.05
        made.doubt("diameter", [{"diameter": figures[0]}, {"diameter": slip}])
    elif len({figure.value for figure in figures}) > 1:
        made.doubt("diameter", ({"diameter": figure} for figure in figures))
    elif len(said) == 1 and not said[0].unit and said[0].value < THINNEST_SPUN_MM:
        either = f"0.0{said[0].text[-1]}", f"{25.4 * said[0].value:.2f}"
        made.doubt("diameter", ({"diameter": diameter(one)} for one in either))
    elif figures:
        made.figures["diameter"] = figures[0]
    if any(isinstance(f.value, float) and f.value < THINNEST_MM for f in figures):
        made.fault = f'"{figures[0].words}" is no diameter of a line. From {THINNEST_MM} mm up.'


def _strains(made: Attempt, said: Sequence[Token]) -> None:
    figures = [strain(token.said) for token in said]
    values = [float(figure.value) for figure in figures]
    two_units = len({token.unit in ("kg", "g") for token in said}) == len(said)
    if not figures:
        return
    if max(values) > min(values) * (1 + SAME_STRAIN * two_units):
        made.doubt("strain", ({"strain": figure} for figure in figures))
    else:
        made.figures["strain"] = figures[0]


def _both_ends(tapered: Sequence[Token] | None) -> list[Token]:
    """The strains of "6-12 lb": the number before has the unit of the one after."""
    return [replace(tapered[0], unit=tapered[2].unit), tapered[2]] if tapered else []


def _spools(made: Attempt, said: Sequence[Token]) -> None:
    if len({token.said for token in said}) > 1:
        made.left = tuple(said[1:])
        made.fault = f'both "{said[0].said}" and "{said[1].said}" are said of the spool.'
    if said:
        made.pack = length(said[0].said)


def _bare(made: Attempt, said: Sequence[Token], *, plain: bool) -> list[Token]:
    """Numbers without a unit: hundredths of a mm, a strain, or what is on the spool; the rest left over."""
    for at, token in enumerate(said):
        known = made.figures.keys() & {"diameter", "strain"}
        if made.about:
            rest = said[at:]
            if made.about in ("strain", "diameter") and _is_spool(made, rest):
                _spool_in_doubt(made, rest[0])
                return []
            return list(rest)
        ounces = _with_ounces(made, token)
        if ounces and (known == {"diameter", "strain"} or "/" in token.text):
            made.doubt("strain", [ounces])
        elif not known and token.whole and 5 <= token.value <= 40:
            _thick_or_strong(made, token, plain=plain)
        elif known == {"strain"} and token.whole and 5 <= token.value <= 40:
            thick = {"diameter": in_hundredths(token)}
            if plain and token.value >= 11:
                made.figures |= thick
            else:
                made.doubt("diameter", [thick, ounces] if ounces else [thick])
        elif (
            "strain" not in known and ("diameter" in known or not token.whole) and token.value < 60
        ):
            units = ("kg", "lb") if token.value < 2 and "." in token.text else ("lb", "kg")
            made.doubt("strain", ({"strain": strain(f"{token.text} {u}")} for u in units))
        elif "strain" not in known and token.whole and 0 < token.value < 5:
            made.doubt("strain", [{"strain": strain(f"{token.text} lb")}])
        elif _is_spool(made, [token]):
            _spool_in_doubt(made, token)
        else:
            return list(said[at:])
    return []


def _is_spool(made: Attempt, said: Sequence[Token]) -> bool:
    """Whether the one number left is what is on the spool."""
    return made.pack is None and len(said) == 1 and said[0].whole and 20 <= said[0].value <= 3000


def _spool_in_doubt(made: Attempt, said: Token) -> None:
    made.doubt("pack", ({"pack": length(f"{said.text} {unit}")} for unit in ("m", "yd")))


def _with_ounces(made: Attempt, token: Token) -> Figures:
    """ "1lb 12" is perhaps 1 lb 12 oz; nothing where it cannot be."""
    said = made.figures["strain"].words if "strain" in made.figures else ""
    if re.fullmatch(r"\d+ lb", said) and re.fullmatch(r"\d/[248]", token.text):  # "1 lb 1/2"
        return {"strain": strain(f"{said.removesuffix(' lb')} {token.text} lb")}
    whole_pounds = said.removesuffix(" lb").isdecimal() and said.endswith(" lb")
    if not (whole_pounds and token.whole and 1 <= token.value <= 15):
        return {}
    return {"strain": strain(f"{said} {token.text} oz")}


def _thick_or_strong(made: Attempt, token: Token, *, plain: bool) -> None:
    """ "12 line" is 0.12 mm; "8 line" and "nylon 12" may be pounds."""
    thick = {"diameter": in_hundredths(token)}
    strong = {"strain": strain(f"{token.text} lb")}
    if plain and token.value >= 11:
        made.figures |= thick
    elif token.value > 30:
        made.doubt("strain", [strong, thick])
    else:
        made.doubt("diameter", [thick, strong] if token.value > 6 else [strong, thick])


def _what_is_usual(made: Attempt) -> tuple[str, list[Figures]]:
    material = made.figures["material"].value
    strong = [{"strain": strain(f"{n} lb")} for n in (3, 4, 5, 6, 8)]
    if material == "power gum":
        return "strain", [{"strain": strain(f"{n} lb")} for n in (6, 8, 10)]
    if "leader" in str(made.figures.get("sort", word("")).value) or made.note.endswith("line"):
        return "diameter", strong
    thick = ("0.08", "0.10", "0.12", "0.14", "0.16", "0.18", "0.20")
    return "diameter", [{"diameter": diameter(text)} for text in thick]
