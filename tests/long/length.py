"""How long the long runs are: a short form always, the whole form with TACKLEBOX_LONG=1."""

import os

WHOLE = os.environ.get("TACKLEBOX_LONG") == "1"


def so_many(whole: int, short: int) -> int:
    """The number of rounds."""
    return whole if WHOLE else short
