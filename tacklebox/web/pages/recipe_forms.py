"""A recipe as a form and as text: rows to add, move and take away, with the drawing beside them."""

import hashlib
import re
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import Response
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException

from tacklebox.desk.recipe_forms import FormLookedAt, RecipeForm
from tacklebox.desk.recipe_rows import (
    FormRow,
    Rows,
    fields_of,
    moved,
    names_in,
    put_back,
    row_at,
    sizes_in,
)
from tacklebox.desk.recipe_texts import LineFault
from tacklebox.errors import BenchError
from tacklebox.web.names import recipe_names
from tacklebox.web.recipe_words import SECTIONS, UNPICKED, hint_of_row, label_of_row
from tacklebox.web.showing import Shown, form_of, go, page, shown_for, svg, try_form, whole

router = APIRouter(prefix="/recipes")
MOST_FORMS = 40  # kept for their pictures; the one that was looked at first goes
_ROW = re.compile(r"(choose|part|along|branch|shot|gone) (\d{1,3})\.(?:part (\d{1,3})\.)?(.+)")


@router.get("/_new")
def new(request: Request) -> Response:
    """The form of a new recipe, begun from another or from nothing."""
    from tacklebox.desk import recipe_forms

    shown, asked = shown_for(request), request.query_params
    made = asked.get("makes", recipe_forms.RIG)
    said = recipe_forms.form(shown.desk, like=asked.get("like", ""), makes=made)
    return _page(shown, said)


@router.get("/_form/verdict/{what}.svg")
def verdict(request: Request, what: str, form: str, which: str = "1") -> Response:
    """What a verdict on a recipe that is being made rests on, drawn."""
    from tacklebox.desk import recipe_forms

    said = request.app.state.forms.get(form)
    if said is None:
        raise HTTPException(404)
    desk = shown_for(request).desk
    return svg(recipe_forms.draw_verdict(desk, said, what, whole(which)))


@router.get("/{recipe}/edit")
def edit(request: Request, recipe: str) -> Response:
    """The form of a recipe; of a shipped one it begins a new one. What is no TOML is mended as text."""
    from tacklebox.desk import recipe_forms

    shown = shown_for(request)
    try:
        said = recipe_forms.form(shown.desk, recipe)
    except BenchError:
        return _text_page(request, recipe)
    return _page(shown, said)


@router.post("/_new")
async def write_new(request: Request) -> Response:
    """A new recipe is written, or looked at, or its rows change places."""
    return await run_in_threadpool(_written, request, "", await form_of(request))


@router.post("/{recipe}/edit")
async def write(request: Request, recipe: str) -> Response:
    """A recipe of one's own is written over, or looked at, or its rows change places."""
    return await run_in_threadpool(_written, request, recipe, await form_of(request))


def _written(request: Request, recipe: str, form: dict[str, str]) -> Response:
    from tacklebox.desk import recipe_forms

    shown, said = shown_for(request), _said(recipe, form)
    if form.get("back"):
        return _page(shown, _with_back(said, form["back"], form), form["back"])
    if form.get("move"):
        rows, at = moved(said.rows, form["move"])
        what, _, where = form["move"].partition(" ")
        gone = (where, row_at(said.rows, where)) if what == "out" else None
        return _page(shown, replace(said, rows=rows), "" if gone else at, gone=gone)
    if not form.get("save"):
        return _page(shown, said, only_answer=form.get("only") == "answer")
    stem, wrong = try_form(
        shown, form, lambda: shown.once(lambda: recipe_forms.write(shown.desk, said))
    )
    if wrong:
        return _page(shown, said, faults=wrong.faults, status=400)
    return go(f"/recipes/{stem}?kept=1")


def _said(recipe: str, form: Mapping[str, str]) -> RecipeForm:
    """The form as it was sent."""
    values = {key: words for key, words in form.items() if not _ROW.fullmatch(key)}
    goes_with = [w for key, w in form.items() if key.startswith("hooklength ") and w]
    return RecipeForm(
        recipe,
        form.get("like", ""),
        form.get("begun_as", "rig"),
        values | {"hooklengths": ", ".join(goes_with)},
        _rows(form),
        form.get("version", ""),
    )


def _with_back(said: RecipeForm, where: str, form: Mapping[str, str]) -> RecipeForm:
    """The form with the row that was taken away last in its place again."""
    for gone in _numbered(form)["gone"].values():
        said = replace(said, rows=put_back(said.rows, where, _with_parts(gone)))
    return said


def _rows(form: Mapping[str, str]) -> Rows:
    found = _numbered(form)
    return {kind: tuple(_with_parts(each) for _, each in sorted(found[kind].items()))
            for kind, *_ in SECTIONS}  # fmt: skip


def _numbered(form: Mapping[str, str]) -> dict[str, dict[int, dict[int, dict[str, str]]]]:
    """What the rows have, by kind, number and number of a branch's part, 0 for the row itself."""
    kinds = (*(kind for kind, *_ in SECTIONS), "gone")
    found: dict[str, dict[int, dict[int, dict[str, str]]]] = {kind: {} for kind in kinds}
    for name, words in form.items():
        row = _ROW.fullmatch(name)
        if row:
            kind, number, part, key = row.groups()
            found[kind].setdefault(int(number), {}).setdefault(int(part or 0), {})[key] = words
    return found


def _with_parts(each: Mapping[int, Mapping[str, str]]) -> FormRow:
    parts = tuple(_row(values) for n, values in sorted(each.items()) if n)
    return replace(_row(each.get(0, {})), parts=parts)


def _row(values: Mapping[str, str]) -> FormRow:
    return FormRow({k: v for k, v in values.items() if k != "was"}, values.get("was", ""))


