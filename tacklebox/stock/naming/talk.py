"""What an angler says round a thing's name: "just got", "please", "for Saturday"; and what says that it does
not come in but goes, is wanted, looked for, counted or loaded: "lost two", "need four", "which reel has".

The first is left out of what is read. The second is left out, too, but asked about, for whoever says it
hardly means to put the thing in.
"""

import re
from dataclasses import dataclass
from enum import Enum

from tacklebox.stock.naming.lexicon import PACKETS
from tacklebox.stock.naming.numbers import FRACTIONS, HOW_MANY, ONES, TENS
from tacklebox.stock.naming.words import COLOURS, USES


class Says(Enum):
    """What words beside the name say of a thing, where that is not that it comes in."""

    GONE = "that it is gone"
    WANTED = "that it is wanted"
    SOUGHT = "that it is looked for"
    COUNTED = "how many there are"
    LEVEL = "how much is left"
    LOADED = "what it is loaded on"


def _any_of(*patterns: str) -> str:
    return f"(?:{'|'.join(patterns)})"


def _says(pattern: str) -> re.Pattern[str]:
    return re.compile(pattern, re.IGNORECASE)


_NUMBER = _any_of(r"\d+", *sorted({*ONES, *TENS, *HOW_MANY, *FRACTIONS, "a", "an", "another"}))
_SO_MANY = rf"(?=(?:in\s+)?{_NUMBER}(?![\w.]*-))"
_WE = r"(?:i|we|you|they)"
_CONTRACTED = _says(
    r"\b(i|we|you|they|he|she|it|that|there|here|what|where|who|reel|shot|tub)'(?:m|ve|d|ll|re|s)\b"
)
# His own words: notes, what stands in quotes, a maker's name.
_OWN = re.compile(
    r"""\([^()]*\)|"[^"]*"|“[^”]*”|\b(?:maker|made\s+by|brand(?!\s+new))\b[^,;()]*""", re.IGNORECASE
)
_KEPT = "\ue000"
_ENDS = _says(r"(?<=\w)\s*[.!?]+$")

# What thumbs leave of the words below.
_SHORT = {
    short: full
    for full, shorts in {
        "just": "jst",
        "today": "tdy 2day",
        "tomorrow": "tmrw tomoz tmw",
        "nearly": "nrly",
        "want": "wnt",
        "need": "ned nd",
        "next": "nxt",
        "which": "whch wich",
        "what": "wot",
        "how": "hw",
        "where are": "wheres whers",
        "please": "plz pls",
        "any": "ne",
        "them": "em",
        "with": "w wi",
        "and": "n",
        "before": "b4 afore",
        "bought": "bort bot",
        "snapped": "snappd",
        "have": "hav",
        "top kit": "tk topkit",
        "top kits": "topkits tks",
        "monday": "mon",
        "tuesday": "tue tues",
        "wednesday": "wed weds",
        "thursday": "thu thur thurs",
        "friday": "fri",
        "saturday": "sat",
        "sunday": "sun",
    }.items()
    for short in shorts.split()
}
_SHORTENED = _says(
    rf"(?<![\w.'/&-])(?:{'|'.join(sorted(_SHORT, key=len, reverse=True))})(?![\w'./-])|\btk(?=\d)"
)
_FOR_DAY = _says(r"\b4\s+(?=(?:mon|tues|wednes|thurs|fri|satur|sun)day\b)")
_BY_ME = _says(  # says nothing of the thing
    r"(?<=[a-z])\s+(?:(?:(?:all|tied|made|whipped)\s+)+by\s+(?:me|myself|meself)|(?<=tied\s)by\s+me)\b"
)
_SUCH_A_ONE = _says(  # "fresh one": what it is like, not how many there are
    r"\b(fresh|spare|new|old|big|good|nice|used|small|little|proper|decent)\s+one(?=\s*(?:,|$))"
)
_RUN_ON = _says(r"\b(need|got|used|lost)(?=\d)")
# When it was, or what for: a day, a match.
_DAY = _any_of(
    r"(?:mon|tues|wednes|thurs|fri|satur|sun)day(?:\s+(?:night|evening|morning|afternoon))?",
    r"tomorrow|today|tonight|yesterday|the\s+weekend",
    r"(?:this|last|next)\s+(?:morning|afternoon|evening|night|week|weekend|month|season)",
    r"(?:the|next|my|our)\s+(?:(?:next|last|club|team|pairs|open|river|canal|league|winter|big)\s+)*"
    r"(?:match|open|league|final)",
)
_WHEN = _says(
    r",?\s*\b(?:(?:ready|done|tied|made|bought|match)\s+)?(?:(?:for|on|by|before|after|since|until|at|from)\s+)?"
    rf"{_DAY}(?:'s)?\b(?!\s+(?:hook|line|float|rod|reel|box))"
)

