"""Labels for drawers, boxes and spools: what lies there, laid out and printed like a rig's label."""

from tacklebox.printing.labels.layout import Words
from tacklebox.printing.labels.qr import Sayings, letters, shorter
from tacklebox.printing.labels.sheets import Label
from tacklebox.printing.labels.wording import Field
from tacklebox.stock.amounts import show_round
from tacklebox.stock.finding import write_packet
from tacklebox.stock.levels import least
from tacklebox.stock.naming.rows import of_row
from tacklebox.stock.tables import (
    Elastic,
    Feeder,
    Figures,
    Float,
    Hook,
    Hooklength,
    Item,
    Line,
    Part,
    Weight,
    Winder,
)

LARGER = 1.5  # than on a rig's label, where there is room: there is less to say


def drawer_label(item: Item, figures: Figures) -> Label:
    """The label of an item: what it is, its name, where it lies, the packet, the minimum.

    Its code is the item's number in the box. What it is stands in large letters, the rest of it beside
    or below; then the angler's own name for it, where it has one. No word stands there twice.
    """
    what = item.words
    own_name = item.name != what
    packet = write_packet(item) if item.pack_size > 1 else ""
    minimum = show_round(item.minimum, item.measured, item.pack_said) if least(item) else ""
    said = (
        ("place", "In", item.place),
        ("packet", "Packet of", packet),
        ("minimum", "Minimum", minimum),
    )
    words = Words(
        code=f"no. {item.id}",
        heads=tuple((large, _rest(what, large)) for large in _large(figures)),
        second=item.name if own_name else "",
        fields=tuple(Field(about, head, text, text, text) for about, head, text in said if text),
        larger=LARGER,
    )
    return Label(words, _sayings(item, what, packet, minimum))


def _large(figures: Figures) -> tuple[str, ...]:
    """The kind with its size, diameter and strain; the fullest first, then with less."""
    words = of_row(figures).words_of
    match figures:
        case Line():
            material = figures.material
            said = [f"{words('diameter')} {words('strain')}", words("diameter") or words("strain")]
            said.insert(0, f"{material} {said[0].strip()}")
        case Hook():
            said = [f"hook {figures.size}"]
        case Hooklength():
            said = [f"{figures.size} to {words('diameter') or words('strain')}"]
        case Float():
            family = figures.shape.partition(" ")[0]
            said = [f"{family} {figures.mark}", figures.mark]
        case Weight(form="styl"):
            said = [figures.mark]
        case Weight():
            said = [f"{figures.form} {figures.mark}", figures.mark]
        case Feeder():
            said = [f"{figures.shape} {words('mass')}", words("mass")]
        case Part():
            said = [f"{figures.sort} {figures.size}", figures.size or figures.sort]
        case Elastic():
            said = [f"elastic {words('grade')}"]
        case Winder():
            said = [f"winder {words('length')}"]
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


def _sayings(item: Item, what: str, packet: str, minimum: str) -> Sayings:
    """What the QR says: number, what it is, place, packet, minimum, an own name."""
    full = {
        "number": f"no. {item.id}",
        "what": what,
        "place": item.place,
        "packet": f"packet of {packet}" if packet else "",
        "minimum": f"minimum {minimum}" if minimum else "",
        "name": item.name if item.name != what else "",
    }
    plain = {part: letters(text) for part, text in full.items()}
    lost = tuple(part for part, (_, unsaid) in plain.items() if unsaid)
    first = {part: "" if part in lost else text for part, (text, _) in plain.items()}
    short = {part: shorter(part, text) for part, text in first.items()}
    tight = short | {
        "number": short["number"].removeprefix("NO. "),
        "packet": short["packet"].removeprefix("PACKET OF "),
        "minimum": short["minimum"].replace("MINIMUM", "MIN"),
    }
    return Sayings(
        wordings=(first, short, tight),
        importance=("number", "what", "place", "minimum", "packet", "name"),
        one_phrase=("number", "what"),
        after=("place", "packet", "minimum", "name"),
        unsaid=lost,
    )
