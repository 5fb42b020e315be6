"""The debrief of a match as one form: what became of each rig, what tackle is gone, what was caught."""

import hashlib
from collections.abc import Mapping
from typing import TYPE_CHECKING

from fastapi import APIRouter, Request
from fastapi.responses import Response
from starlette.concurrency import run_in_threadpool
from starlette.datastructures import UploadFile

from tacklebox.web.names import match_names, venue_names
from tacklebox.web.showing import EMPTY, Filled, form_of, go, page, shown_for, try_form

if TYPE_CHECKING:
    from tacklebox.desk.bank import RecordRead
    from tacklebox.desk.debriefs import DebriefAnswers, DebriefForm

router = APIRouter(prefix="/matches")
BECAME = ("back", "lost", "worn_out")
CHANGED, NEW = ("hooklength", "depth", "shot_now", "carries", "note"), "new-"  # new-A01T-depth
ALONG = "along-"  # begins the name of a tick: of a rig that came along, and is to be asked of
MOST_ASKED = 20  # rigs of one kind that are asked of unticked: few take more
BAG = "bag-"  # begins the name of a field that says whether a line of the bag came home
LINE, CLOCK_AT = (
    "line-",
    "clock-",
)  # begin what is said of a line of the record, and of the clock there
OF_THE_DAY = ("weight", "peg", "section", "place", "points", "water", "notes")


@router.get("/{match}/debrief")
def asked(request: Request, match: str, done: str = "") -> Response:
    """What is asked of the match, and what its debrief says already."""
    return _page(request, match, done, EMPTY)


@router.post("/{match}/record")
async def record(request: Request, match: str) -> Response:
    """The form, filled from the record of the water; what is not sure of it is asked beside its line."""
    form = await form_of(request)
    file = (await request.form()).get("record_file")
    sent = await file.read() if isinstance(file, UploadFile) else b""
    return await run_in_threadpool(_read_record, request, match, form, sent)


def _read_record(request: Request, match: str, form: dict[str, str], sent: bytes) -> Response:
    """What was filled in stays where it was said; what the record says stands in the rest."""
    from tacklebox.desk import bank, debriefs

    shown = shown_for(request)
    if sent:
        text, filled = try_form(shown, form, lambda: bank.text_of(sent))
        if filled:
            return _page(request, match, "", filled, 400)
        form["water_record"] = text
    if form.get("of") != _mark(form.get("water_record", "")):  # what was asked was of another text
        form = {name: said for name, said in form.items() if not name.startswith((LINE, CLOCK_AT))}
    found, filled = try_form(
        shown,
        form,
        lambda: bank.read_record(
            shown.desk,
            match,
            form.get("water_record", ""),
            put_right=_by_line(form, LINE),
            clock=form.get("clock", ""),
            clock_at=_by_line(form, CLOCK_AT),
        ),
    )
    if filled or found is None:
        return _page(request, match, "", filled or EMPTY, 400)
    asked = debriefs.form(shown.desk, match)
    if found.is_unsure:
        return _page(request, match, "", Filled(form, {}), read=found)
    said = _of_answers(asked, found.answers)
    return _page(request, match, "", Filled({**_of_bag(asked), **form, **said}, {}), read=found)


def _mark(text: str) -> str:
    return hashlib.sha256("\n".join(text.split()).encode()).hexdigest()[:20]


def _by_line(form: dict[str, str], begins: str) -> dict[int, str]:
    """What is said of lines, by their numbers."""
    numbered = (
        (name.removeprefix(begins), said) for name, said in form.items() if name.startswith(begins)
    )
    return {int(n): said for n, said in numbered if n.isascii() and n.isdecimal() and len(n) < 7}


@router.post("/{match}/debrief")
async def written(request: Request, match: str) -> Response:
    """All of it is written, or nothing, with what is wrong beside its field."""
    form = await form_of(request)
    return await run_in_threadpool(_write, request, match, form)


