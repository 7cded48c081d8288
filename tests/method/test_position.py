"""Where the boom is put."""

from dataclasses import replace
from math import degrees, radians
from typing import Any

import pytest

from becket.book.crane import Book
from becket.book.hoist import SecondLine
from becket.book.tackle import Override, State
from becket.method.position import PositionAnswer, find_position
from becket.method.site import Site
from becket.verdict import Verdict
from tests.crane import invented_settings
from tests.method.golden_crane import SITE, golden_book

TWO, FOUR, BALL = State(block="main", falls=2), State(block="main", falls=4), State(block="ball", falls=1)
SETTINGS = invented_settings()


def answer(book: Book, site: Site = SITE, before: State = TWO, after: State = FOUR) -> PositionAnswer:
    return find_position(book, SETTINGS, before, after, site)


def refused(book: Book, site: Site = SITE, before: State = TWO, after: State = FOUR) -> str:
    """Return why there is no position, and see to it that there is none [-]."""
    found = answer(book, site, before, after)
    assert found.position is None
    assert found.positions == ()
    assert found.verdict is not Verdict.PASS
    assert found.why_no_position
    return found.why_no_position


def with_switch(book: Book, **changes: Any) -> Book:
    return replace(book, switch=replace(book.switch, **changes))


def with_block(book: Book, name: str, **changes: Any) -> Book:
    return replace(book, blocks={**book.blocks, name: replace(book.blocks[name], **changes)})


def test_shortest_boom_in_the_window_at_its_lowest_angle() -> None:
    found = answer(golden_book())
    position = found.position
    assert found.verdict is Verdict.PASS
    assert position is not None
    assert position.length == 33.4
    assert position.code == "100-100-92"
    assert position.sector == "side"
    assert round(degrees(position.angle), 6) == -1.5
    assert position.head_window == pytest.approx((1.30, 1.55))
    assert round(position.head_height, 2) == 1.44
    assert round(position.radius, 1) == 31.9
    assert round(position.free_radius_needed, 1) == 34.4
    assert position.page == "6-3"
    assert position.override is not None


def test_site_figures_not_given_are_asked_not_judged() -> None:
    assert answer(golden_book()).asked == ("free radius", "ground", "slope")
    given = replace(SITE, free_radius=34.5, ground=0.0, slope=0.0)
    assert answer(golden_book(), given).asked == ()
    assert answer(golden_book(), given).verdict is Verdict.PASS


@pytest.mark.parametrize("site", [replace(SITE, counterweight=None), replace(SITE, outriggers=None), Site()])
def test_set_up_not_given_gives_no_position(site: Site) -> None:
    found = answer(golden_book(), site)
    assert found.verdict is Verdict.UNKNOWN
    assert "not given" in refused(golden_book(), site)


def test_position_for_another_counterweight_is_never_taken() -> None:
    """DANGERS: position for other counterweight, slope, wind; rated under block + rope."""
    why = refused(golden_book(), replace(SITE, counterweight=5000.0))
    assert why == (
        "counterweight 5 t with outriggers full: not a permitted position; "
        "the book lists 9 t with outriggers full; 0 t with outriggers full"
    )
    refused(golden_book(), replace(SITE, outriggers="half"))


def test_slope_over_the_setting_gives_no_position() -> None:
    assert refused(golden_book(), replace(SITE, slope=radians(3.2))).startswith("slope: 3.2 deg; at most 3.0 deg")
    assert answer(golden_book(), replace(SITE, slope=radians(3.0))).position is not None
    refused(golden_book(), replace(SITE, slope=radians(-3.2)))


def test_rated_under_block_and_rope_gives_no_position() -> None:
    book = golden_book()
    light = replace(book, rereeve=tuple(replace(row, rated=570.0) for row in book.rereeve))
    assert "570 kg is permitted there" in refused(light)
    assert answer(replace(book, rereeve=tuple(replace(row, rated=600.0) for row in book.rereeve))).position is not None


def test_rated_not_on_file_is_unknown() -> None:
    book = golden_book()
    blank = replace(book, rereeve=tuple(replace(row, rated=None) for row in book.rereeve))
    assert "rereeve.rated is not on file" in refused(blank)
    assert answer(blank).verdict is Verdict.UNKNOWN


def test_the_heavier_block_counts_whether_it_goes_or_comes() -> None:
    book = golden_book()
    light = replace(book, rereeve=tuple(replace(row, rated=400.0) for row in book.rereeve))
    refused(light, before=BALL, after=FOUR)
    refused(light, before=FOUR, after=BALL)


