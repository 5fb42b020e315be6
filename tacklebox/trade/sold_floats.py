"""The float to buy for a load: a mark as floats are sold by, never finer.

Pole floats are sold by 4×14 and the like, sticks by so many No 4, wagglers by BB, AAA and SSG, and
whatever is heavier by the gram (common practice, no source).
"""

from tacklebox.trade.floats import POLE_MARKS, Capacity, read_capacity

_GRAMS = "1.5 2 2.5 3 4 5 6 8 10 12 15 20 25 30 40 50 60 80 100".split()
_MARKS = {
    "pole": tuple(POLE_MARKS),
    "stick": tuple(f"{n} No 4" for n in "3 4 5 6 7 8 10 12".split()),
    "waggler": tuple("1BB 2BB 3BB 4BB 5BB 6BB 4AAA 5AAA 3SSG 4SSG 5SSG".split()),
}


def float_for(load_g: float, shape: str, *, not_g: float = 0.0) -> Capacity:
    """The smallest float of the trade's marks that carries a load; 2 % less is trimmed away.

    Load in g of shot, above 0, up to 100. ``shape`` as in stock ("pole", "waggler insert", "stick");
    any other is sold by the gram. A float that carries ``not_g`` is left out: it is the one that does
    not do. What it carries is nominal.

    >>> [float_for(2.41, shape).mark for shape in ("waggler insert", "stick", "pole", "bolo")]
    ['6BB', '12 No 4', '2.5 g', '2.5 g']
    >>> float_for(0.33, "pole").mark, float_for(2.0, "waggler straight", not_g=2.0).mark
    ('4×14', '6BB')
    """
    marks = [*_MARKS.get(shape.split(" ")[0], ()), *(f"{grams} g" for grams in _GRAMS)]
    each = sorted((read_capacity(mark) for mark in marks), key=lambda one: one.mass_g)
    marked = [one for one in each if not one.mark.endswith(" g")]
    heaviest = marked[-1].mass_g if marked else 0.0
    sold = [*marked, *(one for one in each if one.mark.endswith(" g") and one.mass_g > heaviest)]
    enough = [one for one in sold if one.mass_g >= 0.98 * load_g and abs(one.mass_g - not_g) > 1e-6]
    return enough[0] if enough else sold[-1]


def write_about(mass_g: float) -> str:
    """A mass that nobody can set finer: to a tenth of a gram, below that to a No 13.

    >>> write_about(2.413), write_about(0.37), write_about(0.083), write_about(12.4)
    ('about 2.4 g', 'about 0.4 g', 'about 0.08 g', 'about 12 g')
    """
    places = 2 if abs(mass_g) < 0.095 else 1 if abs(mass_g) < 9.95 else 0
    return f"about {round(mass_g, places):g} g"


def write_float_for(load_g: float, shape: str, *, not_g: float = 0.0) -> str:
    """That float in words, with about what it carries.

    >>> write_float_for(2.41, "waggler insert"), write_float_for(2.41, "pole")
    ('a 6BB (about 2.4 g)', 'one of 2.5 g')
    """
    found = float_for(load_g, shape, not_g=not_g)
    if found.mark.endswith(" g"):
        return f"one of {found.mark}"
    return f"a {found.mark} (about {found.mass_g:.2g} g)"
