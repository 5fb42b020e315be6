"""The bench: what is next, what is short, what was last done."""

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse

from tacklebox.web.showing import page, shown_for

router = APIRouter()


@router.get("/")
def bench(request: Request) -> HTMLResponse:
    """The first page."""
    from tacklebox.desk import ageing, care, stock

    shown = shown_for(request)
    items = stock.listed(shown.desk).items
    return page(
        shown,
        "bench.html",
        {
            "title": "Bench",
            "short": [row for row in items if row.short],
            "items": len(items),
            "old": ageing.old_lines(shown.desk),
            "history": care.history(shown.desk),
        },
    )