# What is said before and after a name, and says nothing of the thing.
_BEFORE = _any_of(
    r"please|ok|right|well|so|also|and|then|now|just|finally|here|there|plus|only|the|it|me|my|our",
    r"(?:have\s+)?(?:got|get|bought|ordered|received|found|add|added|had|picked\s+up)",
    rf"(?!you\s+(?:want|need)\b)(?:{_WE}\s+have|{_WE})|have|to\s+have|some\s+more|some|a\s+few\s+more|(?:a\s+)?(?:load|bunch)\s+of",
    r"did\s+me|did|done|(?:made|tied|whipped)\s+up",
)
_PUT_IN = (
    r"(?:put|chuck|chucked|pop|popped|tied|made|(?:stick|bung)(?=\s+in\b|.*[a-z]\s+in(?:,|$)))"
    rf"(?:\s+(?:me|in))*\s+{_SO_MANY}"
)
_OPENER = _says(rf"(?!(?:made|make)\s+by\b)(?:{_BEFORE}\b|{_PUT_IN}|tied\b\s*:)[\s,:]*")
_PUT = _says(rf"^\W*(?:{_BEFORE}\s+)*+{_PUT_IN}")
_IN = _says(r"(?<=[a-z]{3})\s+in(?=\s*,|$)")  # of "put two packets in"
_AFTER = _any_of(
    r"mind|please|thanks|ta|cheers|no\s+worries|now|too|as\s+well|in\s+stock|on\s+hand|in\s+all|by\s+hand",
    r"on\s+the\s+(?:label|packet|spool)",
    rf"(?:got|had)\s+(?:it|them)\s+cheap|do\s+{_WE}\s+(?:own|have)|have\s+{_WE}(?:\s+got)?",
    r"(?:did|tied|fitted)\s+(?:it|them)|done|tied\s+up|(?<!ready\s)(?<!ready-)(?<!pre\s)tied|(?:(?:in|on)\s+(?:a|the)\s+snags?)",
    r"(?:just\s+)?the\s+one|one\s+only|only|on\s+(?:it|them)|still\s+on\s+(?:its|the)\s+spool",
    r"(?:it|that|they|which)\s+(?:is|are)\s+(?:now\s+)?(?:finished|gone|done)",
)
_CLOSER = _says(rf"(?:[,;]|\s-)?\s*\b{_AFTER}\s*[,;.!?]*$")

