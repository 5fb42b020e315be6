"""What says nothing of the thing is left out: when it was, that he only thinks so. What was put right or is
in doubt is said as the rest of this room reads it."""

from tacklebox.stock.naming.plainly.rules import Rules, rules
from tacklebox.stock.naming.turns import MANY, SPOKEN
from tacklebox.stock.naming.words import COLOURS

_THINK = r"(?:i|we)\s+(?:think|reckon|guess|believe|suppose)"
_I_PUT = r"i\s+(?:put|said|wrote|entered|typed|had|did|got)\b"


RULES: Rules = rules(
    (r"\bnearly\s+done\b", "nearly gone"),
    (r"\bso\s+make\s+(?:that|it)\s+", "so "),
    (r"\bno[,\s]+that'?s\s+wrong\b", "no sorry"),
    (
        r"\b(?:[a-z]+\s+)?[a-z]+\s+(?P<thing>hooks|feeders|floats|line|swivels|beads|wagglers)[\s,]+"
        r"(?:no[\s,]+sorry|sorry|no)[\s,]+(?P<right>[a-z]+(?:\s+[a-z]+)?)\s+(?P=thing)\b",
        r"\g<right> \g<thing>",
    ),
    (
        r"\bfor\s+the\s+(?:canal|river|lake|drain)\b[^,;\d]*[\s,.]+no[\s,]+(?:for\s+)?(?:the\s+)?(?P<right>canal|river|lake|drain)\b",
        r"for the \g<right>",
    ),
    (r"\bnon[\s-]toxic\?\s*no[\s,]+(?:the\s+|they'?re\s+)?lead(?:\s+ones?)?\b", "lead"),
    (
        r"\b((?:no\s+)?sorry),?\s+(?:these|they|those|it|this)(?:\s+(?:are|is|was)|'re|'s)\s+",
        r"\1 ",
    ),
    (rf"\b(?:sort|kind)\s+of\s+(?=(?:{'|'.join(COLOURS)})\b)", ""),
    (
        rf"\b{MANY}\s+of\s*[-–,]+\s*no,?\s+(?P<right>\d{{1,2}}|{SPOKEN})(?!\s*\d)",
        r"\g<right> of them",
    ),
    # when it was says nothing of the thing
    (
        r"\s+(?:tonight|today|yesterday|last\s+ni(?:ght|te)|this\s+(?:morning|evening|afternoon))(?=\s*(?:,|$|\d))",
        "",
    ),
    # what he is not sure of is said all the same
    (
        rf"[\s,]*\b(?:{_THINK}(?:\s+(?:they|it|that)\s+(?:are|is|was))?|i'?d\s+say|if\s+i\s+remember)\b(?=\s*(?:[,.;]|$))",
        "",
    ),
    (rf"\b{_THINK}\s+(?=(?:it|they|there|that)\b)", ""),
    # what it is not: "and not the 14s i put down last week"
    (
        r"\?\s*no[\s,]+(?:these|they|them|those|this|that|it)(?:\s+[a-z]+){0,2}\s+(?:are|is)\s+",
        "? no ",
    ),
    (r"\b(?:non[\s-]?toxic|lead[\s-]free|tin)\?\s*no[\s,]+lead\b", "lead"),
    (
        rf"\b{MANY}\s+of\s+(?:these|them|those)[\s,]+no,?\s+(?P<right>\d{{1,2}}|{SPOKEN})(?=\s*(?:,|$))",
        r"\g<right> of them",
    ),
    (r",?\s*\bno,?\s+(?:hang\s+on,?\s+)?(?:it|they)\s+says?\s+", ", no sorry "),
    (
        r"\b(\d*\.?\d+)\s*(g|mm|lb)\b([^\d]*?),\s*sorry\s+(\d*\.\d+)(?=\s*(?:,|$))",
        r"\1\2\3, sorry \4\2",
    ),
    (r"\bor\s+(?:possibly|maybe|perhaps)\b", "or"),
    (
        r",?\s*wait,?\s+(?:just\s+)?(?:looked|checked)\s+and\s+(?:they|it)\s?(?:'re|'s|are|is)\s+",
        ", no sorry ",
    ),
    (r"\bor\s+might\s+be\b", "or"),
    (r"\b(\d+)\s*g\s+or\s+is\s+it\s+(\d+)\b", r"\1g or \2g"),
)
