"""The commented starting file for a recipe of one's own, or a copy of another recipe."""

from pathlib import Path

from tacklebox.datafiles import check_name, named_after
from tacklebox.rigs.recipes.file import Shelf

RIG = """\
# A rig recipe. Text after # is a note. Change what you like and save the file.
# Every figure stands in quotes with its unit: "40 cm", "18 in", "4 lb", "0.14 mm".

name = "My pole rig"              # printed on the label
makes = "rig"                     # "rig" or "hooklength"
method = "pole"                   # "float", "feeder" or "pole"
for = "roach and skimmers at two metres"
hooklengths = ["hooklength-fine", "hooklength-middle"]   # the first one is usual
# free_running = true             # every feeder, bomb and lead on it must come free
# fish = "carp"                   # or "F1": which line a hook size goes with
fished = "dead depth"             # or "off bottom", "over 2 in"; what lies does not load the float

# What you choose when you tie. A length has from and to; a size has any_of.
[choose.depth]                    # here: from float to hook
usual = "1.5 m"
from = "80 cm"
to = "3 m"

[choose.float]
usual = "4×14"
any_of = ["4×12", "4×14"]

# The parts, from the rod to the hook, each under [[part]].
# "is" says what it is: line, elastic, swivel, snap link, connector, hook, hooklength ...
# Below it, what you ask of it. For line: material, diameter, strain, colour.
#   "0.13 to 0.15 mm", "at least 3 lb", "nylon or fluorocarbon"
# A part that is on the reel or in the pole already has in_place = true.
[[part]]
name = "rig line"
is = "line"
material = "nylon"
diameter = "0.11 to 0.13 mm"
length = "depth + 50 cm - hooklength"   # may use what you choose, and the hooklength's length
top = "figure-of-eight loop"            # the knot at each end
bottom = "figure-of-eight loop"

# The last part is the place of the hooklength (or is = "hook").
[[part]]
name = "hooklength"
is = "hooklength"

# What is on a line: floats, running feeders, beads. Held: "one point", "two points", "slides",
# "runs free", "in line", "on its stem", "in a loop" or "fixed". "at" is the distance from the
# hook; with the hook on a branch, from the end of the line. A run ring may say its bore; a feeder
# with a bead pushed into it: seat = "push fit"; once tried by hand: tried_by_hand = true.
[[along]]
name = "float"
is = "float"
on = "rig line"
held = "two points"
held_by = "3 silicone tubes"      # at hand: nothing is taken; also "2 float rubbers"
at = "depth"
shape = "pole"                    # waggler insert, waggler straight, stick, pole
capacity = "float"                # the float size that you choose

# Shot, each group under [[shot]]. place: "at the float", "bulk", "spread" or "droppers".
# "of" is one pattern, or one for each size that may be chosen.
[[shot]]
place = "bulk"
of = { "4×12" = "2 No 8", "4×14" = "5 No 8" }
at = "50 cm"                      # from the hook

[[shot]]
place = "droppers"
of = { "4×12" = "2 No 10", "4×14" = "2 No 9" }
at = "20 cm"                      # the lowest one
apart = "15 cm"

# A branch hangs from a part by [[branch]], with its own parts under [[branch.part]]; the hooklength
# may be the last of them. weak_link = true: it is meant to go first when the weight is snagged.
# [[branch]]
# name = "feeder link"
# from = "running link"
# [[branch.part]]
# name = "feeder"
# is = "feeder"
# mass = "30 g"

[winder]                          # which winder it goes on; leave it out for none
length = "at least 13 cm"
"""

HOOKLENGTH = """\
# A hooklength recipe. Text after # is a note. Change what you like and save the file.
# Every figure stands in quotes with its unit: "20 cm", "8 in", "2 lb", "0.10 mm".

name = "My hooklength"            # printed on the label
makes = "hooklength"
method = "float"                  # "float", "feeder" or "pole"
for = "roach on maggot"

# What you choose when you tie. A length has from and to; a size has any_of.
[choose.length]
usual = "20 cm"
from = "10 cm"
to = "60 cm"

[choose.hook]
usual = "18"
any_of = ["20", "18"]

[[part]]
name = "hooklength line"
is = "line"
material = "nylon"
diameter = "0.10 to 0.12 mm"      # may also ask: strain = "at least 2 lb", colour = "clear"
length = "length"                 # the length that you choose
top = "figure-of-eight loop"
bottom = "spade knot"     # or "knotless knot" for an eyed hook

[[part]]
name = "hook"
is = "hook"
size = "hook"                     # the size that you choose
end = "spade"                     # or "eyed"
barb = "barbless"                 # or "micro-barbed", "barbed"
"""


def write_starting_file(folder: Path, name: str, *, hooklength: bool = False) -> Path:
    """Write the starting file as ``name.toml`` into the box's recipes; raises as ``write_new``."""
    return Shelf(folder).files.write_new(name, HOOKLENGTH if hooklength else RIG)


def write_copy(folder: Path, name: str, like: str) -> Path:
    """Write the recipe ``like`` with all its notes as ``name.toml`` into the box's recipes.

    Only the name on the label is its own. Raises AskedWronglyError where there is no such recipe,
    else as ``write_new``.
    """
    import tomlkit

    shelf = Shelf(folder)
    _, text = shelf.files.read(like)
    shelf.load(like)  # one that cannot be read is told
    copy = tomlkit.parse(text)
    stem = check_name(name, shelf.files.what)
    copy["name"] = named_after(stem)
    return shelf.files.write_new(stem, tomlkit.dumps(copy))
