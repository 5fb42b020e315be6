"""Codes against ISO/IEC 7064."""

import string

import pytest
from hypothesis import given
from hypothesis import strategies as st
from stdnum import grid
from stdnum.iso7064 import mod_37_36

from tacklebox.errors import AskedWronglyError
from tacklebox.stock.codes import ALPHABET, each_code, near_codes, next_code, read_code
from tests.outside import outside

ISO_ALPHABET = string.digits + string.ascii_uppercase


def check_character(payload: str) -> str:
    """ISO/IEC 7064 hybrid system MOD 37,36, written out from the standard's recursion."""
    product = 36
    for character in payload:
        total = (product + ISO_ALPHABET.index(character)) % 36 or 36
        product = total * 2 % 37
    return ISO_ALPHABET[(37 - product) % 36]


@outside(
    "check characters: the published example",
    "ISO/IEC 7064, as the GRid standard works it",
    "published",
)
def test_the_recursion_gives_the_published_grid_example() -> None:
    """The Global Release Identifier's example A1-2425G-ABC1234002-M uses the same system."""
    assert check_character("A12425GABC1234002") == "M"
    assert grid.is_valid("A12425GABC1234002M")


@outside("check characters of codes", "ISO/IEC 7064 MOD 37,36 by python-stdnum", "library")
@given(st.integers(-1, 400_000))
def test_against_iso_7064_and_python_stdnum(after: int) -> None:
    number, code = next_code(after)
    assert number > after
    assert mod_37_36.is_valid(code)
    assert check_character(code[:-1]) == code[-1]
    assert set(code) <= set(ALPHABET)
    assert code[0].isalpha()
    assert read_code(code.lower()) == code


def test_codes_are_short_and_never_alike() -> None:
    number, codes = -1, []
    for _ in range(9000):
        number, code = next_code(number)
        codes.append(code)
    assert len(set(codes)) == 9000
    assert {len(code) for code in codes} == {4}


@given(st.integers(-1, 9000), st.integers(0, 3), st.sampled_from(ALPHABET))
def test_any_one_mistyped_character_is_caught(after: int, place: int, typed: str) -> None:
    _, code = next_code(after)
    wrong = code[:place] + typed + code[place + 1 :]
    if wrong == code:
        return
    with pytest.raises(AskedWronglyError):
        read_code(wrong)


@pytest.mark.parametrize("typed", ["ao1-t", " A0I T ", "a01t", "AO1T"])
def test_cold_fingers_are_forgiven(typed: str) -> None:
    assert read_code(typed) == "A01T"


@pytest.mark.parametrize("typed", ["", "A", "A01T" * 9, "A01!", "A01W", "../A01T", "🎣🎣🎣🎣"])
def test_no_code_is_told(typed: str) -> None:
    with pytest.raises(AskedWronglyError):
        read_code(typed)


def test_near_codes_are_offered() -> None:
    assert near_codes("A02T", ["A01T", "K8ML", "A02R"])[:2] == ["A02R", "A01T"]


@pytest.mark.parametrize(
    ("typed", "codes"),
    [
        (["A01T"], ["A01T"]),
        (["A01T A02R", "A03P,A04N;A05L"], ["A01T", "A02R", "A03P", "A04N", "A05L"]),
        ([" a01t ,\ta02r "], ["a01t", "a02r"]),
        (["A0I T"], ["A0I T"]),  # one code, typed with a blank in it
        (["A01T great"], ["A01T", "great"]),
        ([""], [""]),
        ([], []),
    ],
)
def test_several_codes_in_one(typed: list[str], codes: list[str]) -> None:
    assert each_code(typed) == codes


@given(st.lists(st.integers(-1, 9000), min_size=1, max_size=6), st.sampled_from([" ", ",", ", "]))
def test_codes_are_parted_whatever_they_make_together(numbers: list[int], by: str) -> None:
    """Also where two codes make one that fits its check character."""
    codes = [next_code(number)[1] for number in numbers]
    assert each_code([by.join(codes)]) == codes


@pytest.mark.parametrize("typed", ["ZZZZ", "great", "A15HA16F", " a02t "])
def test_what_was_typed_is_told(typed: str) -> None:
    with pytest.raises(AskedWronglyError) as refused:
        read_code(typed)
    assert f'"{typed.strip()}"' in str(refused.value)
