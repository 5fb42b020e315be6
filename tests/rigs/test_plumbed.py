"""A plumbed depth and what is fished over it make the rig's depth; both are kept with the rig."""

import pytest

from tacklebox.errors import AskedWronglyError
from tacklebox.rigs.fitting import unfitted
from tacklebox.rigs.recipes.resolved import Resolved
from tacklebox.rigs.recipes.resolving import resolve
from tacklebox.rigs.tying.describe import describe_fit
from tacklebox.trade.quantities import read_length_mm
from tacklebox.trade.units_first import in_units
from tests.rigs.boxes import SHELF, fine_hooklength


def rig(recipe: str, **wishes: str) -> Resolved:
    below = resolve(SHELF.load(SHELF.load(recipe).hooklengths[0]))
    return resolve(SHELF.load(recipe), wishes, below)


# Depth by hand: 5 ft = 1524 mm, 2 in = 50.8 mm. The canal rig is fished at dead depth, the river pole 2 in
# over, the punch rig off bottom.
@pytest.mark.parametrize(
    ("recipe", "wishes", "depth_mm", "over"),
    [
        ("pole-canal-shot", {"plumbed": "5 ft"}, 1524.0, "at dead depth"),
        (
            "pole-canal-shot",
            {"plumbed": "five foot", "over": "two inch"},
            1574.8,
            "2 in over depth",
        ),
        ("pole-canal-shot", {"plumbed": "1.4 m", "over": "2 in over"}, 1450.8, "2 in over depth"),
        ("pole-canal-shot", {"plumbed": "1.4 m", "over": "5cm"}, 1450.0, "5 cm over depth"),
        ("pole-river", {"plumbed": "2.4 m"}, 2450.8, "2 in over depth"),
        ("pole-river", {"plumbed": "2.4 m", "over": "dead depth"}, 2400.0, "at dead depth"),
        ("pole-punch", {"plumbed": "1.6 m"}, 1000.0, "off bottom"),  # the recipe's usual depth
        ("pole-canal-shot", {"plumbed": "1.4 m", "depth": "1.2 m"}, 1200.0, "at dead depth"),
        ("pole-canal-shot", {"over": "2 in"}, 1200.0, "2 in over depth"),
        ("pole-canal-shot", {}, 1200.0, ""),
    ],
)
def test_depth_follows_from_what_was_plumbed(
    recipe: str, wishes: dict[str, str], depth_mm: float, over: str
) -> None:
    resolved = rig(recipe, **wishes)
    assert read_length_mm(resolved.chosen["depth"]) == pytest.approx(depth_mm, abs=1)
    made = describe_fit(unfitted(resolved), "A01T", "")
    plumbed = wishes.get("plumbed", "").replace("five foot", "5 ft")  # spelled as it is printed
    assert (made.plumbed, made.over) == (plumbed, over)
    assert resolve(resolved.recipe, dict(resolved.chosen), resolved.hooklength).plumbed.words == ""


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("4 foot 6", "4 ft 6 in"),
        ("tied at five foot", "5 ft"),
        ("4'6", "4 ft 6 in"),
        ("1.5 m", "1.5 m"),
    ],
)
def test_a_depth_as_it_is_spoken(said: str, told: str) -> None:
    assert rig("pole-canal-shot", depth=said).chosen["depth"] == told


@pytest.mark.parametrize(
    ("units", "plumbed", "over", "told"),
    [
        ("", "5 ft", "dead depth", "5 ft"),
        ("", "1.45 m", "dead depth", "1.45 m"),
        ("", "5 ft 3 in", "3 1/2 in", "5 ft 6 1/2 in"),
        ("", "1.45 m", "3 1/2 in", "154 cm"),
        ("imperial", "1.45 m", "dead depth", "4 ft 9 in"),
        ("metric", "5 ft", "dead depth", "152.4 cm"),
    ],
)
def test_a_plumbed_depth_is_told_in_his_units(
    units: str, plumbed: str, over: str, told: str
) -> None:
    with in_units(units):
        assert rig("pole-canal-shot", plumbed=plumbed, over=over).chosen["depth"] == told


@pytest.mark.parametrize(
    ("wishes", "field"),
    [
        ({"plumbed": "deep"}, "set.plumbed"),
        ({"plumbed": "1.4 m", "over": "a lot"}, "set.over"),
        ({"plumbed": "6 m"}, "set.depth"),  # the recipe goes down to 2 m
    ],
)
def test_what_is_no_depth_is_refused_by_its_field(wishes: dict[str, str], field: str) -> None:
    with pytest.raises(AskedWronglyError) as refused:
        rig("pole-canal-shot", **wishes)
    assert refused.value.field == field


def test_what_has_no_depth_cannot_be_plumbed() -> None:
    with pytest.raises(AskedWronglyError) as refused:
        fine_hooklength(plumbed="1 m")
    assert refused.value.field == "set.plumbed"