# What says something else than that it comes in: first of all, or wherever it stands.
_FIRST = {
    Says.GONE: _any_of(
        r"(?:lost|binned|threw|scrapped|broke|snapped|smashed|lent|sold)\b(?:\s+(?:off|away|out)\b)*",
        r"(?:used|use|bin|chucked|cut|stripped|took|take|taken|remove|removed)\b"
        r"(?:\s+(?:up|out|off|away)\b)*\s*"
        rf"(?={_NUMBER}|(?:about|all|some|my|the|of)\b)",
        r"-\s?(?=\d)|(?:knocked|dropped)\b(?:\s+(?:off|in)\b)?",
        rf"(?:gave|given)\s+(?:away\s+)?(?:(?:my|a|the|our)\s+)?\w+\s+{_SO_MANY}",
    ),
    Says.SOUGHT: _any_of(
        r"(?:are|is)\s+there\b(?:\s+(?:any|some|a)\b)?",
        rf"do\s+{_WE}\s+(?:still\s+)?(?:have|own)\b(?:\s+any\b)?",
        rf"have\s+{_WE}\b(?:\s+got\b)?(?:\s+any\b)?",
        rf"(?:whereabouts|where)\b(?:\s+(?:are|is|did\s+{_WE}\s+put|do\s+{_WE}\s+keep)\b)?",
        r"which\b(?:\s+of\s+my\b)?|how\s+(?:many|much)\b(?:\s+of\b)?|look(?:ing)?\s+for\b|any\b",
        r"(?:show|find|tell|list|look(?:\s+up)?)\b(?:\s+me\b)?(?:\s+(?:all|everything|every)\b)?(?:\s+(?:for|of)\b)?",
        rf"what\b(?:\s+have\s+{_WE}(?:\s+got)?\b)?|when\s+did\s+{_WE}\s+(?:last\s+)?(?:put|load|fit)\b",
    ),
    Says.LEVEL: r"bags\s+of|no(?=\s[^\d]*\bleft$)",
    Says.LOADED: r"(?:put|load|loaded(?!\s+(?:wag|pel|float|cry|bod|str|ins|slid)))\b"
    r"(?=.*\b(?:on|onto|through|in|into|to)\b.*\b(?:reel|centrepin|top\s?(?:kit|section|two)s?)\b)",
}
# What it needs done to it: "want greasing"; "need tying" is of more of them.
_TREATED = r"(?!(?:ty|buy|order|topp|restock|replac|gett)ing)[a-z]+ing\s*(?=,|$)"
_WHEREVER = {
    Says.WANTED: r"(?<!\byou )(?:(?:i|we|they)\s+)?(?:(?:am|are)\s+)?(?:(?:shall|will)\s+)?(?:going\s+to\s+)?"
    + _any_of(
        rf"(?:need|want)(?:s|ed)?(?!\s+{_TREATED})(?!\s+an?(?:other)?\s+(?:touch|bit|lick|coat|drop|spot|dab)\b)|must\s+have",
        r"(?:should|would|will)\s+like|sort\s+me\s+out|(?:could|can)\s+(?:do\s+with|use)|ought\s+to\s+(?:get|have)",
        r"(?:must|better|gotta|got\s+to|have\s+to)\s+(?:get|buy|order)|on\s+the\s+(?:shopping\s+)?list",
    )
    + r"(?:\s+to\s+(?:buy|get|order|tie(?:\s+up)?|have))?",
    Says.COUNTED: _any_of(
        rf"counted(?:\s+up)?|(?:{_WE}\s+)?make\s+(?:it|that)|stock\s*(?:check|take|count)|down\s+to(?!\s+(?:no|number|nr|size)\b)(?:\s+(?:my|the)\s+last)?",
        r"only\s+(?:got|have)|remain(?:s|ing)?$|(?:there\s+)?(?:are|is)\s+(?:now|only|still)",
    ),
    Says.LEVEL: _any_of(
        r"(?<=[s\d]\s)low$|(?<!half )(?<!quarter )(?<!quarters )(?<!third )(?<!thirds )gone$",
        r"(?:(?:is|are|we|running|run|getting|all|nearly|almost|quite|very|clean|bit)\s+)*"
        r"(?:(?:low|out|short)\s+(?:of|on)|empty)",
        r"(?:is|are)\s+(?:nearly\s+|almost\s+)?(?:low|out|full|finished)|running\s+(?:low|out)",
        r"(?:plenty|loads|(?<!\d )(?<!two )(?<!three )lots)(?:\s+of)?|no\s+more|none\s+left",
        r"(?:nearly|almost)\s+(?:out|gone)",
    ),
    Says.LOADED: r"(?:(?:re-?)?(?:spooled|filled)|fitted|re-?elasticated)(?:\s+(?:up|with))*",
}
_AT_START = [(says, _says(said)) for says, said in _FIRST.items()]
_ANYWHERE = [(says, _says(rf"\b{said}(?!\w|-)")) for says, said in _WHEREVER.items()]
# What it is loaded on is not what it is.
_NO = r"(?:\d{1,2}|one|two|three|four|five|six)"
_LOADED_ON = _says(
    r"\b(?:(?:on|onto|through|in|into|to|to\s+refill|for|from)\s+)?"
    + _any_of(
        rf"(?:(?:the|my)\s+)?{_NO}\s+top\s*(?:kit|section)s?(?=\s+{_NO}\s+[a-z])",
        rf"(?:(?:the|my|which|what)\s+)?(?:{_NO}\s+)?top\s*(?:kit|section)s?"
        rf"(?:\s+(?:no\.?\s*|number\s+)?{_NO}(?:\s*(?:,|and|&)\s*{_NO})*)?",
        r"(?:(?:the|my)\s+|^)(?:\w+\s+){0,2}(?:reel|centrepin)s?",
    )
    + r"\b(?:\s+(?:with|has|have|now|all|got|is|are)\b)*"
)


