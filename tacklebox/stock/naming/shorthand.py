"""How anglers shorten words on winders, tubs and shopping lists, spelt out before anything is read.

All of it is common practice. What is not here and looks like a word without its vowels is asked about.
"""

import re
from collections.abc import Callable, Mapping

from tacklebox.stock.naming.turns import PACKETS

_SHORT: Mapping[str, str] = {
    short: full
    for full, shorts in {
        "barbless": "bbless b/l b'less b/less bless blss bbls brls brbls brbless brblss barbls bl/less bls",
        "micro barbed": "m/b m/barb m/barbed mbarb",
        "barbed": "bbd",
        "semi barbed": "semi-bbd",
        "long shank": "lg-shk l/shank l/shk lshank",
        "treble": "trbl",
        "bloodworm": "bldworm b/worm bldwrm",
        "spade": "spd spde",
        "spade end": "s/e s/end sp.end sp-end",
        "wide gape": "w/g wg w/gape",
        "fine wire": "f/wire f/w",
        "extra strong": "x-strong xstrong",
        "extra fine": "x-fine xfine",
        "hair rig": "h/rig hrig h/r",
        "hair rigs": "h/rigs hrigs hrs",
        "quick": "qk",
        "non toxic": "n/tox ntox",
        "groundbait": "gb g/bait",
        "pre stretched": "pre-str prestr pre/str",
        "carbon": "carb",
        "round": "rnd",
        "hooklength": "h/l hl h/length h-length h-link h/lgth hklth hklgth hklen h/link",
        "hooklengths": "h/ls hls h/lengths h-lengths h-links hooklgths tyings",
        "hook to nylon": "h2n h/n hk/nyl h/nyl hk/nylon hook/nylon hk-nyl",
        "hooks to nylon": "hooks-nylon",
        "main line": "m/line m/l",
        "fluorocarbon": "fc fluo",
        "copolymer": "copol",
        "material": "mtl matl mtrl",
        "feeder": "fdr fder f/dr",
        "feeders": "fdrs",
        "open end": "o/e o/end",
        "block end": "b/e b/end blk-end blk/end",
        "quick change": "q/c qc q/change q/chg q/ch q-change qchange quickchg",
        "maggot": "mag magg mgt",
        "crystal": "crys cryst crstl xtal",
        "window": "windae",
        "half": "hauf hlf",
        "spool": "spl",
        "cards": "crds",
        "broken": "brkn bkn",
        "about": "abt abaht abart",
        "elastic": "elas elstc elast leccy lackie",
        "standard": "std",
        "pellet": "pel plt",
        "lignum": "lig lign",
        "stem": "stm",
        "in line": "inl inln i/l i/line",
        "blue": "blu",
        "hollow": "holl hlw",
        "rolling": "roll",
        "dispenser": "disp dispensor dispencer",
        "bodied": "bod bdd",
        "bronze": "brz bnz",
        "banded": "bnd bndd",
        "bands": "bnds",
        "silicone": "sil silic",
        "shock": "shk",
        "waggler": "wglr wgglr wgr",
        "wagglers": "wglrs",
        "float": "flt",
        "floats": "flts fls",
        "swivel": "swvl swiv swv sw swvl'd",
        "swivels": "swvls swivs swvs",
        "connector": "conn",
        "connectors": "conns",
        "dacron": "dac",
        "elasticated": "elast'd",
        "lead": "ld",
        "leads": "lds",
        "leader": "ldr",
        "tungsten": "tung tngstn",
        "straight": "str strt",
        "black": "blk",
        "brown": "brn",
        "green": "grn",
        "yellow": "yel ylw",
        "silver": "slvr",
        "small": "sm",
        "medium": "md",
        "large": "lg lrg lrge",
        "pole float": "p/flt p/float p/fl",
        "pole floats": "p/flts p/floats",
        "float stop": "f/stop flt/stop",
        "float stops": "f/stops flt/stops",
        "pellet waggler": "p/wag p/waggler p/wagg",
        "peacock": "pcock p/cock pea peac",
        "internal": "int intl",
        "external": "ext extl",
        "olivette": "oliv olv olvt",
        "olivettes": "olivs",
        "braid": "brd",
        "link": "lnk",
        "links": "lnks lks",
        "clear": "clr",
        "nylon": "nyl",
        "hook": "hk",
        "hooks": "hks",
        "pieces": "pce pces",
        "rubber": "rbr rubb",
        "rubbers": "rbrs",
        "bead": "bd",
        "beads": "bds",
        "stops": "stps",
        "orange": "orng org",
        "purple": "purp",
        "white": "wht",
        "method": "mthd meth",
        "hybrid": "hybd hyb",
        "distance": "dist",
        "winder": "wndr",
        "winders": "wndrs",
        "loaded": "ldd",
        "sinking": "snkg",
        "bomb": "bmb",
        "bristle": "brstl",
        "tens": "tenners",
        "assorted": "asstd asst assrtd mxd",
        "refill": "refil",
        "refills": "refils",
        "sleeve": "slv",
        "sleeves": "slvs",
        "anti tangle": "a/t",
        "snap": "snp",
        "snap swivel": "snap/sw snap/swivel",
        "tub": "tb",
        "line": "ln",
        "sticks": "stx",
    }.items()
    for short in shorts.split()
}
_STRANDS = {"4": "four", "8": "eight", "9": "nine", "12": "twelve"}
# In this order.
_SPELT: tuple[tuple[re.Pattern[str], str | Callable[[re.Match[str]], str]], ...] = tuple(
    (re.compile(pattern), instead)
    for pattern, instead in (
        (r"\bs(?:i?ze?|zs)\.\s*(?=\d)", "size "),  # "sz.20" is no 0.20
        (r"(?<=[a-z]),(?=\d)", ", "),  # "hook,10,long shank"
        (
            r"\bpart\s+(spools?|reels?|packets?|packs?|pkts?|tubs?|bags?|box)\b(?:\s+of\b)?",
            r"\1 part used ",
        ),
        (r"(?<=[a-z,]\s)(\d{1,3})\s+nos?\.?(?=\s*,)", r"\1 of them"),  # "green, 20 no., slotted"
        (r"\b(\d{1,3})no\b\.?(?=\s*(?:,|$))", r"\1 of them"),
        (rf"\b(\d{{1,3}})\s+no\.?\s+(?={PACKETS}\b)", r"\1 "),
        (r"\b(\d{1,3})\s*no\.\s+(?=[a-z])", r"\1 no "),  # "4 no. open enders"
        ("\u00b7", "."),
        (r"(?<=[a-z\d])-(?=(?:oz|lb|mm|no|inch)\b)|(?<=\bno)-(?=\d)", " "),  # "5-no-4"
        (r"\bw/(?=\s|[a-z]{3})(?!gap)", "with "),
        (r"\bo'\s*(?=[a-z\d])", "of "),  # "pack o' ten"
        (r"\b([a-z])\.(?=[a-z]{2})", r"\1/"),  # "f.wire" as "f/wire"
        (r"\b[1-5]\s?x[\s-]?(?=strong\b)", "extra "),
        (r"(?<!\d )\bx+[\s-]?(?=(?:strong|fine|small|large)\b)", "extra "),
        (
            r"\b(4|8|9|12|four|eight|nine|twelve)[\s-]*(?:str|strnd|strands?|carrier|carr)\b",
            lambda found: f"{_STRANDS.get(found[1], found[1])}strand",
        ),
        (
            r"\bpck(?=\s+(?:ins|insert|wag|str|quill))|(?:(?<=wag )|(?<=ins )|(?<=str ))pck\b",
            "peacock",
        ),
        (
            r"\bw\.?\s+(?=(?:orange|red|yellow|black|white|green|band|hair|swivel|link|spike)\b)",
            "with ",
        ),
        (r"\bbx(?=\d)", "box "),
        (r"\bsp\.?\s+end\b", "spade end"),
        (r"\bblk[\s-]?ends?\b", "block end"),
        (r"\b(?:hl|h/l)\s+(?=(?:mono|nylon|line|fluoro\w*|fc|copoly\w*)\b)", "hooklength line "),
        (r"\blg\s+sh(?:k|ank)\b", "long shank"),
        (r"\bbnd'd\b", "banded"),
        (r"\bins\b(?<!\d ins)(?<!\dins)", "insert"),
        (r"(?<![\d./])(\d{1,3})\s*/\s*(?:pkt|pk|pack|packet|bag|box)\b", r"pack of \1"),
        (r"\b(?:pkt|pk|pack|packet)/(\d{1,3})\b", r"pack of \1"),
        (r"\bsets(?=\s+of\s+\d)", "packs"),
        (r"\b(?:set|tin)\s+of\s+(?=\d|two|three|four|five|six)", "pack of "),
        (r"\b(?:wires?|strings?)\s+of\s+(?=\d)", "cards of "),  # of float stops
        (r"\b(?:three|3)[\s-]*way\b", "threeway"),
        (r"(?<=tangle)([\s-]+)slv(?=s?\b)", r"\1sleeve"),
        (
            r"(?<=\d)\s*x(?=(?:no|nos|bb|aaa|aa|ab|ssg)\b|(?:no|nos)\.?\d)|(?<=[a-z]{3})x(?=\d{1,3}\b)",
            " x ",
        ),
    )
)
_OF_HOOKS = re.compile(r"\b(?:hooks?|hks?|spades?|spd|eyed|gape|hair|band(?:ed)?)\b")
_ELASTIC = re.compile(r"\b(?:elastics?|elas|lastic|lacky|latex)\b")
_ANY = "|".join(re.escape(short) for short in sorted(_SHORT, key=len, reverse=True))
_SHORTENED = re.compile(rf"(?<![^\W\d_])(?<![/'-])(?:{_ANY})(?![\w/'])")


def spelt_out(text: str) -> str:
    """A phrase in lower case with what is shortened written in full.

    >>> spelt_out("18 b/less to .10 h/l"), spelt_out("4xno4 flt"), spelt_out("ml 5lb"), spelt_out("60 ml")
    ('18 barbless to .10 hooklength', '4 x no4 float', 'main line 5lb', '60 ml')
    """
    text = " ".join(text.split())
    for pattern, instead in _SPELT:
        text = pattern.sub(instead, text)
    if _OF_HOOKS.search(text):
        text = re.sub(r"\bbl\b", "barbless", text)
    if _ELASTIC.search(text):
        text = re.sub(r"(?<=\d)\s?h\b", " hollow", text)  # "elastic 12h"
    text = re.sub(r"\bs(?=\d{1,2}\b)", "size ", text)
    text = re.sub(r"(?<![\w.])ml(?=\W|$)(?<!\d ml)", "main line", text)
    return _SHORTENED.sub(lambda found: _SHORT[found.group()], text)