def _write(request: Request, match: str, form: dict[str, str]) -> Response:
    from tacklebox.desk import debriefs

    shown = shown_for(request)
    asked = debriefs.form(shown.desk, match)
    if unasked := _unasked(asked, form):
        return _page(request, match, "", Filled(form, unasked), 400)
    correct = asked.stands is not None
    _, filled = try_form(
        shown,
        form,
        lambda: debriefs.write(
            shown.desk,
            match,
            _answers(asked, form),
            correct=correct,
            version=form.get("version", ""),
        ),
    )
    if filled:
        return _page(request, match, "", filled, 400)
    return go(f"/matches/{match}/debrief?done=yes")


def _unasked(asked: "DebriefForm", form: dict[str, str]) -> dict[str, str]:
    """The faults of rigs that were ticked and not yet asked of: nothing is written until they are."""
    rigs = {rig.code for group in asked.rigs for rig in group.rigs} | {r.code for r in asked.others}
    ticked = [field.removeprefix(ALONG) for field in form if field.startswith(ALONG)]
    faults = {
        f"{ALONG}{code}": f"What became of {code}?"
        if code in rigs
        else f"{code} is not ready any more, so nothing is asked of it."
        for code in ticked
        if f"rig-{code}" not in form
    }
    first = "Nothing is written yet: say what became of the rigs that you ticked."
    return faults and {"along": first} | faults


def _answers(asked: "DebriefForm", form: dict[str, str]) -> "DebriefAnswers":
    """The form as it was filled in; other tackle is a line each: its words, "=", how much."""
    from tacklebox.desk.debriefs import DebriefAnswers
    from tacklebox.errors import AskedWronglyError

    became: dict[str, list[str]] = {name: [] for name in (*BECAME, "not_taken")}
    for field, said in form.items():
        if field.startswith("rig-") and said in became:
            became[said].append(field.removeprefix("rig-"))
    tackle = {
        str(one.item): form[f"tackle-{one.item}"].strip()
        for one in (*asked.hooklengths, *asked.tackle)
        if form.get(f"tackle-{one.item}", "").strip()
    }
    for line in form.get("tackle_lost", "").splitlines():
        name, equals, much = line.rpartition("=")
        if line.strip() and not (equals and name.strip() and much.strip()):
            raise AskedWronglyError(
                f'"{line.strip()}" does not say how much.',
                field="tackle_lost",
                right="Write it like: hook 20 = 2.",
            )
        if line.strip():
            tackle[name.strip()] = much.strip()
    worn_out = {
        str(one.item): form[f"worn-{one.item}"].strip()
        for one in asked.hooklengths
        if form.get(f"worn-{one.item}", "").strip()
    }
    return DebriefAnswers(
        became["back"],
        became["lost"],
        became["worn_out"],
        became["not_taken"],
        did_well=[field.removeprefix("well-") for field in form if field.startswith("well-")],
        tackle_lost=tackle,
        worn_out_tackle=worn_out,
        **{name: form.get(name, "") for name in OF_THE_DAY},
        record=form.get("record", "") or (asked.stands.record if asked.stands else None),
        changed=_changed(form),
        came_home=_lines(form, "yes"),
        not_home=_lines(form, "no"),
    )


def _changed(form: dict[str, str]) -> dict[str, dict[str, str]]:
    """What is said of rigs that were changed, by their codes."""
    found: dict[str, dict[str, str]] = {}
    for name in CHANGED:
        for field, said in form.items():
            code, _, what = field.removeprefix(NEW).partition("-")
            if field.startswith(NEW) and what == name and said.strip():
                found.setdefault(code, {})[name] = said
    return found


def _lines(form: dict[str, str], said: str) -> list[str]:
    """The lines of the bag of which that is said."""
    return [
        name.removeprefix(BAG)
        for name, word in form.items()
        if name.startswith(BAG) and word == said
    ]