# "For the method" is a note; a packet, a reel and a hair say more than where.
_KEPT_WORDS = sorted(
    {*USES, *PACKETS, "hair", "line", "reel", "centrepin", "top", "hook", "bottom", "link"}
)
_TOP_KIT = _says(r"\btop\s*(?:kit|section)s?\b")
# Where it happened, or what it is for, at the end of what is said: "in the rocks", "for the deep peg".
_PLACE = _says(
    r"\s*\b(?<!\d\s)(?:(?:in|on|at|from)\s+(?:the|a|my)|for\s+(?:the|my))"
    rf"(?:\s+(?!(?:{'|'.join(_KEPT_WORDS)})s?\b)[a-z]+){{1,3}}(?=\s*(?:,|$))"
)
_OF_THEM = _says(r"(?:and\s+)?(?:they|it|these|those|this|that)\b")
# Where it lies: "blue box", "in the top drawer"; nobody buys a box of a hook's name.
_KEPT_IN = _says(
    r"\s*(?:,\s*|\b(?:in|from)\s+)(?:(?:in|from)\s+)?(?:(?:the|my|me|an?)\s+)?"
    rf"(?:(?:{'|'.join((*COLOURS, 'top', 'bottom', 'middle', 'side', 'front', 'back', 'left', 'right'))}"
    r"|big|small|old|wooden|plastic|seat|tackle|hook|float|feeder|bits|other|second|first)\s+)+"
    r"(?:box|drawer|tray|tin|case|bag|wallet|compartment)(?=\s*(?:,|$))"
    r"|\s*\b(?:in|from)\s+(?:the|my)\s+(?:[a-z]+\s+)?(?:box|drawer|tray|tin|wallet)(?=\s+\d)"
    r"|\s*,?\s*\bon\s+(?:the\s+|my\s+)?(?:[a-z]+\s+)?winders\b"
    r"|\s*,?\s*\b(?:in|at)\s+(?:the|my)\s+(?:bottom|top|side|lid|back|front)\s+of\s+(?:the|my|a)\s+[a-z]+(?:\s+box)?\b"
    r"|\s*\bloose\s+in\s+(?:the|my|a)\s+(?:[a-z]+\s+)?(?:tub|tin|box|pot|bag|tray|drawer)\b"
)
_PRINTED = _says(r"\b(?:label|packet|spool|tub)$")  # says nothing of where it lies


@dataclass(frozen=True, slots=True)
class Heard:
    """Words without what is said round them.

    ``says`` is what that says where it is not that the thing comes in, in the words ``said``; ``places``
    are where it lies or what it is for, where it does come in.
    """

    words: str
    says: Says | None = None
    said: str = ""
    places: tuple[str, ...] = ()


