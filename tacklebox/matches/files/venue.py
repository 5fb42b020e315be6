"""Venue files: the water and its rules, as an angler writes them in TOML."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Annotated, Any, Literal

from pydantic import Field, model_validator

from tacklebox.datafiles import DataFiles, StrictModel, check_name, named_after, parse_toml
from tacklebox.errors import AskedWronglyError, KeyFaultError, ManyFaultsError, nearest_word
from tacklebox.stock.asks import FEEDER_SHAPES
from tacklebox.stock.naming.kin import general
from tacklebox.trade import quantities as q
from tacklebox.trade.fish import CARP, NET_OF, SILVERS, species_named
from tacklebox.trade.floats import FLOAT_KINDS
from tacklebox.trade.hooks import read_hook_order
from tacklebox.trade.keepnet import BYELAW, MOST_MM, KeepnetRule, keepnet_words
from tacklebox.trade.law import Country
from tacklebox.trade.line import BY_WORD, MATERIALS
from tacklebox.trade.shot import WEIGHT_MATERIALS

Text = Annotated[str, Field(min_length=1, max_length=400)]
PER_NET = ("fish_per_net", "silvers_per_net", "carp_per_net")
METHODS = ("float", "feeder", "pole", "waggler", *FLOAT_KINDS[:4])
SHAPES = (*(f"{shape} feeder" for shape in FEEDER_SHAPES if general(shape) != "bomb"), "bomb")
BANNABLE_METHODS = (*METHODS, *SHAPES)
BANNABLE_MATERIALS = (*BY_WORD, *(m.name for m in WEIGHT_MATERIALS))
NET_MEASURES = (
    "length", "rings_apart", "ring_around", "round_rings", "square_rings", "hole_around",
)  # fmt: skip
FIRST = "venues.start"


class Rules(StrictModel):
    """The rules that can be judged, as written; what is left out is no rule there."""

    largest_hook: Text | None = None
    barbless: bool = False
    no_braid_main_line: bool = False
    feeders_run_free: bool = False
    least_hooklength: Text | None = None
    greatest_hooklength: Text | None = None
    least_main_line: Text | None = None
    methods_banned: tuple[Text, ...] = ()
    materials_banned: tuple[Text, ...] = ()
    groundbait_limit: Text | None = None

    @property
    def hook_order(self) -> float | None:
        """The largest hook, as a number that grows with the hook."""
        return read_hook_order(self.largest_hook) if self.largest_hook else None

    @property
    def least_hooklength_mm(self) -> float:
        """The least hooklength in mm, 0 where there is no such rule."""
        return q.read_length_mm(self.least_hooklength) if self.least_hooklength else 0.0

    @property
    def greatest_hooklength_mm(self) -> float | None:
        """The greatest hooklength in mm."""
        return q.read_length_mm(self.greatest_hooklength) if self.greatest_hooklength else None

    @property
    def least_main_line_kg(self) -> float | None:
        """The least strain of the main line in kg."""
        return q.read_strain_kg(self.least_main_line) if self.least_main_line else None

    @property
    def groundbait_limit_g(self) -> float | None:
        """The most groundbait for a match, in g."""
        return q.read_mass_g(self.groundbait_limit) if self.groundbait_limit else None

    @property
    def forbidden_materials(self) -> frozenset[str]:
        """The banned materials by the names that items have."""
        names = (m.strip().lower() for m in self.materials_banned)
        return frozenset(BY_WORD[n].name if n in BY_WORD else n for n in names)

    @property
    def forbidden_methods(self) -> frozenset[str]:
        """The banned methods in small letters."""
        return frozenset(m.strip().lower() for m in self.methods_banned)


class NetRules(StrictModel):
    """What a venue asks of keepnets, as written; where it says nothing, the byelaws' measures hold."""

    length: Text | None = None
    rings_apart: Text | None = None
    ring_around: Text | None = None
    round_rings: Text | None = None
    square_rings: Text | None = None
    hole_around: Text | None = None
    knotless: bool = True
    metal: bool = False
    nets: int | None = Field(default=None, ge=1, le=20)
    fish_per_net: Text | None = None
    silvers_per_net: Text | None = None
    carp_per_net: Text | None = None
    in_carp_nets: tuple[Text, ...] = ()  # fish that go into these; as is common where none is named

    @property
    def net_of(self) -> Mapping[str, str]:
        """The net of each fish. Raises AskedWronglyError for one that is none here."""
        if not self.in_carp_nets:
            return NET_OF
        carp = {species_named(name) for name in self.in_carp_nets}
        return {name: CARP if name in carp else SILVERS for name in NET_OF}

    def most_g(self, net: str) -> float | None:
        """How much a net of silvers or carp may hold, in g; None without a rule."""
        said = (self.silvers_per_net if net == SILVERS else self.carp_per_net) or self.fish_per_net
        return q.read_mass_g(said) if said else None

    @property
    def asked(self) -> KeepnetRule:
        """The measures that the venue asks for, the byelaws' where it asks for none."""
        said = {key: getattr(self, key) for key in NET_MEASURES}
        measures = {f"{key}_mm": q.read_length_mm(text) for key, text in said.items() if text}
        return replace(BYELAW, **measures)

    def words(self, country: Country | None) -> tuple[str, ...]:
        """All that is asked of keepnets, the byelaws' measures too, in short sentences."""
        nets = f"At most {self.nets} keepnet{'' if self.nets == 1 else 's'} at a time"
        of_each = (
            ("fish", self.fish_per_net),
            ("silvers", self.silvers_per_net),
            ("carp", self.carp_per_net),
        )
        carp = ", ".join(self.in_carp_nets)
        return (
            keepnet_words(self.asked, country).rstrip("."),
            *([nets] if self.nets else []),
            *(f"At most {most} of {what} in a keepnet" for what, most in of_each if most),
            *([f"Into the carp nets go {carp}; all else into those for silvers"] if carp else []),
        )