def _page(
    request: Request,
    match: str,
    done: str,
    filled: Filled,
    status: int = 200,
    *,
    read: "RecordRead | None" = None,
) -> Response:
    from tacklebox.desk import bank, debriefs, season

    shown = shown_for(request)
    asked = debriefs.form(
        shown.desk, match
    )  # never kept: what is in the bag changes beside the box
    standing = _standing(asked)
    said = filled.values or standing
    asked_of = _asked_of(asked, said)
    peg = filled["peg"] or (asked.stands.peg if asked.stands else "") or ""
    return page(
        shown,
        "debrief.html",
        {
            "title": f"Debrief of {asked.name}",
            "asked": asked,
            "venue": venue_names(shown).get(asked.venue, asked.venue),
            "matches": match_names(shown),
            "stands": standing,
            "done": done,
            "filled": filled,
            "said_of": _said_of(said, NEW),
            "asked_of": asked_of,
            "along_fields": [
                f"{ALONG}{code}" for code in asked_of
            ],  # their faults stand beside them
            "read": read,
            "of": _mark(filled["water_record"]),
            "answered": _answered(filled, read) if read and read.is_unsure else {},
            "clocks": bank.CLOCKS,
            "peg": peg,
            "at_peg": season.at_peg(shown.desk, asked.venue, peg, before=asked.on) if peg else (),
            "version": filled["version"] or asked.version,
            "not_said": [
                one.words for one in asked.bag if asked.stands and one.became == "not said"
            ],
        },
        status,
    )


def _answered(filled: Filled, read: "RecordRead") -> dict[str, str]:
    """What was said of the record already, and is not asked again."""
    asked = {f"{LINE}{fault.line}" for fault in read.faults}
    asked |= {f"{CLOCK_AT}{one.line}" for one in read.clock_breaks}
    return {
        name: said
        for name, said in filled.values.items()
        if name.startswith((LINE, CLOCK_AT)) and name not in asked
    }


def _said_of(said: Mapping[str, str], *begins: str) -> set[str]:
    """The codes of rigs of which something is said, in fields whose names begin so."""
    return {
        name.removeprefix(begin).partition("-")[0]
        for name, words in said.items()
        for begin in begins
        if words and name.startswith(begin)
    }


def _asked_of(asked: "DebriefForm", said: Mapping[str, str]) -> set[str]:
    """The rigs that have their fields in the form; the others can be ticked, which brings them."""
    few = [rig for group in asked.rigs if len(group.rigs) <= MOST_ASKED for rig in group.rigs]
    in_bag = [rig for group in asked.rigs for rig in group.rigs if rig.in_bag]
    return _said_of(said, ALONG, NEW, "rig-", "well-") | {rig.code for rig in (*few, *in_bag)}


def _standing(asked: "DebriefForm") -> dict[str, str]:
    """What the debrief that is there says, by the fields of the form."""
    return _of_bag(asked) | (_of_answers(asked, asked.stands) if asked.stands else {})


def _of_bag(asked: "DebriefForm") -> dict[str, str]:
    """What is said already of what was in the bag, by the fields of the form."""
    return {f"{BAG}{one.key}": _HOME.get(one.became.value, "") for one in asked.bag}


_HOME = {"home": "yes", "not home": "no"}


def _of_answers(asked: "DebriefForm", stands: "DebriefAnswers") -> dict[str, str]:
    """Answers by the fields of the form."""
    said = {f"rig-{code}": name for name in BECAME for code in getattr(stands, name)}
    said |= {f"well-{code}": "1" for code in stands.did_well}
    said |= {
        f"{NEW}{code}-{name}": words
        for code, changed in stands.changed.items()
        for name, words in changed.items()
    }
    if stands is asked.stands:  # what a debrief that stands does not name stayed at home
        every_rig = [rig for group in asked.rigs for rig in group.rigs]
        said |= {
            f"rig-{r.code}": "not_taken"
            for r in every_rig
            if r.in_bag and f"rig-{r.code}" not in said
        }
    every = (*asked.hooklengths, *asked.tackle)
    of = {one.name: one.item for one in every} | {str(one.item): one.item for one in every}
    known = {f"tackle-{of[n]}": much for n, much in stands.tackle_lost.items() if n in of}
    known |= {f"worn-{of[n]}": much for n, much in stands.worn_out_tackle.items() if n in of}
    others = [f"{n} = {much}" for n, much in stands.tackle_lost.items() if n not in of]
    return (
        said
        | known
        | {
            "tackle_lost": "\n".join(others),
            "record": stands.record or "",
            **{name: getattr(stands, name) or "" for name in OF_THE_DAY},
        }
    )
