"""Labels for drawers, boxes and spools: what lies there, laid out and printed like a rig's label."""

from tacklebox.printing.labels.layout import Words
from tacklebox.printing.labels.qr import Sayings, letters, shorter
from tacklebox.printing.labels.sheets import Label
from tacklebox.printing.labels.wording import Field
from tacklebox.stock.ledger import write_amount, write_packet
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
    """The label of an item: what it is, its name, where it lies, the packet, what to keep.

    Its code is the item's number in the box. What it is stands in large letters; below it the
    angler's own name for it, or else all of what it is.
    """
    what = item.words
    own_name = item.name != what
    packet = write_packet(item) if item.pack_size > 1 else ""
    keep = write_amount(item.minimum, item.measured) if least(item) else ""
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
    words = of_row(figures).words_of
    match figures:
        case Line():
            material = "braid" if figures.material == "gel-spun" else figures.material
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
        one_phrase=("number", "what"),
        after=("place", "packet", "keep at least", "name"),
        unsaid=lost,
    )
