"""What the fields of a recipe's form are called on the page, and how each is filled in."""

LABELS = {
    "name": "Called",
    "is": "What it is",
    "choose.name": "What is chosen",
    "usual": "Usually",
    "from": "From",
    "to": "To",
    "any_of": "Or one of these sizes",
    "material": "Material",
    "diameter": "Diameter",
    "strain": "Breaking strain",
    "colour": "Colour",
    "length": "Length",
    "top": "Knot at the top",
    "bottom": "Knot at the bottom",
    "loop": "Loop, if not the usual",
    "in_place": "It is on the reel or in the pole already",
    "size": "Size",
    "end": "Shank end",
    "barb": "Barb",
    "wire": "Wire",
    "bend": "Bend",
    "shape": "Shape",
    "mass": "Weight",
    "volume": "Holds",
    "grade": "Grade",
    "core": "Core",
    "width": "Width",
    "capacity": "Takes",
    "tip": "Tip, across",
    "bait": "Bait",
    "form": "Form",
    "mark": "Size of shot",
    "on": "On which line",
    "held": "How it is held",
    "at": "From the hook",
    "held_by": "Held on by",
    "bore": "Bore",
    "seat": "A bead goes into it",
    "tried_by_hand": "I tried it by hand: it gives way",
    "count": "How many",
    "branch.from": "Hangs from",
    "weak_link": "It is meant to go first, when the weight is snagged",
    "place": "Where",
    "of": "Which shot, or olivette",
    "apart": "Apart",
    "shot.from": "Lowest, from the hook",
    "shot.to": "Highest, from the hook",
    "shot.material": "Of what",
}
HINTS = {
    "name": "Empty: it is called what it is",
    "choose.name": "depth, float, length, hook",
    "branch.name": "feeder link",
    "usual": "1.2 m, or one of the sizes",
    "choose.from": "90 cm",
    "choose.to": "2 m",
    "any_of": "4×10, 4×12, 4×14; then From and To stay empty",
    "material": "nylon, or nylon or fluorocarbon",
    "diameter": "0.14 mm, or 0.13 to 0.15 mm",
    "strain": "4 lb, or at least 5 kg",
    "length": "6 in, or depth + 50 cm - hooklength",
    "loop": "2 cm",
    "size": "size 12",
    "hook.size": "18, or 16 to 18",
    "mass": "30 g, 3/4 oz",
    "volume": "40 ml",
    "grade": "4, or 3 to 4",
    "capacity": "4×12, 5BB, 0.5 g",
    "tip": "1.2 mm",
    "along.at": "50 cm, or depth",
    "shot.at": "50 cm; of droppers the lowest",
    "apart": "15 cm",
    "shot.from": "20 cm",
    "shot.to": "half depth",
    "held_by": "3 silicone tubes",
    "bore": "4 mm",
    "count": "Empty: one",
    "of": "3 No 8, or AAA + BB, or olivette 0.8 g",
    "winder.length": "at least 13 cm",
    "winder.width": "18 mm",
    "fished": "dead depth, off bottom, over 2 in",
}
UNPICKED = {"top": "none", "bottom": "none", "seat": "nothing", "material": "any that may be used"}
SECTIONS = (
    ("choose", "What is chosen when you tie it", "Add a choice"),
    ("part", "Parts, from the rod down", "Add a part"),
    ("along", "Things along the line", "Add a thing on a line"),
    ("branch", "Branches", "Add a branch"),
    ("shot", "Shot", "Add shot"),
)


def label_of_row(kind: str, key: str) -> str:
    """What a field of a row is called; of shot for one size, with that."""
    if key.startswith("of."):
        return f"Shot for {key.removeprefix('of.')}"
    return LABELS.get(f"{kind}.{key}") or LABELS.get(key) or key.replace("_", " ").capitalize()


def hint_of_row(kind: str, key: str, is_: str = "") -> str:
    """How it is filled in, as an example."""
    named = HINTS.get(f"{is_}.{key}") or HINTS.get(f"{kind}.{key}")
    return named or HINTS.get(key.partition(".")[0], "")