def without_talk(text: str) -> Heard:
    """The words without what is said round them.

    >>> without_talk("just got two 4x12s, please").words, without_talk("stick 4 No 4").words
    ('two 4x12s', 'stick 4 No 4')
    >>> without_talk("Lost a 30 g method today.").says, without_talk("ten 4x12s for the weir").places
    (<Says.GONE: 'that it is gone'>, ('for the weir',))
    """
    notes = _OWN.findall(text)
    plain = _ENDS.sub("", _CONTRACTED.sub(r"\1", _OWN.sub(_KEPT, text)))
    plain = _SHORTENED.sub(lambda found: f"{_SHORT[found.group().lower()]} ", plain)
    plain = _BY_ME.sub(" ", _SUCH_A_ONE.sub(r"\1", plain))
    plain = _WHEN.sub(" ", _FOR_DAY.sub("for ", _RUN_ON.sub(r"\1 ", plain)))
    kept = [_plain(at.group()) for at in _KEPT_IN.finditer(plain)]
    plain = _KEPT_IN.sub(" ", plain)
    places = [
        *kept,
        *(_plain(at.group()) for at in _PLACE.finditer(plain) if not _PRINTED.search(at.group())),
    ]
    plain, found = _said_of_it(_plain(_PLACE.sub(" ", plain)))
    if _LOADED_ON.search(plain) and (found or _TOP_KIT.search(plain)):
        plain = _LOADED_ON.sub(" ", plain)
        found.append((Says.LOADED, "top kit"))
    plain, more = _said_of_it(_plain(plain))
    if not re.search(r"\w", plain) or plain.lower() in PACKETS:
        return Heard(text)
    for note in notes:
        plain = plain.replace(_KEPT, note, 1)
    says, said = (*found, *more, (None, ""))[0]
    return Heard(plain, says, said, () if says else tuple(places))


def says_first(text: str, *, sought: bool = False) -> bool:
    """Whether words begin with what says that a thing goes, is wanted, counted or loaded; ``sought``: or
    looked for."""
    plain = _ENDS.sub("", _CONTRACTED.sub(r"\1", text))
    plain = _SHORTENED.sub(lambda found: f"{_SHORT[found.group().lower()]} ", plain)
    plain = _plain(_WHEN.sub(" ", _FOR_DAY.sub("for ", _RUN_ON.sub(r"\1 ", plain))))
    first = [one for says, one in _AT_START if sought or says is not Says.SOUGHT]
    if _OF_THEM.match(plain):  # "they take the same mould"
        first = []
    first += [one for _, one in _ANYWHERE]
    while not any(one.match(plain) for one in first):
        at = _OPENER.match(plain)
        if at is None or not at.group():
            return False
        plain = plain[at.end() :]
    return True


def _plain(text: str) -> str:
    return " ".join(text.split()).strip(" ,;:")


def _said_of_it(text: str) -> tuple[str, list[tuple[Says | None, str]]]:
    """Without remarks before and after, and without what says that it does not come in: that apart."""
    put, found = _PUT.match(text), list[tuple[Says | None, str]]()
    while True:
        first = ((says, one.match(text)) for says, one in _AT_START)
        says, at = next(((s, m) for s, m in first if m), (None, _OPENER.match(text)))
        if at is None or at.end() >= len(text):
            break
        text = text[at.end() :].strip(" ,;:")
        found += [(says, at.group().strip())] if says else []
    for says, anywhere in _ANYWHERE:
        while (at := anywhere.search(text)) and at.group().strip():
            text = _plain(f"{text[: at.start()]} {text[at.end() :]}")
            found.append((says, at.group().strip()))
    text = _IN.sub("", text) if put else text
    while (at := _CLOSER.search(text)) and at.start():
        text = text[: at.start()]
    return text.strip(" ,;:"), found
