"""The words that anglers use, by kind of item and by what they say of it.

Each entry is a meaning with the forms in which it is said; hyphens, spaces and plurals do not matter.
All of it is common practice. Notes are words that a packet or an angler adds and that decide nothing.
"""

from collections.abc import Mapping

from tacklebox.stock.naming.words_of_parts import PARTS
from tacklebox.stock.tables import Kind


def _as_said(words: str) -> dict[str, str]:
    """Words that mean themselves and are said in one way."""
    return {word: word for word in words.split(", ")}


def _by_the_first(*forms: str) -> dict[str, str]:
    """Words that mean what the first of their forms says."""
    return {said.split(", ")[0]: said for said in forms}


def _without(words: Mapping[str, str], *left_out: str) -> dict[str, str]:
    return {meaning: forms for meaning, forms in words.items() if meaning not in left_out}


COLOURS = tuple(
    "clear green brown black white red orange yellow blue grey pink purple gold silver sand camo "
    "olive lime lilac violet turquoise cream copper chartreuse amber".split()
)
HOOK_COLOURS = (*COLOURS, "bronze", "nickel")
_SPELT = _by_the_first(
    *("green, weedy green, weed green, moss green", "grey, gray", "gold, golden, gilt"),
    *("red, blood red", "camo, camouflage", "olive, olive green", "lime, lime green"),
)
_SHADES = _by_the_first("dark, dk, drk", "light, lt", "bright", "dull")
SIZE_WORDS = _by_the_first(
    *("extra small, x small, xs, tiny", "micro", "mini", "small, sml, s, little"),
    *("medium, med, m", "large, lge, big, l", "extra large, x large, xl, jumbo"),
)
USES = _as_said(
    "carp, match, maggot, pellet, pole, feeder, river, canal, roach, bream, skimmer, "
    "reservoir, drain, perch, tench, barbel, chub, commercial, margin, caster, worm, corn, punch, "
    "bread, hemp, deadbait, livebait, distance, waggler, hair rig, banding, pinkie, still water, "
    "running water, winter, summer, method, specimen, bait, shallow, float, bulk, paste, "
    "spare, old, new, special, pike, zander, grayling, dace, rudd, crucian, eel, bleak, gudgeon"
)
USES |= _by_the_first(
    *("hair rigging, hair rigger", "assorted, mixed, various", "f1, f1s"),
    *("bloodworm, blood worm, bloodworms", "squatt, squat", "silver fish, silvers"),
    *("lobworm, lobworms, lobs", "meat, luncheon meat", "whip", "part used, opened"),
    *("unopened, not opened, sealed", "homemade", "secondhand"),
)


def _colours(names: tuple[str, ...] = COLOURS) -> dict[str, str]:
    return {name: _SPELT.get(name, name) for name in names}


