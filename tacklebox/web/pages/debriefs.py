"""The debrief of a match as one form: what became of each rig, what tackle is gone, what was caught."""

from typing import TYPE_CHECKING

from fastapi import APIRouter, Request
from fastapi.responses import Response
from starlette.concurrency import run_in_threadpool

from tacklebox.web.showing import EMPTY, Filled, form_of, go, page, shown_for, try_form

if TYPE_CHECKING:
    from tacklebox.desk.debriefs import DebriefAnswers, DebriefForm

router = APIRouter(prefix="/matches")
BECAME = ("back", "lost", "worn_out")


@router.get("/{match}/debrief")
def asked(request: Request, match: str, done: str = "") -> Response:
    """What is asked of the match, and what its debrief says already."""
    return _page(request, match, done, EMPTY)


@router.post("/{match}/debrief")
async def written(request: Request, match: str) -> Response:
    """All of it is written, or nothing, with what is wrong beside its field."""
    form = await form_of(request)
    return await run_in_threadpool(_write, request, match, form)


def _write(request: Request, match: str, form: dict[str, str]) -> Response:
    from tacklebox.desk import debriefs

    shown = shown_for(request)
    asked = debriefs.form(shown.desk, match)
    correct = asked.stands is not None
    _, filled = try_form(
        shown,
        form,
        lambda: debriefs.write(shown.desk, match, _answers(asked, form), correct=correct),
    )
    if filled:
        return _page(request, match, "", filled, 400)
    return go(f"/matches/{match}/debrief?done=yes")


def _answers(asked: "DebriefForm", form: dict[str, str]) -> "DebriefAnswers":
    """The form as it was filled in; other tackle is a line each: its words, "=", how much."""
    from tacklebox.desk.debriefs import DebriefAnswers
    from tacklebox.errors import AskedWronglyError

    became: dict[str, list[str]] = {name: [] for name in BECAME}
    for field, said in form.items():
        if field.startswith("rig-") and said in became:
            became[said].append(field.removeprefix("rig-"))
    tackle = {
        str(one.item): form[f"tackle-{one.item}"].strip()
        for one in asked.tackle
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
    return DebriefAnswers(
        became["back"],
        became["lost"],
        became["worn_out"],
        did_well=[field.removeprefix("well-") for field in form if field.startswith("well-")],
        tackle_lost=tackle,
        weight=form.get("weight", ""),
        peg=form.get("peg", ""),
        notes=form.get("notes", ""),
    )


def _page(request: Request, match: str, done: str, filled: Filled, status: int = 200) -> Response:
    from tacklebox.desk import debriefs

    shown = shown_for(request)
    asked = debriefs.form(shown.desk, match)
    return page(
        shown,
        "debrief.html",
        {
            "title": f"Debrief of {asked.name}",
            "asked": asked,
            "stands": _standing(asked),
            "done": done,
            "filled": filled,
        },
        status,
    )


def _standing(asked: "DebriefForm") -> dict[str, str]:
    """What the debrief that is there says, by the fields of the form."""
    stands = asked.stands
    if stands is None:
        return {}
    said = {f"rig-{code}": name for name in BECAME for code in getattr(stands, name)}
    said |= {f"well-{code}": "1" for code in stands.did_well}
    by_name = {one.name: one.item for one in asked.tackle}
    known = {f"tackle-{by_name[n]}": much for n, much in stands.tackle_lost.items() if n in by_name}
    others = [f"{n} = {much}" for n, much in stands.tackle_lost.items() if n not in by_name]
    return (
        said
        | known
        | {
            "tackle_lost": "\n".join(others),
            "weight": stands.weight or "",
            "peg": stands.peg or "",
            "notes": stands.notes or "",
        }
    )
