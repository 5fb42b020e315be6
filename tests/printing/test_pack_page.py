"""The pack list's page read back: nothing clipped, nothing small, nothing lost."""

from collections.abc import Iterator
from pathlib import Path

import pdfplumber
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tacklebox.errors import AskedWronglyError
from tacklebox.matches.before.pack import FIRST, Entry, PackList, Section, lead_words
from tacklebox.matches.files.venue import NetRules
from tacklebox.printing import fonts
from tacklebox.printing.pages.pack_page import print_pack_list
from tacklebox.printing.pages.tick_page import LEAST_IN_HAND_PT, LEAST_PT, MARGIN_MM
from tacklebox.trade import law
from tests.long.length import so_many
from tests.printing.reading import MM, Read, pages_of

RIGS = Section(
    "Rigs",
    (
        Entry("Canal pole, shot, depth 1.2 m, float 4×12", "3 ×", strong=True),
        Entry("on winder 13 cm 18 mm, winder tray:"),
        Entry("", "A01T", tick=True),
        Entry("", "A02R", tick=True),
        Entry("", "to tie", tick=True),
    ),
)
MIND = Section("Mind", (Entry("Keep at least 30 m from overhead power lines."),))
WARNING = Section(FIRST, (Entry("Keep away.", "OVERHEAD LINES NEARBY.", strong=True),))
FACTS = ("Sunday, 2026-06-21, 10:00 to 15:00", "The pond, still water")
SMALL = PackList("Open", FACTS, (WARNING, RIGS, MIND))
RULES = Section("Rules", tuple(Entry(f"rule number {n}", tick=True) for n in range(12)))
LONG = PackList(
    "Open",
    FACTS,
    (
        WARNING,
        RIGS,
        *(
            Section(f"Want {n}", tuple(Entry("", f"A{n:02}{k}", tick=True) for k in range(12)))
            for n in range(14)
        ),
        RULES,
        Section("Spares", tuple(Entry(f"swivel size {n}", "12", tick=True) for n in range(40))),
    ),
)


def words_of(pages: list[Read]) -> str:
    """All letters of all pages, columns one after the other, without blanks; page numbers last."""
    answer = numbers = ""
    for page in pages:
        for letter in page.letters:
            if letter["top"] < page.height - MARGIN_MM * MM:
                answer += letter["text"]
            else:
                numbers += letter["text"]
    answer += numbers
    return "".join(answer.replace("\N{NO-BREAK SPACE}", "").split())


def said(packing: PackList) -> list[str]:
    entries = [e for s in packing.sections for e in s.entries]
    answer = [packing.title, *packing.facts, *(s.heading for s in packing.sections)]
    answer += [w for e in entries for w in (e.first, e.words)]
    return ["".join(fonts.printable(words)[0].split()) for words in answer]


def boxes(pages: list[Read]) -> int:
    """Squares to tick, all of them at least 3 mm wide, so that a pencil finds them."""
    squares = [side for page in pages for side in page.squares]
    assert all(side / MM > 3 for side in squares)
    return len(squares)


def ticks(packing: PackList) -> int:
    return sum(e.tick for s in packing.sections for e in s.entries)


@pytest.mark.parametrize("packing", [SMALL, LONG])
@pytest.mark.parametrize(("paper", "size"), [("a4", (210, 297)), ("a5", (148, 210))])
def test_nothing_is_lost_clipped_or_small(
    packing: PackList, paper: str, size: tuple[float, float], tmp_path: Path
) -> None:
    """Capitals of 3 mm: 1/200 of 60 cm (US Federal Aviation Administration); pages by ISO 216."""
    pdf = tmp_path / "pack.pdf"
    printed = print_pack_list(packing, pdf, page=paper)
    pages = pages_of(pdf)
    assert printed.pages == len(pages)
    words = words_of(pages)
    for answer in said(packing):
        assert answer in words
    assert boxes(pages) == ticks(packing)
    for page in pages:
        height = page.height
        assert (page.width / MM, height / MM) == pytest.approx(size, abs=0.1)
        edge = (MARGIN_MM - 0.2) * MM
        for letter in page.letters:
            assert edge < letter["x0"] < letter["x1"] < page.width - edge
            assert "+DejaVuSansCondensed" in letter["fontname"]
            if letter["top"] < height - MARGIN_MM * MM:  # below it stands the page's number
                assert letter["size"] >= LEAST_PT - 0.01
                assert letter["size"] * fonts.CAP_HEIGHT / MM >= 3.0
                assert letter["bottom"] < height - edge
    assert b"/PrintScaling /None" in pdf.read_bytes()