_MATERIALS = {
    "nylon": "nylon, mono, monofilament, monofil, polyamide, nylon mono",
    "fluorocarbon": "fluorocarbon, fluoro, fluro, flurocarbon, flouro, flourocarbon, pvdf",
    "braid": "braid, gel spun, braided, braided line, polyethylene, pe braid",
    "power gum": "power gum, feeder gum",
}
_HOOK = {
    "barb": {
        "barbless": "barbless, no barb, without barb, unbarbed, debarbed",
        "micro-barbed": "micro barbed, micro barb, whisker, whisker barb, whisker barbed, "
        "semi barbed, semi barb, semi barbless, mini barb",
        "barbed": "barbed, barb",
    },
    "micro": {"micro-barbed": "micro"},
    "end": {
        "spade": "spade, spade end, spade ended, spaded, spade shank",
        "eyed": "eyed, eye, with eye, ring eye, ringed, eyed end",
    },
    "eye": {
        "in-turned": "in turned eye, inturned, in turned, turned down eye, down turned eye",
        "out-turned": "out turned eye, outturned, out turned, turned up eye, up turned eye",
        "straight": "straight eye, straight eyed",
    },
    "wire": {
        "fine": "fine wire, fine, fine gauge, light wire, thin wire, light gauge, extra fine, "
        "extra fine wire",
        "medium": "medium wire, medium gauge",
        "strong": "strong wire, strong, heavy wire, heavy gauge, thick wire, x strong, extra strong, "
        "strong gauge, xs",
        "forged": "forged, forged wire",
    },
    "bend": {
        "wide gape": "wide gape, wide gap, widegape",
        "round bend": "round bend, circular bend",
        **_as_said("straight point, circle, curved point"),
        "crystal bend": "crystal bend, crystal",
        "long shank": "long shank, long shanked",
        "short shank": "short shank, short shanked",
        "curved shank": "curved shank, curve shank, curved",
        "beaked point": "beaked point, beak point, beaked, beak",
        "straight shank": "straight shank, straight shanked",
        "offset": "offset, kirbed, reversed",
        "sproat": "sproat, sproat bend",
        "aberdeen": "aberdeen, aberdeen bend",
    },
    "colour": _colours(HOOK_COLOURS),
}
_BAIT = {
    "hair": "hair, hair rig, hair rigs, hair rigged, with a hair, on a hair, haired",
    "band": "band, banded, with a band, bait band, pellet band, micro band, mini band",
    "push stop": "push stop, pushstop, quick stop, quickstop",
    "bait spike": "bait spike, spike, bayonet, bait spear, spear",
}

_FOR_HOOKLENGTHS = (
    "bottom line, hooklength line, hook length line, hooklink line, hook link line, hooklink material, "
    "hook link material, hooklength material, hook length material, "
    "for hooklengths, for hook lengths, for hooklinks"
)
_SORTS = {
    "copolymer": "copolymer, co polymer, copoly",
    "pre-stretched": "pre stretched, prestretched, pre stretch",
}
_FEEL = {"stiff": "stiff, hard", "supple": "supple, limp"}

