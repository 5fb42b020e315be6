"""Labels for drawers, boxes and spools: what lies there, laid out and printed like a rig's label."""

from tacklebox.printing.labels.layout import Words
from tacklebox.printing.labels.qr import Sayings, letters, shorter
from tacklebox.printing.labels.sheets import Label
from tacklebox.printing.labels.wording import Field
from tacklebox.stock.ledger import write_amount
from tacklebox.stock.notation import write_notation, write_strain_as_printed
from tacklebox.stock.tables import (
    Elastic,
    Feeder,
    Figures,
    Float,
    Hook,
    Item,
    Line,
    Part,
    Weight,
    Winder,
)
from tacklebox.trade import quantities as q

LARGER = 1.5  # than on a rig's label, where there is room: there is less to say


def drawer_label(item: Item, figures: Figures) -> Label:
    """The label of an item: what it is, its name, where it lies, the packet, what to keep.

    Its code is the item's number in the box. What it is stands in large letters; below it the
    angler's own name for it, or else all of what it is.
    """
    what = write_notation(figures)
    own_name = item.name != what
    packet = write_amount(item.pack_size, item.measured) if item.pack_size > 1 else ""
    keep = write_amount(item.minimum, item.measured) if item.minimum else ""
    said = (
        ("place", "In", item.place),
        ("packet", "Packet of", packet),
        ("keep at least", "Keep", keep),
    )
    words = Words(
        code=f"no. {item.id}",
        heads=tuple((large, _rest(what, large) if own_name else "") for large in _large(figures)),
        name=item.name,
        fields=tuple(Field(about, head, text, text, text) for about, head, text in said if text),
        larger=LARGER,
    )
    return Label(words, _sayings(item, what, packet, keep))


def _large(figures: Figures) -> tuple[str, ...]:
    """The kind with its size, diameter and strain; the fullest first, then with less."""
    match figures:
        case Line():
            thick = q.write_diameter(figures.diameter_mm)
            strain = write_strain_as_printed(figures.breaks_at_kg) if figures.breaks_at_kg else ""
            said = [f"{figures.material} {thick} {strain}", f"{thick} {strain}", thick]
        case Hook():
            said = [f"hook {figures.size}"]
        case Float():
            family = figures.shape.partition(" ")[0]
            said = [f"{family} {figures.mark}", figures.mark]
        case Weight():
            said = [f"{figures.form} {figures.mark}", figures.mark]
        case Feeder():
            mass = q.write_mass(figures.mass_g)
            said = [f"{figures.shape} {mass}", mass]
        case Part():
            size = f"{figures.sort} {figures.size}"
            said = [size, figures.size or figures.sort]
        case Elastic():
            said = [f"elastic {figures.grade:g}"]
        case Winder():
            said = [f"winder {q.write_length(figures.length_mm)}"]
        case _:
            raise TypeError(f"no label for {type(figures).__name__}")
    return tuple(dict.fromkeys(large.strip() for large in said))


def _rest(what: str, large: str) -> str:
    """The words of the full description that the large ones do not say."""
    left = what.split()
    for word in large.split():
        if word in left:
            left.remove(word)
    return " ".join(word for word in left if word != "size")


def _sayings(item: Item, what: str, packet: str, keep: str) -> Sayings:
    """What the QR says: number, what it is, place, packet, what to keep, an own name."""
    full = {
        "number": f"no. {item.id}",
        "what": what,
        "place": item.place,
        "packet": f"packet of {packet}" if packet else "",
        "keep at least": f"keep {keep}" if keep else "",
        "name": item.name if item.name != what else "",
    }
    plain = {part: letters(text) for part, text in full.items()}
    lost = tuple(part for part, (_, unsaid) in plain.items() if unsaid)
    first = {part: "" if part in lost else text for part, (text, _) in plain.items()}
    short = {part: shorter(part, text) for part, text in first.items()}
    tight = short | {
        "number": short["number"].removeprefix("NO. "),
        "packet": short["packet"].removeprefix("PACKET OF "),
    }
    return Sayings(
        wordings=(first, short, tight),
        importance=("number", "what", "place", "keep at least", "packet", "name"),
        together=("number", "what"),
        after=("place", "packet", "keep at least", "name"),
        unsaid=lost,
    )
