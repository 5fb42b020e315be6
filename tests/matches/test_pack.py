"""The pack list: what it says of a small box, by hand."""

from pathlib import Path

import pytest

from tacklebox.errors import AskedWronglyError
from tacklebox.matches.before.pack import FIRST, Entry, PackList, make_pack_list, uses_of
from tacklebox.matches.before.plan import Plan, make_plan
from tacklebox.matches.files.clips import Clip
from tacklebox.matches.files.feed import Feed, bait_for
from tacklebox.matches.files.match import Match, parse_match
from tacklebox.matches.files.venue import Venue, parse_venue
from tacklebox.rigs.recipes.resolved import Resolved
from tacklebox.rigs.recipes.resolving import resolve
from tacklebox.rigs.tying.tie import tie
from tacklebox.stock.care.box import Box
from tests.rigs.boxes import DAY, SHELF, add, canal_rig, fine_hooklength, make_box

HEAD = 'name = "Open"\ndate = "{day}"\nfrom = "10:00"\nto = "15:00"\nvenue = "pond"\n'
POND = 'name = "The pond"\nwater = "still water"\ndepths = "1 m to 2 m"\n'


def match(*wants: Resolved, count: int = 2, day: str = "2026-06-20", more: str = "") -> Match:
    answer = "".join(
        f'[[want]]\nrecipe = "{w.recipe.stem}"\ncount = {count}\nspares = 1\n' for w in wants
    )
    return parse_match(HEAD.format(day=day) + answer + more, "open")


def pond(more: str = "") -> Venue:
    return parse_venue(POND + more, "pond")


def planned(box: Box, answer: Match, *wants: Resolved) -> Plan:
    return make_plan(box, list(zip(answer.want, wants, strict=True)))


def packed(
    box: Box, *wants: Resolved, venue: str = "", more: str = "", day: str = "2026-06-20"
) -> PackList:
    answer = match(*wants, more=more, day=day)
    return make_pack_list(box, answer, pond(venue), planned(box, answer, *wants))


def entries(packing: PackList, heading: str) -> list[Entry]:
    return [e for s in packing.sections if s.heading == heading for e in s.entries]


def lines(packing: PackList, heading: str) -> list[str]:
    return [f"{e.first} {e.words}".strip() for e in entries(packing, heading)]


def test_codes_with_winder_and_place_and_what_is_to_be_tied(tmp_path: Path) -> None:
    """Three are wanted: two ready, one winder left for the third; one of the floats is left."""
    box = make_box(tmp_path)
    add(box, "winder 15 cm 18 mm", place="winder tray", packs=2)
    tie(box, canal_rig(), 1, DAY, use={"winder": 11})
    packing = packed(box, canal_rig())
    assert lines(packing, "Rigs") == [
        "3 × Canal pole, shot, depth 1.2 m, float 4×12, 1 of them spare",
        "on winder 15 cm 18 mm, winder tray:",
        "A01T",
        "to tie",
        "1 cannot be tied: float: 0 of pole 4×12 left, 1 needed for one.",
    ]
    assert [e.first for e in entries(packing, "Rigs") if e.tick] == ["A01T", "to tie"]
    assert packing.facts[0] == (
        "Saturday 20 June, 10:00 to 15:00. The pond, still water, 1 m to 2 m"
    )