WORDS: Mapping[str, Mapping[str, Mapping[str, str]]] = {
    Kind.LINE: {
        "material": _MATERIALS,
        "sort": {
            **_SORTS,
            **_as_said("soft, floating"),
            "sinking": "sinking, sink, sinker, fast sinking, fast sink",
            "leader": "leader, leader line",
            "shock leader": "shock leader, shockleader",
            "taper leader": "taper leader, tapered leader, taper, tapered",
        },
        "use": {
            **_as_said("main line, reel line, backing line, match line"),
            "float line": "float line, stick float line, waggler line, wag line",
            "feeder line": "feeder line, ledger line, leger line",
            "rig line": "rig line, pole line, pole rig line",
            "hooklength line": _FOR_HOOKLENGTHS,
        },
        "note": {
            "main line": "main",
            "reel line": "reel",
            "float line": "float",
            "feeder line": "feeder, ledger, leger",
            "rig line": "pole rig, rig",
            "hooklength line": "hooklength, hook length, hooklink, hook link, bottom",
            **_as_said("backing, coated, trotting, double strength, abrasion resistant"),
            "low stretch": "low stretch, lo stretch",
            "centrepin": "centrepin, pin, c pin",
            "thin": "thin, fine",
            **_SHADES,
            **_FEEL,
            "connected": "connected, joined",
            "low diameter": "low diameter, low dia, low diam, thin diameter",
            "hi-vis": "hi vis, high vis, hi viz, high visibility, hi visibility",
            "high-tech": "hi tech, high tech, hitech",
            "4 strand": "fourstrand",
            "8 strand": "eightstrand",
            "9 strand": "ninestrand",
            "12 strand": "twelvestrand",
            **_without(USES, "float", "feeder", "waggler"),
        },
        "not": {"in line": "in line, inline"},
        "colour": _colours(),
        "name": {"line": "line, fishing line"},
        "nothing": {
            "": "diameter, dia, diam, breaking strain, breaking, strain, bs, b s, test, size, "
            "material, thick, thickness, ish"
        },
    },
    Kind.HOOK: {
        **_HOOK,
        "note": {
            "big": "big, giant",
            "small": "small, little",
            **_as_said("single, banded, loose, carbon"),
            "ptfe": "ptfe, ptfe coated, teflon, teflon coated",
            **_without(USES, "float"),
        },
        "name": {"hook": "hook, hk, singles", "treble": "treble, treble hook"},
    },
    Kind.HOOKLENGTH: {
        **_HOOK,
        "bait": _BAIT,
        "material": _without(_MATERIALS, "power gum"),
        "name": {
            "hook to nylon": "hook to nylon, hooks to nylon, hook tied to nylon, hooks tied to nylon, "
            "tied hook to nylon, tied hooks to nylon, hooklength to nylon, hooklengths to nylon, htn",
            "hooklength": "hooklength, hook length, hooklink, hook link, bottom, tail, snood, "
            "pre tied, pre tied hook, ready tied, ready tied hook, tied hook, hair rig hook, trace, "
            "pre tied hooklength, ready tied hooklength",
        },
        "not": {"line": _FOR_HOOKLENGTHS},
        "snell": {"snell": "snell, snelled"},
        "note": {
            **_without(USES, "hair rig", "float"),
            "bomb": "bomb, straight lead",
            "waggler": "waggler, wag, wagg",
            "treble": "treble, treble hook",
            **_as_said("wire, slider, soft, coated"),
            "quick-change": "quick change",
            **_FEEL,
            **_SORTS,
        },
        "hook": {"hook": "hook, hk"},
        "rig": {"rig": "rig, rigged"},
        "nothing": {"": "line, tied, whipped, long, length, breaking strain, bs, b s"},
    },
    Kind.FLOAT: {
        "shape": {
            "waggler": "waggler, wag, wagg, waggy, waggler float",
            "waggler straight": "straight, straight waggler",
            "waggler insert": "insert, insert waggler, inserted, inserted waggler",
            "waggler bodied": "bodied, bodied waggler, bodied float",
            "waggler loaded": "loaded, loaded waggler, semi loaded, part loaded, self cocking, self cocker, "
            "self cocking waggler",
            "waggler pellet": "pellet waggler, pellet wag, pellet, splasher, splasher waggler",
            "waggler slider": "slider, sliding float, sliding waggler, slider float, sliding",
            "waggler antenna": "antenna, antenna waggler, antenna float",
            "waggler driftbeater": "driftbeater, drift beater, driftbeater waggler, windbeater, wind beater",
            "waggler onion": "onion, onion float, onion waggler",
            "stick": "stick, stick float",
            "pole": "pole, pole float, pole rig float, paste float, edge float",
            "avon": "avon, avon float",
            "balsa": "balsa float",
            "chubber": "chubber, loafer, loafer float, chubber float",
            "dibber": "dibber, dibber float, pole dibber",
            "bolo": "bolo, bolo float, bolognese, bolognese float",
            "flat": "flat float, flat, flat pole float, lollipop, lollipop float, lolly, flat bodied",
        },
        "material": {
            "peacock": "peacock, peacock quill, peacock waggler",
            "crystal": "crystal, clear plastic, clear, crystal waggler, clear waggler",
            **_as_said("balsa, plastic"),
            "cork": "cork, cork bodied, cork body",
            "sarkandas": "sarkandas, reed",
            "foam": "foam, foam bodied, foam body",
            "quill": "quill, porcupine quill, goose quill, crow quill, crowquill, porcupine",
            "wood": "wood, wooden, all wood",
        },
        "body": {
            "slim": "slim, slim bodied, slim body, slimline",
            "pear": "pear, pear shape, pear shaped, pear body",
            "body-up": "body up, bodyup",
            "body-down": "body down",
            "diamond": "diamond, diamond shape, diamond shaped, diamond body",
            "round": "round, round body, round bodied, ball",
            "rugby": "rugby, rugby ball, rugby ball shape",
            "big": "big, thick, giant, fat",
            "heavy base": "heavy base, heavy based",
            "dumpy": "dumpy, stubby",
            **_as_said("topper, ducker"),
            "dome top": "dome top, dome topped, domed top, domed",
            "shouldered": "shouldered, shoulder",
            "teardrop": "teardrop, tear drop, teardrop shape, teardrop shaped",
            "trotter": "trotter, trotting",
            "pencil": "pencil, pencil shape, pencil shaped, pencil float",
            "zoomer": "zoomer, zoomer float",
            "dart": "dart, canal dart, darter",
        },
        "bulk": {"small": "small, mini, little", **_as_said("medium, large")},
        "stem": {
            "wire": "wire stem, wire stemmed, wire",
            "glass": "glass stem, glass, glass fibre, fibreglass, fibre glass, fibre stem, glass fibre stem, "
            "glass stemmed",
            "carbon": "carbon stem, carbon, carbon stemmed",
            "cane": "cane stem, cane stemmed, cane",
            "lignum": "lignum, lignum stem, lignum base",
            "alloy": "alloy, alloy stem, alloy stemmed, aluminium stem, ali, ali stem, alu, alu stem",
            "plastic": "plastic stem, nylon stem",
        },
        "tip": {
            "wire": "wire bristle, wire tip, wire tipped",
            "fine bristle": "fine bristle, thin bristle, fine tip",
            "thick": "thick tip, thick tipped, fat tip, fat tipped",
            "thick bristle": "thick bristle",
            "bristle": "bristle, fibre bristle, bristle tip, bristle tipped",
            "nylon bristle": "nylon bristle, plastic bristle",
            "thick hollow": "thick hollow, thick hollow tip, thick hollow tipped",
            "hollow": "hollow tip, hollow, hollow tipped, hollow bristle",
            "cane": "cane tip, cane tipped, cane bristle",
            "glass": "glass tip, glass tipped, glass bristle, fibreglass bristle, glass fibre bristle",
            "carbon": "carbon tip, carbon tipped, carbon bristle",
            "plastic": "plastic tip, nylon tip, solid tip",
        },
        "colour": {**_without(_colours(), "clear"), "red": "red, dayglo red"},
        "note": {
            **_without(
                USES, *"waggler,float,hair rig,banding,bait,pole,pellet,feeder,method".split(",")
            ),
            "in line": "in line, inline",
            **_as_said("short, long"),
            "flights": "flights, flight, flighted, with flights",
            "dust shot": "dust shot, for dust shot",
        },
        "name": {"float": "float"},
        "nothing": {
            "": "unloaded, that, which, take, tip, tipped, top, topped, stem, body, taking, takes, carrying, "
            "carries, capacity, shape, shaped"
        },
    },
    Kind.WEIGHT: {
        "form": {
            "shot": "shot, split shot, splitshot, round shot",
            "olivette": "olivette, ollivette, olly, ollie, ollies, oly, olys, olivet, pole weight",
            "styl": "styl, stil, mouse dropping, "
            "stick shot, stick weight, stick lead, styl weight, styl lead, "
            "stick styl, style lead, style weight",
        },
        "material": {
            "tin": "tin, non lead, non toxic, nontoxic, no toxic, not toxic, non tox, nontox, tin alloy, "
            "lead free, unleaded, lead substitute, substitute",
            **_as_said("tungsten, lead"),
        },
        "note": {
            **_as_said("micro, flat, big, round, loose, double cut, square cut, pear"),
            "egg": "egg, egg shaped",
            "in line": "in line, inline",
            "bolt on": "bolt on",
            "soft": "soft, super soft",
            "cylindrical": "cylindrical, cylinder",
            "pole rig": "pole rig, rig",
            **_without(USES, "float", "waggler"),
        },
        "dust": {"dust": "dust, dust shot"},
        "nothing": {"": "weight, size"},
    },
    Kind.FEEDER: {
        "shape": {
            "cage": "cage, wire cage, cage feeder, wire cage feeder",
            "open-end": "open end, open ended, open end feeder, open ended feeder, openend, open ender",
            "block-end": "closed end, closed ended, block end, block ended, block end feeder, blockend, "
            "block ender",
            "maggot": "maggot feeder",
            "method": "method, method feeder",
            "flat method": "flat method, flat bed, flatbed, flat bed method, flat method feeder, "
            "flat bed feeder, flatbed method, flat feeder, method flat, method flatbed, "
            "method feeder flat, feeder method flat, feeder flat method",
            "hybrid": "hybrid, hybrid feeder, hybrid method",
            "pellet": "pellet feeder",
            "window": "window, window feeder",
            "bullet": "bullet feeder",
            "bomb": "bomb, bomb lead, arlesey bomb, swivel bomb, ledger bomb, leger bomb, casting bomb, "
            "arlesey, swivel lead",
            "straight lead": "straight lead, straight bomb",
            "flat lead": "flat lead, flat bomb, watch lead",
            "coffin lead": "coffin lead, coffin",
            "pear lead": "pear lead, pear bomb, flat pear, flat pear lead, flat pear bomb, swivel pear, "
            "pear swivel",
            "back lead": "back lead",
            "gripper lead": "gripper lead, gripper, grip lead",
            "strap lead": "strap lead, strap",
            "drilled bullet": "drilled bullet, bullet lead",
            "lead": "lead, ledger weight, leger weight, ledger lead, leger lead, lead weight, ledger, "
            "leger",
        },
        "bait": _as_said("maggot, pellet"),
        "bullet": {"bullet": "bullet"},
        "body": {"pear lead": "pear", "flat lead": "flat"},
        "groundbait": {"groundbait": "groundbait, groundbait feeder, ground bait"},
        "fitting": {"in line": "in line, inline", "elasticated": "elasticated"},
        "size": SIZE_WORDS,
        "note": {
            **_without(USES, "feeder", "pellet", "method", "maggot", "float", "waggler", "pole"),
            **_without(_colours()),
            **_as_said("plastic, heavy, light, dull, wire, dead cow, tube"),
            "dome": "dome, domed",
            "clip on": "clip on",
            "flat bottom": "flat bottom, flat bottomed",
            "swivel top": "with swivel, swivel top, top swivel, swivel topped, swivelled, swivel at top, "
            "swivel type, with a swivel",
            "running": "running, free running",
            "non-toxic": "non toxic, nontoxic, lead free, non lead",
            "cap": "cap, capped, end cap",
            "black cap": "blackcap",
        },
        "name": {"feeder": "feeder, swimfeeder, swim feeder"},
        "nothing": {"": "weight, weighted, loaded, shape, shaped"},
    },
    Kind.PART: {
        "sort": PARTS,
        "loose": {**_as_said("stop, band, tail, barrel"), "link": "link, clip"},
        "size": SIZE_WORDS | _by_the_first("large bore, big bore, wide bore", "long", "short"),
        "note": _without(USES, "hair rig")
        | _colours(HOOK_COLOURS)
        | _SHADES
        | _as_said("brass, ptfe, dacron, latex, rubber, plastic, tungsten")
        | _as_said("tapered, internal, external, soft, elasticated")
        | _by_the_first(
            "clip on, clipon", "cork bottomed, cork bottom, cork base, cork based, cork"
        ),
        "nothing": {
            "": "size, elastic, breaking strain, bs, b s, bore, internal diameter, id, length, stem"
        },
    },
    Kind.ELASTIC: {
        "core": _by_the_first(
            *("solid, solid core", "hollow, hollow core, hollow elastic, hollo"),
            "dual core, double core, twin core, dual",
        ),
        "colour": _colours(),
        "note": {
            **_without(USES, "float", "waggler"),
            **_by_the_first("doubled, doubled up, double", "hybrid"),
            **_SHADES,
        },
        "name": {
            "elastic": "elastic, pole elastic, lastic, lacky, lackey, lakky, laccy, lacky band, latex, bungee"
        },
        "nothing": {"": "grade, rated, size, diameter, dia, diam, bore"},
    },
    Kind.WINDER: {
        "colour": _colours(),
        "note": {**_without(USES, "float", "pole"), **_as_said("slide in, slim"), **_SHADES},
        "name": {"winder": "winder, pole winder, rig winder, rig winder, pole rig winder"},
        "nothing": {"": "wide, long, width, length, plastic, pole, rig"},
    },
}