def test_no_room_names_what_is_missing() -> None:
    why = refused(golden_book(), replace(SITE, free_radius=9.0))
    assert "free radius 9.0 m; the head at 31.9 m and room to work need 34.4 m, 25.5 m are missing" in why


def test_room_counts_the_work_room() -> None:
    needed = answer(golden_book()).position
    assert needed is not None
    assert answer(golden_book(), replace(SITE, free_radius=needed.free_radius_needed)).position is not None
    refused(golden_book(), replace(SITE, free_radius=needed.radius + 1.0))


def test_nearest_miss_in_centimetres_and_what_would_help() -> None:
    why = refused(golden_book(), replace(SITE, counterweight=0.0))
    assert (
        "26.2 m over the side: at its lowest angle -1.5 deg the head stands 1.76 m up, 22 cm over reach (1.55 m)" in why
    )
    assert (
        "would help: a permitted position that does: counterweight 9 t with outriggers full, 33.4 m over the side, or "
        "counterweight 9 t with outriggers full, 34.0 m over the side; ground at the head"
    ) in why
    assert "22 cm higher" in why


def test_other_sector_helps() -> None:
    why = refused(golden_book(), replace(SITE, sector="rear"))
    assert "34.0 m over the rear: at its lowest angle 2.0 deg" in why
    assert "a permitted position that does: 33.4 m over the side" in why


def test_ground_at_the_head_moves_the_choice() -> None:
    """Ground 0.5 m up brings the shorter boom in reach; 0.5 m down puts all of them out of it."""
    up = answer(golden_book(), replace(SITE, ground=0.5)).position
    assert up is not None
    assert up.length == 26.2
    assert "over reach" in refused(golden_book(), replace(SITE, ground=-0.5))


def test_head_over_the_block_lifts_the_angle_into_the_window() -> None:
    found = answer(golden_book(), replace(SITE, ground=0.5)).position
    assert found is not None
    assert found.head_height == pytest.approx(found.head_window[0])
    assert found.angle > found.lowest


def test_hand_height_without_sag_would_be_another_answer() -> None:
    """DANGERS: hand height without sag. Without it the head would stand out of reach."""
    book = golden_book()
    straight = replace(book, boom=replace(book.boom, sag=dict.fromkeys(book.boom.sag or {}, 0.0)))
    assert "over reach" in refused(straight)


@pytest.mark.parametrize("sag", [None, {26.2: 0.12}])
def test_missing_sag_is_unknown_and_asks_for_one_measurement(sag: dict[float, float] | None) -> None:
    book = golden_book()
    book = replace(book, boom=replace(book.boom, sag=sag))
    found = answer(book)
    assert found.verdict is Verdict.UNKNOWN
    assert found.missing == ("boom.sag",)
    assert "boom.sag for 33.4 m: not on file; measure once" in refused(book)


def test_lowest_of_the_sector_counts_beside_the_row() -> None:
    book = golden_book()
    stopped = replace(book, boom=replace(book.boom, lowest={**book.boom.lowest, "side": radians(0.5)}))
    assert "at its lowest angle 0.5 deg" in refused(stopped, replace(SITE, sector="side"))


def test_sector_without_a_lowest_angle_takes_the_highest_of_them() -> None:
    book = golden_book()
    nameless = replace(book, boom=replace(book.boom, lowest={"front": radians(4.0), "rear": radians(-3.0)}))
    nameless = replace(nameless, rereeve=tuple(row for row in book.rereeve if row.sector == "side"))
    assert "at its lowest angle 4.0 deg" in refused(nameless)


def test_window_that_is_empty_is_said() -> None:
    tall = with_block(golden_book(), "main", stands=0.95)
    assert "the head has to stand 1.65 m up to clear the block and at most 1.55 m" in refused(tall)
    assert "10 cm missing" in refused(tall)


def test_the_taller_block_counts_whether_it_goes_or_comes() -> None:
    tall = with_block(golden_book(), "ball", stands=0.8, clear=0.72)
    for before, after in ((BALL, FOUR), (FOUR, BALL)):
        found = answer(tall, before=before, after=after).position
        assert found is not None
        assert found.head_window[0] == pytest.approx(1.52)


@pytest.mark.parametrize(
    ("override", "stops", "is_offered"),
    [
        ((), ("hoist", "derrick down"), False),
        ((Override(stops="hoist", when=("block set down",), page="6-4"),), ("hoist", "derrick down"), False),
        ((Override(stops="derrick down", when=("rope off the drum",), page="6-4"),), ("derrick down",), False),
        ((Override(stops="derrick down", when=(), page="6-4"),), ("derrick down",), False),
        ((Override(stops="derrick down", when=("block set down",), page="6-4"),), ("derrick down",), True),
        ((), ("hoist", "telescope out"), True),
        ((), (), False),
    ],
)
def test_an_override_is_only_offered_where_the_book_lists_it(
    override: tuple[Override, ...], stops: tuple[str, ...], is_offered: bool
) -> None:
    book = replace(with_switch(golden_book(), stops=stops), override=override)
    found = answer(book)
    assert (found.position is not None) is is_offered
    if not is_offered:
        assert "switch" in refused(book)


