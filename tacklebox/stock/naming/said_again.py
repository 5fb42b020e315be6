"""What was found of a roundabout way of saying a thing, said again plainly: lists in full, sums of money,
a figure that was said in two units. The ways themselves stand in ``plainly``."""

import re

from tacklebox.errors import AskedWronglyError
from tacklebox.stock.naming.numbers import count_of
from tacklebox.trade.quantities import read_length_mm, read_mass_g

MOST_MARKS = 6  # of a set of floats
SAID_TWICE_WITHIN = 0.07  # of an ounce and its round number of grams


def with_spaces(found: re.Match[str]) -> str:
    return found.group().replace(",", ", ")


def every_length(found: re.Match[str]) -> str:
    """ "4x10 to 4x16" as the four of them."""
    first, last = int(found[2]), int(found[3])
    if not 0 < last - first <= 2 * MOST_MARKS or (last - first) % 2:
        return found.group()
    return ", ".join(f"{found[1]}x{length}" for length in range(first, last + 1, 2))


def each_its_own(found: re.Match[str]) -> str:
    """ "15g 25g, 3/2 respectively" as "15g x3, 25g x2"."""
    figures, many = re.findall(r"\d+\s*g", found["listed"], re.IGNORECASE), found["many"].split("/")
    if len(figures) != len(many):
        return found.group()
    return ", ".join(f"{one} x{times}" for one, times in zip(figures, many, strict=True))


def part_of_an_ounce(found: re.Match[str]) -> str:
    return f"{ {'h': '1/2', 'q': '1/4', 't': '3/4'}[found[1][0].lower()] } oz"


def every_mark(found: re.Match[str]) -> str:
    """ "4 no 4 to 6 no 4" as 4, 5 and 6 of them."""
    first, last = int(found[1]), int(found[3])
    if not 0 < last - first <= MOST_MARKS:
        return found.group()
    return ", ".join(f"{many} no {found[2]}" for many in range(first, last + 1))


def in_pounds(found: re.Match[str]) -> str:
    return f"£{count_of(found['pounds'])} "


def in_pounds_and_a_half(found: re.Match[str]) -> str:
    return f"£{count_of(found['pounds'])}.50 "


def said_in_two_units(found: re.Match[str]) -> str:
    """ "28g/1oz" or "3 in (76 mm)" is one figure in both units: the second is a note."""
    first, second = found["first"].strip(), found["second"].strip()
    for reads in (read_mass_g, read_length_mm):
        try:
            one, other = reads(first), reads(second)
        except AskedWronglyError:
            continue
        if one and other and abs(other / one - 1) < SAID_TWICE_WITHIN:
            return f"{first} (note: {second})"
    return found.group()


def strain_said_twice(found: re.Match[str]) -> str:
    """ "1.7kg / 3lb 12oz" is one strain in both units: the second is a note."""
    pounds = int(found[2]) + int(found[3]) / 16
    alike = abs(pounds * 0.4536 / float(found[1]) - 1) < SAID_TWICE_WITHIN
    return f"{found[1]} kg (note: {found[2]} lb {found[3]} oz)" if alike else found.group()


def with_commas(found: re.Match[str]) -> str:
    """ "1g 1.5g 2g" with commas."""
    return re.sub(r"(?<=g)\s+", ", ", found.group(), flags=re.IGNORECASE)


def paid_instead_of(found: re.Match[str]) -> str:
    """ "£3.50 instead of £5 so I got three" as what was paid, with the old price as a note."""
    many = f", {found['many']} of them" if found["many"] else ""
    return f"{found['paid']}{many} (note: {found['note']})"


def in_pounds_and_pence(found: re.Match[str]) -> str:
    """ "swivels pkt of 10 two pound ten" as what they cost."""
    return f"{found['of']} £{count_of(found['pounds'])}.{count_of(found['pence'])}"