def test_the_places_that_the_match_tells_win(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    tie(box, fine_hooklength(), 2, DAY)
    packing = packed(box, fine_hooklength(), more='place = "wallet 1"\n')
    assert lines(packing, "Hooklengths")[1:] == [
        "wallet 1:",
        "2 × hooklength 20 barbless spade to 0.08 mm 0.7 kg 15 cm (2 of A01T)",
        "1 × to tie",
    ]
    assert "in the wallet:" in lines(packed(box, fine_hooklength()), "Hooklengths")[1]
    assert lines(packing, "Rigs") == []


def test_the_plan_is_what_stock_gives(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    answer = match(canal_rig(), fine_hooklength(), count=1)
    plan = planned(box, answer, canal_rig(), fine_hooklength())
    uses = uses_of(plan)
    assert uses[3] == 2  # hooks: one and one spare
    assert uses[6] == 2  # No 8: two on the one rig that the one winder takes
    assert uses[1] == 2 * 350  # 15 cm, 12 cm for the loop and 8 cm for the whipping (from memory)


def test_spares_are_what_is_left_beside_the_plan(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    add(box, "swivel size 14 12 kg pack 10")  # on none of the rigs
    packing = packed(box, canal_rig())
    assert lines(packing, "Spare tackle for what was tied") == [
        "No 8 shot: 18",
        "No 10 shot: 18",
    ]
    assert [e.tick for e in entries(packing, "Spare tackle for what was tied")] == [True, True]


def test_spares_by_place_and_what_is_gone(tmp_path: Path) -> None:
    box = make_box(tmp_path, "nylon 0.08 mm 0.7 kg 50 m")
    add(box, "hook 20 barbless spade pack 10", amount="5", place="drawer 2")
    spares = "Spare tackle for what was tied"
    assert lines(packed(box, fine_hooklength()), spares) == ["drawer 2: hook 20 barbless spade: 2"]
    tie(box, fine_hooklength(), 2, DAY)  # the hooks of ready ones count, too
    tie(box, fine_hooklength(length="20 cm"), 2, DAY)
    assert lines(packed(box, fine_hooklength()), spares) == [
        "None is left of hook 20 barbless spade."
    ]


def test_floats_to_change_to_are_those_that_the_recipe_lets_one_choose(tmp_path: Path) -> None:
    """Of two 4×12 one is tied; there is one 4×10; 4×18 is none of the recipe's sizes."""
    box = make_box(tmp_path)
    for words in ("pole 4×10", "pole 4×18", "waggler 4BB insert"):
        add(box, words, place="pole tray")
    packing = packed(box, canal_rig())
    assert lines(packing, "Floats and feeders to change to") == [
        "pole 4×12 tip 1.2 mm: 1",
        "pole tray: pole 4×10: 1",
    ]


def test_feeders_to_change_to(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    for words in ("feeder cage 20 g 40 ml", "feeder cage 30 g 40 ml", "feeder method 30 g"):
        add(box, words, place="feeder tray")
    recipe = SHELF.load("feeder-running-paternoster")
    rig = resolve(recipe, {}, resolve(SHELF.load(recipe.hooklengths[0])))
    (answer,) = lines(packed(box, rig), "Floats and feeders to change to")
    sizes = recipe.choose["feeder"].any_of
    assert ("feeder cage 20 g" in answer) == ("20 g" in sizes)
    assert "feeder cage 30 g 40 ml" in answer
    assert "method" not in answer


def test_overhead_lines_come_before_anything_else(tmp_path: Path) -> None:
    """30 m: Energy Networks Association, angler safety."""
    box = make_box(tmp_path)
    first = packed(box, canal_rig(), venue="overhead_lines = true\n").sections[0]
    assert first.heading == FIRST
    assert (first.entries[0].first, first.entries[0].strong) == ("OVERHEAD LINES NEARBY.", True)
    assert "at least 30 m" in first.entries[0].words
    (without,) = entries(packed(box, canal_rig()), FIRST)
    assert "at least 30 m" in without.words
    assert not without.strong


def test_what_is_not_allowed_comes_before_anything_else(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    rule = '[rules]\nleast_main_line = "5 lb"\n'
    _, answer = lines(packed(box, canal_rig(), venue=rule), FIRST)
    assert answer.startswith("NOT ALLOWED: Canal pole, shot: main line at least 5 lb: rig line")
    assert "Would pass: 5 lb or more" in answer


def test_a_close_season_on_a_river_comes_before_anything_else(tmp_path: Path) -> None:
    """15 March to 15 June: Environment Agency, national fisheries byelaws."""
    box = make_box(tmp_path)
    answer = match(canal_rig(), day="2026-06-15")
    river = parse_venue('name = "R"\nwater = "river"\n', "pond")
    packing = make_pack_list(box, answer, river, planned(box, answer, canal_rig()))
    assert "NOT ALLOWED: close season" in lines(packing, FIRST)[1]
    later = match(canal_rig(), day="2026-06-16")
    packing = make_pack_list(box, later, river, planned(box, later, canal_rig()))
    assert len(lines(packing, FIRST)) == 1  # power lines
    assert any("outside 15 March to 15 June" in words for words in lines(packing, "Mind"))


def test_cautions_and_lead(tmp_path: Path) -> None:
    """Lead above 0.06 g and up to 28.35 g: GOV.UK, Freshwater rod fishing rules."""
    box = make_box(tmp_path)
    packing = packed(box, canal_rig())
    mind = " ".join(lines(packing, "Mind"))
    for words in (
        "0.06 g",
        "28.35 g",
        "Freshwater rod fishing rules",
        "old line home",
        "come first",
    ):
        assert words in mind
    add(box, "shot AAA lead pack 20")
    assert lines(packed(box, canal_rig()), FIRST)[1:] == [
        "Leave at home: shot AAA lead: lead that may not weight a line."
    ]


def test_rules_as_data_and_in_words(tmp_path: Path) -> None:
    venue = (
        'read = ["No fishing by the lilies."]\n'
        '[rules]\nlargest_hook = "16"\nbarbless = true\n'
        'materials_banned = ["fluorocarbon", "braid"]\n'
        '[keepnet]\nlength = "3 m"\nnets = 2\n'
    )
    answer = lines(packed(make_box(tmp_path), fine_hooklength(), venue=venue), "Rules of The pond")
    assert answer[0] == "Largest hook 16; barbless hooks; no fluorocarbon, braid."
    assert (
        "at least 3 m long, rings at most 40 cm apart below the first" in answer[1]
    )  # the byelaws: 2 m, 40 cm
    assert answer[1].endswith("At most 2 keepnets at a time")
    assert answer[2:] == ["No fishing by the lilies"]


def test_bait_by_hand(tmp_path: Path) -> None:
    """60 casts of 40 ml, half of it at 0.8 g/ml: 960 g wet, 600 g dry; 10 × 150 of 2,500."""
    feed = Feed(feeder="40 ml", density=0.8, water=60.0, loose=10, per_pint=2500.0)
    bait = bait_for(feed, 5)
    assert (bait.casts, bait.loose, bait.from_memory) == (60, 1500, False)
    assert (bait.groundbait.dry_g, bait.groundbait.water_ml) == pytest.approx((600, 360))
    assert (bait.feeder_pints, bait.loose_pints) == pytest.approx((1200 / 568.26125, 0.6))
    assert bait_for(Feed(loose=10), 5).from_memory
    more = '[feed]\nfeeder = "40 ml"\ndensity = 0.8\nwater = 60\n'
    answer = lines(packed(make_box(tmp_path), canal_rig(), more=more), "Bait")
    assert answer == [
        "groundbait 600 g dry, with 0.36 l of water (60 casts of 40 ml)",
        "loose feed 2.1 pints for the feeder",
    ]


def test_what_is_the_same_of_two_wants_is_told_once(tmp_path: Path) -> None:
    box, deep = make_box(tmp_path), canal_rig(depth="1.5 m")
    answer = parse_match(
        HEAD.format(day="2026-06-20") + '[[want]]\nrecipe = "pole-canal-shot"\ncount = 1\n'
        '[[want]]\nrecipe = "pole-canal-shot"\ncount = 1\n[want.choose]\ndepth = "1.5 m"\n',
        "open",
    )
    strict = pond('[rules]\nleast_main_line = "5 lb"\n')
    packing = make_pack_list(box, answer, strict, planned(box, answer, canal_rig(), deep))
    assert len(lines(packing, FIRST)) == 2  # power lines, and the main line of both


def test_groundbait_is_judged_by_the_limit(tmp_path: Path) -> None:
    more = '[feed]\nfeeder = "200 ml"\n'
    limit = '[rules]\ngroundbait_limit = "2 kg"\n'
    _, answer = lines(packed(make_box(tmp_path), canal_rig(), venue=limit, more=more), FIRST)
    assert answer.startswith("NOT ALLOWED: groundbait at most")


def test_clips_by_hand(tmp_path: Path) -> None:
    """12 ft is 3.6576 m: ten wraps are 36.576 m; 40 m at 80 cm a turn are 50 turns."""
    assert Clip(distance="36.576 m").round_sticks == pytest.approx(10)
    assert Clip(distance="40 m", turn="80 cm").of_the_handle == pytest.approx(50)
    more = '[[clip]]\ndistance = "40 m"\nsticks = "4 m"\nturn = "80 cm"\nwhat = "far bank"\n'
    more += '[[clip]]\ndistance = "18 m"\n'
    assert lines(packed(make_box(tmp_path), canal_rig(), more=more), "Line clip") == [
        "40 m, far bank: 10.0 wraps, sticks 4 m apart; 50 turns of the handle, 80 cm each",
        "18 m: 4.9 wraps, sticks 12 ft apart",
    ]


@pytest.mark.parametrize(
    ("more", "expected"),
    [
        ('[[clip]]\ndistance = "900 m"\n', '"clip 1.distance": a cast of 900 m cannot be right'),
        ('[[clip]]\ndistance = "far"\n', '"clip 1.distance"'),
        ('[[clip]]\ndistance = "30 m"\nsticks = "20 m"\n', '"clip 1.sticks"'),
        ('[[clip]]\ndistance = "30 m"\nturn = "1 cm"\n', '"clip 1.turn"'),
        ('[[clip]]\ndistance = "30 m"\nwraps = "3"\n', "is no key of a match"),
        ("[feed]\ncast_every = 5\n", "nothing is fed"),
        ('[feed]\nfeeder = "big"\n', '"feed.feeder"'),
        ("[feed]\nloos = 10\n", 'Did you mean "loose"'),
    ],
)
def test_faulty_figures_are_refused_in_words(more: str, expected: str) -> None:
    with pytest.raises(AskedWronglyError) as error:
        match(canal_rig(), more=more)
    assert expected in str(error.value)


def test_feed_out_of_its_range_names_the_file(tmp_path: Path) -> None:
    with pytest.raises(AskedWronglyError, match=r'"feed\.loose_every": 0 cannot be') as error:
        packed(make_box(tmp_path), canal_rig(), more="[feed]\nloose = 10\nloose_every = 0\n")
    assert str(error.value).startswith("open.toml: ")


def test_words_of_the_match_stand_as_they_are(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    answer = parse_match(
        HEAD.format(day="2026-06-20") + 'also = ["landing net", "rod licence"]\n'
        '[[want]]\nrecipe = "pole-canal-shot"\ncount = 1\n',
        "open",
    )
    packing = make_pack_list(box, answer, pond(), planned(box, answer, canal_rig()))
    assert lines(packing, "Also") == ["landing net", "rod licence"]


def test_nothing_is_written(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    before = box.database.read_bytes()
    packed(box, canal_rig(), fine_hooklength())
    assert box.database.read_bytes() == before


def test_every_section_is_in_the_order_of_loading(tmp_path: Path) -> None:
    more = '[feed]\nloose = 10\n[[clip]]\ndistance = "30 m"\n'
    box = make_box(tmp_path)
    add(box, "pole 4×10")
    answer = [s.heading for s in packed(box, canal_rig(), fine_hooklength(), more=more).sections]
    assert answer == [
        FIRST, "Rigs", "Hooklengths", "Reels and top kits", "Floats and feeders to change to",
        "Spare tackle for what was tied", "Spare spools", "Bait", "Rules of The pond", "Line clip", "Mind",
    ]  # fmt: skip


def test_reels_that_rigs_hang_on_top_kits_and_spare_spools(tmp_path: Path) -> None:
    """One reel of two would do; no top kit is noted; the line is old on the day of the match."""
    from tacklebox.stock.finding import find
    from tacklebox.stock.ledger import begin
    from tacklebox.stock.reels import Holder, add_reel, load_reel
    from tests.rigs.boxes import CANAL

    box = make_box(tmp_path, *CANAL[:-2])
    add(box, "waggler 5BB insert", packs=3)
    for words in ("nylon 0.18 mm 4 lb 150 m", "nylon 0.22 mm 6 lb 150 m"):
        add(box, words)
    with box.writing() as session:
        action = begin(session, "load", DAY)
        for name, words in (("float reel", "nylon 0.18"), ("feeder reel", "nylon 0.22")):
            load_reel(
                session, action, add_reel(session, name, Holder.REEL), find(session, words), 90_000
            )
    bomb = resolve(SHELF.load("bomb-running"), {}, resolve(SHELF.load("hooklength-feeder")))
    packing = packed(box, canal_rig(), fine_hooklength(), bomb, day="2027-06-20")
    assert lines(packing, "Reels and top kits") == ["A top kit with elastic 3–4: none is noted."]
    spare = lines(packing, "Spare spools")
    assert [words.split(" of ")[1].split(".")[0] for words in spare] == ["nylon 0", "nylon 0"]
    assert [
        "OLD: 15 months, renewed at a season (common practice)" in words for words in spare
    ] == [
        True,  # what hooklengths are tied from
        False,
    ]
    for words in (
        "swivel 8 kg pack 9", "bomb 20 g", "link swivel pack 9", "bead pack 9",
        "nylon 0.13 mm 3 lb 50 m", "hook 16 barbless spade pack 9",
    ):  # fmt: skip
        add(box, words, packs=3)
    packing = packed(box, canal_rig(), fine_hooklength(), bomb, day="2027-06-20")
    assert lines(packing, "Reels and top kits")[1:] == [
        "feeder reel: 90 m of nylon 0.22 mm 6 lb, since Thu 5 Mar 2026",
        "float reel: 90 m of nylon 0.18 mm 4 lb, since Thu 5 Mar 2026",
    ]


def test_the_oldest_batch_goes_with_the_first_want_that_takes_it(tmp_path: Path) -> None:
    """Two batches, of four and of three: three wanted twice, as 15 cm and as 6 in, which is the same item."""
    box = make_box(tmp_path, "nylon 0.08 mm 0.7 kg 50 m", "hook 20 barbless spade pack 10")
    tie(box, fine_hooklength(), 4, DAY)
    tie(box, fine_hooklength(), 3, DAY)
    rigs = fine_hooklength(), fine_hooklength(length="6 in")
    more = '[[want]]\nrecipe = "hooklength-fine"\ncount = 3\nchoose = {length = "6 in"}\n'
    answer = match(rigs[0], more=more)
    packing = make_pack_list(box, answer, pond(), planned(box, answer, *rigs))
    taken = [line.partition("(")[2] for line in lines(packing, "Hooklengths") if "(" in line]
    assert taken == ["3 of A01T)", "1 of A01T, 2 of A02R)"]