class Venue(StrictModel):
    """A whole venue file. ``read`` holds the rules that only an angler can judge;
    ``close_season`` says whether a still water or canal keeps it, None where nobody said."""

    stem: str
    name: Text
    water: Literal["still water", "canal", "river"]
    country: Literal["England", "Wales", "elsewhere"] | None = None
    close_season: bool | None = None
    depths: Text | None = None
    overhead_lines: bool = False
    notes: Text | None = None
    read: tuple[Text, ...] = ()
    rules: Rules = Rules()
    keepnet: NetRules = NetRules()

    @property
    def under(self) -> Country | None:
        """Whose byelaws hold there, None where nobody said."""
        return Country(self.country) if self.country else None

    @model_validator(mode="before")
    @classmethod
    def _older(cls, raw: Any) -> Any:
        """In older files a keepnet's length stands among the rules."""
        rules, net = raw.get("rules"), raw.get("keepnet", {})
        if not (isinstance(rules, dict) and isinstance(net, dict) and "keepnet_length" in rules):
            return raw
        others = {key: value for key, value in rules.items() if key != "keepnet_length"}
        return raw | {"rules": others, "keepnet": {"length": rules["keepnet_length"]} | net}


_KEYS = {
    "": ("name", "water", "country", "close_season", "depths", "overhead_lines", "notes", "read",
         "rules", "keepnet"),
    "rules": tuple(Rules.model_fields),
    "keepnet": tuple(NetRules.model_fields),
}  # fmt: skip
_LIKE = {
    "depths": "80 cm to 2.5 m",
    "largest_hook": "10",
    "least_main_line": "4 lb",
    "methods_banned": "method feeder",
    "materials_banned": "fluorocarbon",
    "groundbait_limit": "2 kg",
    "fish_per_net": "60 lb",
    "silvers_per_net": "40 lb",
    "carp_per_net": "60 lb",
    "in_carp_nets": "carp",
}


def parse_venue(text: str, stem: str) -> Venue:
    """A venue from its TOML text.

    Raises ManyFaultsError naming file, key and what was expected, also for rules that
    contradict one another.
    """
    venue = parse_toml(Venue, text, stem, "venue", _KEYS, _LIKE)
    faults = _faults(venue)
    if faults:
        raise ManyFaultsError(f"{stem}.toml: this venue cannot be read.", faults)
    return venue


def _faults(venue: Venue) -> list[KeyFaultError]:
    rules = venue.rules
    faults: list[KeyFaultError] = []
    figures = {
        "largest_hook": "hook_order",
        "least_hooklength": "least_hooklength_mm",
        "greatest_hooklength": "greatest_hooklength_mm",
        "least_main_line": "least_main_line_kg",
        "groundbait_limit": "groundbait_limit_g",
    }
    for key, figure in figures.items():
        try:
            getattr(rules, figure)
        except AskedWronglyError as error:
            faults.append(_of(f"rules.{key}", str(error)))
    readable: list[tuple[str, str | None, Callable[[str], object]]] = [
        ("depths", venue.depths, lambda text: q.read_range(text, q.read_length_mm)),
        *((f"keepnet.{key}", getattr(venue.keepnet, key), q.read_mass_g) for key in PER_NET),
        *(("keepnet.in_carp_nets", name, species_named) for name in venue.keepnet.in_carp_nets),
        *((f"keepnet.{key}", getattr(venue.keepnet, key), _read_net_mm) for key in NET_MEASURES),
    ]
    for key, text, read in readable:
        try:
            read(text) if text is not None else None
        except AskedWronglyError as error:
            faults.append(_of(key, str(error)))
    for key, given, known in (
        ("methods_banned", rules.methods_banned, BANNABLE_METHODS),
        ("materials_banned", rules.materials_banned, BANNABLE_MATERIALS),
    ):
        for word in given:
            if word.strip().lower() not in known:
                says = f'"{word}" cannot be judged here. {nearest_word(word, known)} Else write it in words'
                of_form = f"{says} among the rules that only you can judge."
                faults.append(_of(f"rules.{key}", of_form, in_file=f'{says} under "read".'))
    if (
        venue.water == "river"
        and venue.close_season is False
        and venue.under is not Country.ELSEWHERE
    ):
        faults.append(
            _of(
                "close_season",
                "rivers, streams and drains of England and Wales keep it. Leave it out.",
            )
        )
    return faults or [*_contradictions(rules), *_laxer_nets(venue.keepnet)]