def test_no_override_needed_where_the_switch_does_not_stop_derricking() -> None:
    found = answer(with_switch(golden_book(), stops=("hoist",))).position
    assert found is not None
    assert found.override is None


def test_sector_that_no_row_permits() -> None:
    found = answer(golden_book(), replace(SITE, sector="front"))
    assert found.verdict is Verdict.FAIL
    assert found.why_no_position == (
        "sector front: not a permitted position with this set-up; the book lists rear, side"
    )


def test_head_that_does_not_come_up_to_the_window() -> None:
    """Ground at the head so high that the highest angle leaves the head too low: the nearest miss, in centimetres."""
    book = golden_book()
    rows = tuple(replace(row, highest=radians(-1.0)) for row in book.rereeve if row.length == 33.4)
    why = refused(replace(book, rereeve=rows), replace(SITE, ground=0.5))
    assert "33.4 m over the side: at its highest angle -1.0 deg the head stands 1.23 m up, 8 cm under" in why
    assert "would help: ground at the head 8 cm lower" in why


def test_nearest_miss_is_the_nearest() -> None:
    """26.2 m over the side misses by 22 cm, 34.0 m over the rear by 193 cm: the first is named."""
    book = golden_book()
    rows = tuple(row for row in book.rereeve if row.length == 26.2 or row.sector == "rear")
    why = refused(replace(book, rereeve=tuple(reversed(rows))))
    assert why.startswith("26.2 m over the side")
    assert "over the rear" not in why


def test_nearest_in_room_is_the_nearest() -> None:
    why = refused(golden_book(), replace(SITE, free_radius=30.0))
    assert why.startswith("33.4 m over the side: free radius 30.0 m; the head at 31.9 m")
    assert "34.0 m over the side: free radius" not in why


def test_what_hangs_on_the_second_line_is_carried_too() -> None:
    """Block and rope are under 590 kg; the second line's ball of 90 kg is one more thing that hangs from the head."""
    book = golden_book()
    book = replace(book, rereeve=tuple(replace(row, rated=640.0) for row in book.rereeve))
    assert answer(book).position is not None
    refused(replace(book, second_line=SecondLine(hangs="ball", mass=90.0)))
    assert "second line" in answer(replace(book, second_line=None)).asked


def test_load_is_block_and_all_the_rope_that_may_hang() -> None:
    """560 kg and 1.45 kg/m of 4 x 0.836 m, 1.79 m on the sheaves and 12 m of slack."""
    position = answer(golden_book()).position
    assert position is not None
    assert position.load == pytest.approx(560 + 1.45 * (4 * 0.836 + 1.79 + 12), abs=0.1)


def test_no_override_needed_where_the_low_position_is_still_in_the_weight_window() -> None:
    """Switch that trips at 0.6 m: the weight comes off at 1.35 m, the head goes no lower than 1.44 m."""
    position = answer(with_switch(golden_book(), trips=0.6)).position
    assert position is not None
    assert position.override is None


def test_no_permitted_position_on_file_is_unknown() -> None:
    """H22, crane overturned with nothing on the hook: the bare boom at a low angle is a load case of the manual."""
    book = replace(golden_book(), rereeve=())
    assert answer(book).verdict is Verdict.UNKNOWN
    assert refused(book).startswith("rereeve: no permitted position is on file")


def test_a_boom_length_that_no_row_permits_is_never_offered() -> None:
    """H22: 34.0 m would reach, but only what the manual lists is given."""
    book = golden_book()
    only_short = replace(book, rereeve=tuple(row for row in book.rereeve if row.length == 26.2))
    refused(only_short)


def test_a_row_whose_length_the_boom_does_not_have() -> None:
    book = golden_book()
    odd = replace(book, boom=replace(book.boom, lengths=tuple(b for b in book.boom.lengths if b.length < 30)))
    assert "boom.lengths: 33.40 m is not on file" in refused(odd)
    assert answer(odd).verdict is Verdict.UNKNOWN


def test_rope_mass_missing_is_unknown() -> None:
    book = golden_book()
    assert "rope.mass is not on file" in refused(replace(book, rope=replace(book.rope, mass=None)))