def _page(
    shown: Shown,
    said: RecipeForm,
    at: str = "",
    *,
    faults: Mapping[str, str] | None = None,
    status: int = 200,
    only_answer: bool = False,
    gone: tuple[str, FormRow | None] | None = None,
) -> Response:
    from tacklebox.desk import recipe_forms, recipes
    from tacklebox.desk.verdict_pictures import pictures_of

    looked, wrong = try_form(shown, {}, lambda: shown.ask(recipe_forms.look, shown.desk, said))
    seen = looked or FormLookedAt(wrong.faults if wrong else {}, "", None, ())
    seen = replace(seen, faults={**seen.faults, **(faults or {})})
    names = names_in(said.rows)
    key = hashlib.sha256(repr(said).encode()).hexdigest()[:32]
    forms = shown.forms
    forms.pop(key, None)
    forms[key] = said
    for old in list(forms)[:-MOST_FORMS]:
        forms.pop(old, None)
    values: dict[str, Any] = {
        "form_key": key,
        "pictures_by": pictures_of(seen.checked.judgements) if seen.checked else [],
        "said": said,
        "looked": seen,
        "faults": seen.faults,
        "fields": lambda kind, row: fields_of(kind, row, names),
        "label": label_of_row,
        "hint": hint_of_row,
        "unpicked": UNPICKED,
        "sections": SECTIONS,
        "where": {field: _where(said.rows, field) for field in seen.faults},
        "at": at,
    }
    if only_answer:
        return page(shown, "recipe_form_answer.html", values)
    known = [
        (one.recipe, one.name)
        for one in shown.ask(recipes.listed, shown.desk).recipes
        if one.makes == "hooklength"
    ]
    values |= {
        "title": said["name"] or f"A new {said.makes}",
        "hooklengths": known,
        "goes_with": sizes_in(said["hooklengths"]),
        "short": _short,
        "refused": status == 400,
        "gone": gone if gone and gone[1] else None,
        "is_wrong": lambda place: any(f == place or f.startswith(f"{place}.") for f in seen.faults),
    }
    return page(shown, "recipe_form.html", values, status)


def _where(rows: Rows, field: str) -> str:
    """The row and the field that a fault lies in, in words."""
    found = _ROW.fullmatch(field)
    place, kind, key = field, "", ""
    if found:
        kind, number, part, key = found.groups()
        place = f"{kind} {number}.part {part}" if part else f"{kind} {number}"
    row = row_at(rows, place)
    if row is None:
        return label_of_row("", field) if field else ""
    called = row["name"] or row["is"] or row["place"] or place
    return f"{called}, {label_of_row(kind, key).lower()}" if key else called


def _short(kind: str, row: FormRow) -> str:
    """A row in a few words."""
    if kind == "choose":
        span = row["any_of"] or (f"{row['from']} to {row['to']}" if row["from"] else "")
        return ", ".join(word for word in (row["usual"], span) if word)
    if kind == "branch":
        return f"from {row['from']}" if row["from"] else ""
    if kind == "shot":
        of = row["of"] or " / ".join(
            w for key, w in row.values.items() if key.startswith("of.") and w
        )
        return ", ".join(word for word in (of, row["at"] or row["from"]) if word)
    keys = ("material", "diameter", "strain", "size", "end", "shape", "mass", "capacity", "grade")
    is_said = row["is"] == row["name"] or (row["is"] == "line" and row["material"])
    said = ["" if is_said else row["is"], *(row[key] for key in keys)]
    ends = [row["length"], row["at"] and f"at {row['at']}", row["held"]]
    return ", ".join(word for word in (*said, *ends) if word)


@router.get("/{recipe}/text")
def text(request: Request, recipe: str) -> Response:
    """The recipe's file as text."""
    return _text_page(request, recipe)


@router.post("/{recipe}/text")
async def write_text(request: Request, recipe: str) -> Response:
    """The text is written, over one's own or as a new one."""
    return await run_in_threadpool(_text_written, request, recipe, await form_of(request))


def _text_written(request: Request, recipe: str, form: dict[str, str]) -> Response:
    from tacklebox.desk import recipe_texts

    shown, said = shown_for(request), form.get("text", "")
    try:
        stem = shown.once(
            lambda: recipe_texts.write_text(
                shown.desk, said, form.get("over", ""), version=form.get("version", "")
            )
        )
    except recipe_texts.TextFaultsError as error:
        return _text_page(request, recipe, said, error.faults, version=form.get("version", ""))
    except BenchError as error:
        fault = recipe_texts.LineFault(0, shown.word(error))
        return _text_page(request, recipe, said, (fault,), version=form.get("version", ""))
    return go(f"/recipes/{stem}?kept=1")


def _text_page(
    request: Request,
    recipe: str,
    said: str | None = None,
    faults: tuple[LineFault, ...] = (),
    version: str = "",
) -> Response:
    from tacklebox.desk import recipe_texts

    shown = shown_for(request)
    try:
        asked = recipe_texts.text_of(shown.desk, recipe)
    except BenchError:
        if said is None:
            raise
        asked = recipe_texts.RecipeText(
            "", recipe, said, ""
        )  # its file is gone: a new one is written
    if said is None:
        said, faults = asked.text, recipe_texts.faults_of(shown.desk, asked.text)
    stem = asked.recipe or asked.like
    values = {
        "title": f"{recipe_names(shown).get(stem, stem)}, as text",
        "asked": asked,
        "text": said.replace("\r\n", "\n"),
        "lines": said.replace("\r\n", "\n").split("\n"),
        "faults": faults,
        "version": version or asked.version,
    }
    return page(shown, "recipe_text.html", values, 400 if request.method == "POST" else 200)
