"""Fish by the names that anglers give them, and the net that each goes into.

That carp and their like are kept apart from silvers is common practice; a venue's file may say otherwise.
"""

from tacklebox.errors import AskedWronglyError

SILVERS, CARP = "silvers", "carp"
NETS = (SILVERS, CARP)
NET_OF = {
    "roach": SILVERS,
    "skimmer": SILVERS,
    "bream": SILVERS,
    "perch": SILVERS,
    "rudd": SILVERS,
    "hybrid": SILVERS,
    "gudgeon": SILVERS,
    "ruffe": SILVERS,
    "bleak": SILVERS,
    "dace": SILVERS,
    "chub": SILVERS,
    "ide": SILVERS,
    "tench": SILVERS,
    "crucian": SILVERS,
    "eel": SILVERS,
    "carp": CARP,
    "F1": CARP,
    "barbel": CARP,
}
USUAL = {
    "still water": ("roach", "skimmer", "perch", "tench", "F1", "carp"),
    "canal": ("roach", "skimmer", "perch", "gudgeon", "bream", "ruffe"),
    "river": ("roach", "dace", "chub", "bream", "perch", "gudgeon"),
}


def species_named(said: str) -> str:
    """A species by its name, whatever the case and number. Raises AskedWronglyError for one that
    is none here.

    >>> species_named("Skimmers"), species_named("f1")
    ('skimmer', 'F1')
    """
    word = said.strip().lower()
    for name in NET_OF:
        if word in (name.lower(), f"{name.lower()}s"):
            return name
    raise AskedWronglyError(
        f'"{said.strip()}" is no fish that is known here.', right=f"There are {', '.join(NET_OF)}."
    )
