"""What an angler would say, read and written back."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tacklebox.errors import AskedWronglyError
from tacklebox.stock.naming.rows import as_row, of_row
from tacklebox.stock.naming.writing import write
from tacklebox.stock.notation import read_notation, words_from_flags
from tacklebox.stock.tables import Feeder, Float, Hook, Kind, Line, Part, Weight, Winder
from tests.long.length import so_many

SAID = [
    ("nylon 0.14 mm 4 lb 100 m", Kind.LINE, {"material": "nylon", "diameter_mm": 0.14}),
    ("fluoro .12 1,5kg 50 m clear", Kind.LINE, {"breaks_at_kg": 1.5, "colour": "clear"}),
    ("braid 0.08 5.5 kg 150 m", Kind.LINE, {"material": "braid"}),
    ("nylon 0.006 in 4 lb 100 m", Kind.LINE, {"diameter_mm": pytest.approx(0.1524)}),
    ("hook 18 barbless spade", Kind.HOOK, {"size": "18", "barb": "barbless", "end": "spade"}),
    ("hooks size 18 spade-end barbless", Kind.HOOK, {"size": "18", "end": "spade"}),
    ("micro barbed hook 2/0 eyed fine wire", Kind.HOOK, {"size_order": 2.0, "wire": "fine"}),
    ("waggler 5BB insert", Kind.FLOAT, {"shape": "waggler insert", "capacity_g": 2.0}),
    ("pole float 4x14", Kind.FLOAT, {"shape": "pole", "mark": "4×14", "capacity_g": 0.4}),
    ("pole 0.4g tip 1.5 mm × 20 mm", Kind.FLOAT, {"tip_diameter_mm": 1.5, "tip_length_mm": 20.0}),
    ("stick 6 No 4", Kind.FLOAT, {"capacity_g": pytest.approx(1.2)}),
    ("shot AAA tin", Kind.WEIGHT, {"mark": "AAA", "mass_g": 0.8, "material": "tin"}),
    ("shot 8", Kind.WEIGHT, {"mark": "No 8", "mass_g": 0.06}),
    ("olivette 0.4 g tungsten", Kind.WEIGHT, {"form": "olivette", "material": "tungsten"}),
    ("feeder cage 30 g 40 ml", Kind.FEEDER, {"shape": "cage", "volume_ml": 40.0}),
    ("bomb 3/4 oz", Kind.FEEDER, {"shape": "bomb", "mass_g": pytest.approx(21.262, abs=0.0005)}),
    ("swivel size 14 12 kg", Kind.PART, {"sort": "swivel", "size": "14", "breaks_at_kg": 12.0}),
    ("quick-change float adaptor", Kind.PART, {"sort": "adaptor"}),
    ("float stop", Kind.PART, {"sort": "float stop"}),
    ("bead 4 mm", Kind.PART, {"sort": "bead", "size": "4 mm"}),
    ("pole elastic grade 10 red", Kind.ELASTIC, {"grade": 10.0, "colour": "red"}),
    ("winder 18 cm 20 mm", Kind.WINDER, {"length_mm": 180.0, "width_mm": 20.0}),
]


@pytest.mark.parametrize(("said", "kind", "figures"), SAID)
def test_reads_what_is_said(said: str, kind: Kind, figures: dict[str, object]) -> None:
    described = read_notation(said)
    assert described.kind is kind
    assert {key: getattr(as_row(described), key) for key in figures} == figures


@pytest.mark.parametrize("said", [said for said, _, _ in SAID])
def test_what_it_writes_it_reads_back(said: str) -> None:
    described = read_notation(said)
    again = read_notation(write(described))
    assert as_row(again).model_dump() == as_row(described).model_dump()
    assert write(again) == write(described)


@pytest.mark.parametrize("said", [said for said, _, _ in SAID])
def test_a_row_says_what_was_said(said: str) -> None:
    described = read_notation(said)
    assert write(of_row(as_row(described))) == write(described)


def test_a_row_of_before_is_written_in_usual_units() -> None:
    assert write(of_row(Line(material="braid", diameter_mm=0.08, breaks_at_kg=5.5))) == (
        "braid 0.08 mm 5.5 kg"
    )
    assert write(of_row(Feeder(shape="cage", mass_g=30.0))) == "feeder cage 30 g"


@pytest.mark.parametrize(
    ("said", "size"),
    [("nylon 0.14 mm 4 lb 100 m", 100_000), ("hook 18 pack of 10", 10), ("elastic 5 3 m", 3000)],
)
def test_reads_the_packet(said: str, size: int) -> None:
    assert read_notation(said).pack_size == size


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("hook 18 barbles", 'Say "hook 18 barbless"'),
        ("hook 31", "Sizes run from 26"),
        ("nylon 0.14 mm 4 lbb", '"lbb" for "lb" a slip? Say "nylon 0.14 mm 4 lb"'),
        ("nylon", 'add it, like "0.12 mm"'),
        ("stick insert 4BB", 'Say "waggler 4BB insert" or "stick 4BB"'),
        ("8s", 'Say "shot No 8 tin" or "hook 8" or'),
        ("pole 4×99", "No capacity is known"),
        ("shot ZZZ", "Keep it as a note?"),
        ("wibble", "no kind of tackle"),
        ("nylon 0 mm", "cannot be a diameter"),
        ("nylon 0.0004 mm 1 kg", "no diameter of a line. From 0.001 mm up"),
        ("nylon 0.00001 in 1 kg", "no diameter of a line"),
        ("hook " + "9" * 500, "letters long"),
        ("4x10 1/2 bottom of the ) " * 9, "36 numbers"),
        ("1/2 BB " * 20, "40 numbers"),
        ("", "no kind of tackle"),
    ],
)
def test_says_what_is_wrong_and_what_would_be_right(said: str, expected: str) -> None:
    with pytest.raises(AskedWronglyError) as error:
        read_notation(said)
    assert expected in str(error.value)


WORDS = st.sampled_from(
    "hook nylon braid waggler insert pole shot AAA No 8 5BB 4×14 0.14 mm kg lb 4 30 g cage feeder "
    "swivel size elastic 18 cm winder m tip bomb / .. ' \" 🎣 Ω barbless spade pack 1/0 -1 1e9".split()
)


@given(st.lists(WORDS, max_size=8).map(" ".join) | st.text(max_size=60))
@settings(max_examples=so_many(400, 200), deadline=None)
def test_any_text_is_read_or_refused_in_words(text: str) -> None:
    try:
        described = read_notation(text)
    except AskedWronglyError as error:
        assert str(error)  # noqa: PT017
        return
    assert as_row(read_notation(write(described))).model_dump() == as_row(described).model_dump()


@pytest.mark.parametrize(
    ("kind", "flags", "made"),
    [
        (Kind.LINE, {"material": "nylon", "diameter": "0.14", "strain": "4 lb"}, Line),
        (Kind.HOOK, {"size": "18", "barb": "barbless"}, Hook),
        (Kind.FLOAT, {"shape": "waggler insert", "capacity": "5BB"}, Float),
        (Kind.WEIGHT, {"form": "shot", "mark": "AAA"}, Weight),
        (Kind.FEEDER, {"shape": "cage", "mass": "30 g"}, Feeder),
        (Kind.PART, {"sort": "swivel", "strain": "12 kg"}, Part),
        (Kind.WINDER, {"length": "18 cm", "width": "20 mm"}, Winder),
    ],
)
def test_flags_make_the_same_words(kind: Kind, flags: dict[str, str], made: type) -> None:
    described = read_notation(words_from_flags(kind, flags))
    assert described.kind is kind
    assert type(as_row(described)) is made