def _of(key: str, says: str, in_file: str = "") -> KeyFaultError:
    """The fault of a key, told ``in_file`` in other words where it names another key."""
    return KeyFaultError(f'"{key}": {in_file or says}', key, says)


def _read_net_mm(text: str) -> float:
    length_mm = q.read_length_mm(text)
    if length_mm > MOST_MM:
        raise AskedWronglyError(f"no keepnet measures {text}.", right="At most 20 m.")
    return length_mm


def _laxer_nets(net: NetRules) -> list[KeyFaultError]:
    """A venue may ask for more than the byelaws, never for less."""
    right = f"Leave it out: the byelaws hold. {keepnet_words()}"
    keys = [name.removesuffix("_mm") for name in net.asked.laxer]
    faults = [(key, f"{getattr(net, key)} is less strict than") for key in keys]
    faults += [] if net.knotless else [("knotless", "knotted mesh is against")]
    faults += [("metal", "mesh of metal is against")] if net.metal else []
    return [
        _of(f"keepnet.{key}", f"{fault} the national byelaws. {right}") for key, fault in faults
    ]


def _contradictions(rules: Rules) -> list[KeyFaultError]:
    faults = []
    most = rules.greatest_hooklength_mm
    if most is not None and rules.least_hooklength_mm > most:
        faults.append(
            _of(
                "rules.least_hooklength",
                f"{rules.least_hooklength} is above the greatest hooklength, "
                f"{rules.greatest_hooklength}: no hooklength can pass both.",
            )
        )
    lines = {m.name for m in MATERIALS} - rules.forbidden_materials
    if not lines:
        faults.append(_of("rules.materials_banned", "no line at all is left to fish with."))
    elif rules.no_braid_main_line and lines == {"braid"}:
        faults.append(
            _of(
                "rules.no_braid_main_line",
                "no main line is left: all others are among the banned materials.",
            )
        )
    if {"float", "feeder", "pole"} <= rules.forbidden_methods:
        faults.append(_of("rules.methods_banned", "no method at all is left."))
    return faults


@dataclass(frozen=True)
class Venues:
    """The venues of a box, in its folder ``venues``."""

    folder: Path

    @property
    def files(self) -> DataFiles:
        """The venue files."""
        return DataFiles("venues", "venue", self.folder, FIRST)

    def load(self, name: str) -> Venue:
        """The venue of that name. Raises AskedWronglyError if there is none or it is faulty."""
        stem, text = self.files.read(name)
        return parse_venue(text, stem)


STARTING = """\
# A venue and its rules. Text after # is a note. Copy the rules from the board and the match
# card; those always win over what stands here, and so do byelaws and law.

name = "My venue"
water = "still water"             # or "canal", "river" (streams and drains too)
country = "England"               # or "Wales", "elsewhere": whose byelaws hold
# close_season = true             # whether a still water or canal keeps it, as the owner says
depths = "80 cm to 2.5 m"
overhead_lines = false            # true where a power line crosses or follows the bank
notes = "Pegs 1 to 20 on the road bank."

# Rules that no program can judge, in words. Each is shown with "check this yourself".
read = [
    "No fishing within a rod's length of the lilies.",
]

# Rules that are judged for every rig. Delete those that do not hold at this venue.
[rules]
largest_hook = "10"               # by the number on the packet
barbless = true
no_braid_main_line = true
feeders_run_free = true
least_hooklength = "10 cm"
greatest_hooklength = "1 m"
least_main_line = "2 lb"
methods_banned = ["method feeder"]       # float, feeder, pole, waggler, or a kind of feeder
materials_banned = ["fluorocarbon"]      # of line or weights
groundbait_limit = "2 kg"

# Keepnets, where the venue asks for more than the byelaws do. Delete what it does not ask.
[keepnet]
length = "3 m"                    # at least
rings_apart = "30 cm"             # at most
ring_around = "130 cm"            # at least, measured round the ring
round_rings = "45 cm"             # at least, across
square_rings = "40 cm"            # at least, the shorter side
hole_around = "20 mm"             # at most, measured round a hole of the mesh
nets = 2                          # at most, at a time
fish_per_net = "60 lb"            # at most
# silvers_per_net = "40 lb"       # at most, where it is another for silvers; carp_per_net likewise
# in_carp_nets = ["carp", "F1", "barbel"]         # these go into the carp nets, all else is silvers
"""


def write_starting_venue(folder: Path, name: str) -> Path:
    """Write the commented starting file as ``name.toml``; raises as ``DataFiles.write_new``."""
    called = named_after(check_name(name, "venue"))
    return Venues(folder).files.write_new(name, STARTING.replace("My venue", called))