def test_one_page_in_large_type_where_there_is_room(tmp_path: Path) -> None:
    printed = print_pack_list(SMALL, tmp_path / "a.pdf")
    assert (printed.pages, printed.on_later_pages) == (1, ())
    (page,) = pages_of(tmp_path / "a.pdf")
    assert min(letter["size"] for letter in page.letters) > LEAST_PT
    assert "page" not in words_of([page])


def big_match(wants: int, each: int) -> PackList:
    """As many rigs as hooklengths, with all that a long day's list has to say."""

    def made(name: str, numbers: range) -> Iterator[Entry]:
        for number in numbers:
            yield Entry(f"{name}, 1 of them spare", f"{each} ×", strong=True)
            yield Entry("on winder 13 cm 18 mm, winder tray:")
            yield from (Entry("", f"A{number:X}{k:X}M", tick=True) for k in range(each))

    def loaded(heading: str, **places: str) -> Section:
        answer = (Entry(w, f"{place}:".replace("_", " "), tick=True) for place, w in places.items())
        return Section(heading, tuple(answer))

    canal, fine = "Canal pole, shot, depth 1.2 m, float 4×12", "Fine hooklength, 15 cm, hook 20"
    also = ("landing net", "keepnet", "rod licence", "bank sticks", "umbrella", "bait apron")
    bait = (
        "groundbait 810 g dry, with 0.49 l of water (72 casts of 40 ml)",
        "loose feed 2.5 pints",
    )
    return PackList(
        "Open",
        (f"{FACTS[0]}. {FACTS[1]}, 1.2 to 1.8 m",),
        (
            WARNING,
            Section("Rigs", tuple(made(canal, range(wants // 2)))),
            Section("Hooklengths", tuple(made(fine, range(wants // 2, wants)))),
            loaded(
                "Floats and feeders to change to",
                float_tube="2 × waggler 4BB insert tip 3 mm × 40 mm, 2 × waggler 5BB insert tip 3 mm",
                pole_tray="2 × pole 4×10 tip 1.2 mm × 25 mm, 2 × pole 4×14 tip 1.5 mm × 25 mm",
            ),
            loaded(
                "Spare tackle for what was tied",
                drawer_2="19 × hook 20 barbless spade, 14 × hook 18 barbless spade, 9 × hook 16",
                shot_box="30 × shot AAA tin, 58 × shot No 1 tin, 94 × shot No 6 tin, 46 × shot No 8",
                drawer_3="4 × adaptor",
            ),
            Section("Also", tuple(Entry(words, tick=True) for words in also)),
            Section("Bait", tuple(Entry(words, tick=True) for words in bait)),
            Section(
                "Rules of The pond",
                (
                    Entry("Largest hook 14; barbless hooks; groundbait at most 2 kg."),
                    Entry(". ".join(NetRules().words(None)), tick=True),
                    Entry("Nets are dipped before and after the match", tick=True),
                ),
                at_the_water=True,
            ),
            Section("Line clip", (Entry("7.7 wraps, sticks 12 ft apart", "28 m:"),), True),
            Section(
                "Mind",
                tuple(
                    Entry(answer)
                    for answer in (lead_words(), law.LINE_LITTER.says, law.FREE_RUNNING.says)
                ),
                at_the_water=True,
            ),
        ),
    )


@pytest.mark.parametrize(("wants", "each"), [(4, 6), (8, 6), (10, 4)])
def test_a_long_day_fits_one_page(wants: int, each: int, tmp_path: Path) -> None:
    """48 pieces for 8 wants: what is ticked off at least 3 mm high, what is read in the hand 2.25."""
    packing = big_match(wants, each)
    printed = print_pack_list(packing, tmp_path / "a.pdf")
    assert printed.pages == 1
    pages = pages_of(tmp_path / "a.pdf")
    words = words_of(pages)
    assert all(answer in words for answer in said(packing))
    assert boxes(pages) == ticks(packing)
    chars = pages[0].letters
    letters = "".join(c["text"] for c in chars)
    read_in_hand = letters.index("Rules of The pond")
    assert min(c["size"] for c in chars[:read_in_hand]) >= LEAST_PT - 0.01
    assert min(c["size"] for c in chars[read_in_hand:]) >= LEAST_IN_HAND_PT - 0.01
    assert LEAST_IN_HAND_PT * fonts.CAP_HEIGHT / MM >= 2.25


def test_what_is_still_to_be_tied_shares_its_words(tmp_path: Path) -> None:
    """A box for each; a hundred of them take more rows."""
    to_tie = Section("Rigs", (Entry("", "to tie", tick=True),) * 100)
    print_pack_list(PackList("Open", FACTS, (to_tie,)), tmp_path / "a.pdf")
    pages = pages_of(tmp_path / "a.pdf")
    assert boxes(pages) == 100
    assert words_of(pages).count("totie") == 1


def test_a_second_page_is_told(tmp_path: Path) -> None:
    """What is least important comes last; each page says where it goes on."""
    pdf = tmp_path / "a.pdf"
    printed = print_pack_list(LONG, pdf)
    assert printed.pages == 2
    assert printed.on_later_pages[-1] == "Spares"
    order = [s.heading for s in LONG.sections]
    assert list(printed.on_later_pages) == order[-len(printed.on_later_pages) :]
    pages = pages_of(pdf)
    words = words_of(pages)
    assert "page1of2·goesonoverleaf" in words
    assert "page2of2" in words
    assert min(letter["size"] for letter in pages[0].letters) >= LEAST_PT * 0.75 - 0.01


@pytest.mark.parametrize(
    ("wants", "cautions", "overleaf"),
    [(9, 120, True), (3, 170, False)],  # the second is read on more than one page
)
def test_what_is_read_at_the_water_stands_overleaf(
    wants: int, cautions: int, overleaf: bool, tmp_path: Path
) -> None:
    """Never for a page more."""
    rigs = [Section(f"Want {n}", RIGS.entries) for n in range(wants)]
    rules = Section("Rules", (Entry("no shouting " * 120),), at_the_water=True)
    mind = tuple(Entry(f"caution {n}") for n in range(cautions))
    last = Section("Mind", mind, at_the_water=True)
    packing = PackList("Open", FACTS, (WARNING, *rigs, rules, last))
    printed = print_pack_list(packing, tmp_path / "a.pdf")
    assert printed.pages == 2
    assert ("Rules" in printed.on_later_pages) is overleaf
    words = words_of(pages_of(tmp_path / "a.pdf"))
    assert all(answer in words for answer in said(packing))


def test_warnings_go_across_on_top(tmp_path: Path) -> None:
    print_pack_list(SMALL, tmp_path / "a.pdf")
    with pdfplumber.open(tmp_path / "a.pdf") as pdf:
        found = {w["text"]: w["top"] for w in pdf.pages[0].extract_words()}
    assert found["OVERHEAD"] < found["Rigs"] < found["A01T"]


def test_a_flood_of_warnings_pushes_nothing_out(tmp_path: Path) -> None:
    flood = Section(FIRST, tuple(Entry(f"Rig {n}: " + "not here " * 20, "NOT ALLOWED:", strong=True)
                                 for n in range(60)))  # fmt: skip
    packing = PackList("Open", FACTS, (flood, RIGS))
    printed = print_pack_list(packing, tmp_path / "a.pdf")
    assert printed.pages > 1
    words = words_of(pages_of(tmp_path / "a.pdf"))
    assert all(answer in words for answer in said(packing))


WORDS = st.text("aA é×0№≥ -", min_size=1, max_size=400).filter(lambda t: t.strip())
ENTRY = st.builds(Entry, WORDS, st.sampled_from(["", "A01T", "12"]), st.booleans())


@settings(max_examples=so_many(20, 10), deadline=None)
@given(st.lists(ENTRY, min_size=1, max_size=30), st.sampled_from(["a4", "a5"]))
def test_whatever_is_said_is_printed(
    tmp_path_factory: pytest.TempPathFactory, entries: list[Entry], page: str
) -> None:
    pdf = tmp_path_factory.mktemp("any") / "a.pdf"
    packing = PackList("Open", FACTS, (Section("Any", tuple(entries)),))
    print_pack_list(packing, pdf, page=page)
    pages = pages_of(pdf)
    words = words_of(pages)
    assert all(answer in words for answer in said(packing))
    assert boxes(pages) == ticks(packing)
    assert all(0 < c["x0"] < c["x1"] < read.width for read in pages for c in read.letters)


def test_the_same_gives_the_same_bytes(tmp_path: Path) -> None:
    for name in ("a", "b"):
        print_pack_list(LONG, tmp_path / name)
    assert (tmp_path / "a").read_bytes() == (tmp_path / "b").read_bytes()


def test_asked_wrongly(tmp_path: Path) -> None:
    with pytest.raises(AskedWronglyError, match='Did you mean "a4"'):
        print_pack_list(SMALL, tmp_path / "x.pdf", page="a44")
    target = tmp_path / "x.pdf"
    target.write_text("mine")
    for overwrite in (False, True):  # what is no PDF is never written over by one
        with pytest.raises(AskedWronglyError, match=r"left as it (is|was)"):
            print_pack_list(SMALL, target, overwrite=overwrite)
        assert target.read_text() == "mine"
    target.write_bytes(b"%PDF-1.4 older")
    with pytest.raises(AskedWronglyError, match="left as it is"):
        print_pack_list(SMALL, target)
    print_pack_list(SMALL, target, overwrite=True)
    assert b"older" not in target.read_bytes()
