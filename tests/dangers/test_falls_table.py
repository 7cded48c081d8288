"""Ways to a wrong pass in the falls table: make the wrong input, expect fail or unknown."""

from __future__ import annotations

from dataclasses import replace
from math import inf, radians

import pytest

from becket.book.boom import Anchor
from becket.book.charts import Stowed
from becket.book.hoist import SecondLine
from becket.book.tackle import Pass
from becket.limits.registry import LIMITS, OTHER_RULE_BOOKS
from becket.verdict import worst
from tests.crane import CHART, invented_book, invented_lift, invented_settings, sealed
from tests.dangers.asking import FAIL, PASS, UNKNOWN, block_with, book_with, limit, row, table


def test_the_invented_crane_passes_before_anything_is_wrong() -> None:
    assert table().recommended == 3
    assert all(one.verdict is PASS for one in row().limits)


def test_unknown_counted_as_pass() -> None:
    with pytest.raises(TypeError):
        bool(UNKNOWN)
    assert worst([PASS, UNKNOWN, PASS]) is UNKNOWN
    answer = table(book_with("rope", torque_factor=None))
    assert limit("twist", book_with("rope", torque_factor=None)).verdict is UNKNOWN
    assert answer.recommended is None
    assert answer.unproven is not None


def test_wrong_place_of_the_lift_overhaul_at_the_highest_hook() -> None:
    """A low hook has long falls, which pull the block down: only the highest hook shows a block that is too light."""
    shallow = limit("overhaul", lift=invented_lift(bottom=4.0))
    deep = limit("overhaul", lift=invented_lift(bottom=-40.0))
    assert deep.need == pytest.approx(shallow.need)
    assert shallow.need is not None
    needs_more = limit("overhaul", lift=invented_lift(radius=(3.0, 7.0))).need
    assert needs_more is not None
    assert needs_more > shallow.need


def test_wrong_place_of_the_lift_rope_at_the_lowest_hook() -> None:
    assert limit("rope_length", lift=invented_lift(bottom=-25.0)).verdict is FAIL
    assert limit("wraps", lift=invented_lift(bottom=-25.0)).verdict is FAIL
    assert limit("twist", lift=invented_lift(bottom=-80.0)).verdict is not PASS


def test_wrong_place_of_the_lift_head_clearance_at_the_highest_hook() -> None:
    assert limit("head_clearance", lift=invented_lift(top=16.0)).verdict is FAIL
    assert limit("fleet_angle", lift=invented_lift(top=17.5)).verdict is FAIL


def test_wrong_place_of_the_lift_one_radius() -> None:
    """Either end of a range of radii can be the bad one: the far end for the chart, the near end for the angle."""
    assert limit("chart", lift=invented_lift(radius=(5.0, 5.0))).verdict is PASS
    assert limit("chart", lift=invented_lift(radius=(5.0, 11.9))).verdict is FAIL
    assert limit("rope_strength", lift=invented_lift(radius=(0.5, 7.0))).verdict is FAIL
    flat = limit("head_clearance", lift=invented_lift(radius=(5.0, 12.0), top=11.5))
    assert (flat.verdict, limit("head_clearance", lift=invented_lift(radius=(5.0, 5.0), top=11.5)).verdict) == (
        FAIL,
        PASS,
    )


def test_pull_of_layer_1_on_layer_4() -> None:
    """24 kN at the drum: layer 1 permits 44 kN; layer 4, which the rope is on at this hook, 20 kN."""
    book = book_with("winch", pull=(44000.0, 41000.0, 38000.0, 20000.0, 20000.0))
    pull = limit("lead_line_pull", book)
    assert pull.verdict is FAIL
    assert pull.need is not None
    assert pull.need < 44000.0


def test_table_instead_of_pull() -> None:
    """The maker's table, printed for layer 1, permits what the pull of the layer in use does not."""
    book = book_with("winch", pull=(44000.0, 41000.0, 38000.0, 20000.0, 20000.0))
    assert limit("makers_table", book).verdict is PASS
    assert row(book).verdict is FAIL


def test_layer_whose_pull_is_not_printed() -> None:
    book = book_with("winch", pull=(44000.0, 41000.0))
    assert limit("lead_line_pull", book).verdict is UNKNOWN


def test_chart_of_another_counterweight_outriggers_or_sector() -> None:
    assert limit("chart", lift=invented_lift(counterweight=0.0)).verdict is FAIL
    assert limit("chart", lift=invented_lift(outriggers="half")).verdict is FAIL
    rear = invented_lift(chart="full outriggers, 7 t, rear")
    assert limit("chart", lift=replace(rear, sector="side")).verdict is FAIL
    assert limit("chart", lift=replace(rear, sector=None)).verdict is UNKNOWN
    assert limit("chart", lift=replace(rear, sector="rear")).verdict is PASS
    assert limit("chart", lift=invented_lift(chart=None)).verdict is UNKNOWN
    assert limit("chart", lift=invented_lift(chart="a chart that nobody typed")).verdict is not PASS


def test_chart_of_another_telescoping_code() -> None:
    """Same length, another code: each section out between those of the rows, or no figure."""
    book = invented_book()
    other = replace(book.boom.lengths[1], code="0-100-0", sections=(0.0, 100.0, 0.0))
    boom = replace(book.boom, lengths=(book.boom.lengths[0], other, *book.boom.lengths[2:]))
    assert limit("chart", replace(book, boom=boom)).verdict is FAIL
    both = replace(book.boom, lengths=(*book.boom.lengths, other))
    assert limit("chart", replace(book, boom=both)).verdict is UNKNOWN
    assert limit("chart", replace(book, boom=both), invented_lift(code="100-0-0")).verdict is PASS
    assert limit("chart", replace(book, boom=both), invented_lift(code="0-100-0")).verdict is FAIL


def test_code_that_is_not_the_one_of_the_boom_length() -> None:
    assert limit("chart", lift=invented_lift(code="100-100-0")).verdict is not PASS
    assert limit("chart", lift=invented_lift(code="7-7-7")).verdict is not PASS


def test_longer_boom_reading() -> None:
    """30.8 m lies between the rows of 24.2 m and 31.4 m: at 12 m the smaller of 6.1 t and 5.5 t counts."""
    between = limit("chart", lift=invented_lift(boom=30.8, radius=(10.0, 12.0), load=4000.0))
    assert between.have == pytest.approx(5500.0)
    low_neighbour = replace(
        invented_book(),
        charts=tuple(
            replace(c, rows=tuple(replace(r, rated={12.0: 3000.0}) if r.length == 24.2 else r for r in c.rows))
            for c in invented_book().charts
        ),
    )
    assert limit(
        "chart", low_neighbour, invented_lift(boom=30.8, radius=(10.0, 12.0), load=4000.0)
    ).have == pytest.approx(3000.0)


def test_blank_bridged() -> None:
    """Between printed radii the longer one counts, beyond the last there is nothing."""
    assert limit("chart", lift=invented_lift(radius=(5.0, 7.01))).have == pytest.approx(9200.0)
    assert limit("chart", lift=invented_lift(radius=(5.0, 12.01), load=100.0)).verdict is FAIL
    assert limit("chart", lift=invented_lift(boom=9.8, radius=(4.0, 5.0), load=100.0)).verdict is FAIL


def test_stowed_parts() -> None:
    heavy = Stowed(name="swing-away", deduct={17.0: 4000.0})
    assert limit("chart", invented_book(stowed=(heavy,))).verdict is FAIL
    assert limit("chart", invented_book(stowed=None)).verdict is UNKNOWN
    assert limit("makers_table", invented_book(stowed=(replace(heavy, deduct={17.0: 9000.0}),))).verdict is FAIL


def test_stowed_part_without_a_deduction_for_this_boom_length() -> None:
    """A part's deduction depends on the boom length; that of another length says nothing about this one."""
    part = Stowed(name="swing-away", deduct={9.8: 900.0, 24.2: 100.0})
    assert limit("chart", invented_book(stowed=(part,))).verdict is UNKNOWN
    assert table(invented_book(stowed=(part,))).recommended is None


def test_second_line() -> None:
    assert limit("chart", invented_book(second_line=SecondLine(hangs="ball", mass=4000.0))).verdict is FAIL
    assert limit("chart", invented_book(second_line=None)).verdict is UNKNOWN


def test_friction_of_another_family() -> None:
    """1.09 against 1.04 a sheave: the same crane, the same lift, another answer. Missing is no default."""
    roller, plain = (limit("lead_line_pull", invented_book(sheave_efficiency=1 / k), falls=6) for k in (1.04, 1.09))
    assert roller.need is not None
    assert plain.need is not None
    assert plain.need > 1.1 * roller.need
    nothing = invented_book(sheave_efficiency=None)
    for name in ("lead_line_pull", "rope_strength", "dead_end", "overhaul", "tilt"):
        assert limit(name, nothing).verdict is UNKNOWN, name
    assert limit("lead_line_pull", book_with("winch", guide_sheaves=None)).verdict is UNKNOWN


def test_breaking_force_estimated_for_compacted_rope() -> None:
    estimated = book_with("rope", breaking_force=None, grade=1960.0)
    for name in ("lead_line_pull", "rope_strength", "dead_end"):
        assert limit(name, estimated).verdict is not PASS, name
    six_strand = book_with("rope", breaking_force=None, grade=1960.0, construction="6x36")
    assert limit("rope_strength", six_strand).verdict is not PASS


def test_falls_counted_as_needed_on_an_estimate() -> None:
    """Three falls fail on a guessed breaking force alone: the rope of the fourth still counts as beyond need."""
    weak = book_with("rope", breaking_force=None, grade=1960.0, construction="18x7-IWRC", design_factor=9.5)
    known = book_with("rope", design_factor=9.5, breaking_force=400000.0)
    guess = limit("lead_line_pull", weak, falls=3)
    assert guess.verdict is FAIL
    assert guess.use is not None
    assert limit("lead_line_pull", known, falls=3).verdict is PASS
    beyond, also = limit("chart", weak, falls=4).need, limit("chart", known, falls=4).need
    assert beyond is not None
    assert also is not None
    assert beyond == pytest.approx(also)
    assert beyond > 9200.0  # 8,500 + 200 + 480 and one fall of rope


def test_old_length_of_the_rope() -> None:
    assert limit("rope_length", book_with("rope", length=90.0)).verdict is FAIL
    assert limit("rope_length", book_with("rope", length=None)).verdict is UNKNOWN
    assert "2025-02-01" in limit("rope_length").why


def test_rope_that_was_found_worn() -> None:
    """The nominal breaking force is not that of a worn rope: neither rope nor dead end passes, the day is named."""
    worn = book_with("rope", found_worn="2026-11-02")
    for name in ("rope_strength", "dead_end"):
        assert limit(name, worn).verdict is UNKNOWN
        assert "2026-11-02 (rope.found_worn)" in limit(name, worn).why
    assert table(worn).recommended is None
    assert limit("rope_strength", worn, lift=invented_lift(radius=(0.5, 7.0))).verdict is FAIL


def test_dead_end_forgotten() -> None:
    book = book_with("dead_end", efficiency=0.3)
    assert limit("rope_strength", book).verdict is PASS
    assert limit("dead_end", book).verdict is FAIL
    assert limit("dead_end", book_with("dead_end", efficiency=None)).verdict is UNKNOWN


def test_block_groove_or_socket_of_another_rope() -> None:
    assert limit("groove", block_with(rope_diameter=0.018)).verdict is FAIL
    assert limit("groove", book_with("head", rope_diameter=0.015)).verdict is FAIL
    assert limit("groove", book_with("dead_end", rope_diameter=0.018)).verdict is FAIL
    assert limit("groove", book_with("rope", diameter=0.0159)).verdict is FAIL
    assert limit("groove", book_with("dead_end", rope_diameter=None)).verdict is UNKNOWN


def test_falls_table_read_across_a_number_that_is_not_printed() -> None:
    printed = invented_book().falls_table
    assert printed is not None
    without = replace(printed, loads={n: m for n, m in printed.loads.items() if n != 4})
    assert limit("makers_table", invented_book(falls_table=without)).verdict is FAIL
    assert limit("makers_table", invented_book(falls_table=None)).verdict is UNKNOWN
    assert limit("makers_table", invented_book(falls_table=replace(printed, printed=False, loads={}))).verdict is PASS


def test_chart_or_table_that_does_not_say_what_it_counts() -> None:
    """Everything that hangs is compared with it, rope in the falls included."""
    silent = tuple(replace(c, counts=None) for c in invented_book().charts)
    said, unsaid = limit("chart"), limit("chart", invented_book(charts=silent))
    assert said.need is not None
    assert unsaid.need is not None
    assert unsaid.need > said.need


def test_confirmation_stale() -> None:
    book = invented_book()
    moved = replace(book, head=replace(book.head, sheaves={**book.head.sheaves, 2: -0.160}))
    assert limit("pattern", moved).verdict is UNKNOWN
    page = replace(book, patterns=tuple(replace(p, page="5-99") for p in book.patterns))
    assert limit("pattern", page).verdict is UNKNOWN
    anchors = {**book.head.anchors, "b": Anchor(side=0.22, along=-0.09, below=0.10)}
    assert limit("pattern", replace(book, head=replace(book.head, anchors=anchors))).verdict is UNKNOWN
    assert limit("pattern", replace(book, patterns=())).verdict is UNKNOWN


def test_confirmation_by_the_typist() -> None:
    book = invented_book()
    for name in ("AB", "ab", " AB "):
        own = tuple(replace(p, confirmed=replace(p.confirmed, by=name)) if p.confirmed else p for p in book.patterns)
        assert limit("pattern", replace(book, patterns=own)).verdict is UNKNOWN, name


def test_confirmed_pattern_with_a_slip_of_the_pen() -> None:
    """Confirmed or not, a path with a sheave twice or a dead end at the wrong side is no pattern."""
    book = invented_book()
    main = next(p for p in book.patterns if p.block == "main" and p.falls == 4)
    twice = replace(main, path=(*main.path[:2], main.path[0], main.path[3]))
    wrong_side = replace(main, dead_end="block")
    short = replace(main, path=main.path[:2])
    swapped = replace(main, path=(Pass(place="block", sheave=2), Pass(place="head", sheave=2), *main.path[2:]))
    for slip in (twice, wrong_side, short, swapped):
        changed = sealed(replace(book, patterns=tuple(slip if p is main else p for p in book.patterns)))
        assert limit("pattern", changed).verdict is FAIL, slip


def test_falls_that_rub() -> None:
    """Block sheaves passed in the wrong order: falls cross on one face, however well it was confirmed."""
    book = invented_book()
    main = next(p for p in book.patterns if p.block == "main" and p.falls == 4)
    words = ["head 2", "block 4", "head 4", "block 2"]
    path = tuple(Pass(place=w.split()[0], sheave=int(w.split()[1])) for w in words)
    crossed = sealed(replace(book, patterns=tuple(replace(p, path=path) if p is main else p for p in book.patterns)))
    assert limit("pattern", crossed).verdict is FAIL


def test_twist_with_a_guessed_anchor_or_torque_factor() -> None:
    book = invented_book()
    anchors = {name: replace(a, along=None) for name, a in book.head.anchors.items()}
    assert limit("twist", sealed(replace(book, head=replace(book.head, anchors=anchors)))).verdict is UNKNOWN
    assert limit("twist", book_with("rope", torque_factor=None)).verdict is UNKNOWN
    assert limit("twist", book_with("head", lead=None)).verdict is UNKNOWN
    assert limit("twist", book_with("rope", torque_factor=0.09), invented_lift(bottom=-30.0)).verdict is FAIL


def test_rope_with_turns_stored_in_it() -> None:
    """The formula has no turns in it that are stored in the rope: seen turning, no number of falls passes."""
    turning = book_with("rope", seen_turning="2026-11-02")
    assert limit("twist", turning).verdict is UNKNOWN
    assert "2026-11-02 (rope.seen_turning)" in limit("twist", turning).why
    assert limit("twist", turning, block="ball", falls=1).verdict is UNKNOWN
    assert table(turning).recommended is None
    greatest = book_with("rope", torque_factor=0.09, seen_turning="2026-11-02")
    assert limit("twist", greatest, invented_lift(bottom=-30.0)).verdict is FAIL


def test_one_fall_turns_freely() -> None:
    assert limit("twist", block="ball", falls=1).verdict is PASS
    assert limit("twist", book_with("rope", rotation_resistant=False), block="ball", falls=1).verdict is not PASS
    assert limit("twist", book_with("rope", swivel=None), block="ball", falls=1).verdict is not PASS
    assert limit("twist", block_with("ball", swivel=None), block="ball", falls=1).verdict is not PASS


def test_tilt_of_the_empty_block() -> None:
    """An empty block whose mass lies close under its sheaves hangs askew where the loaded one hangs straight."""
    assert limit("tilt", block_with(mass_centre=0.02)).verdict is not PASS
    assert limit("tilt").verdict is PASS
    assert limit("tilt", block_with(mass_centre=None)).verdict is UNKNOWN


def test_sag_left_out_of_the_head_clearance() -> None:
    """The straight boom clears by a hand; the boom as it hangs does not."""
    straight = limit("head_clearance", book_with("boom", sag={17.0: 0.0}), invented_lift(top=12.9))
    assert straight.verdict is PASS
    assert straight.have is not None
    assert straight.need is not None
    spare = straight.have - straight.need
    sagging = book_with("boom", sag={17.0: spare + 0.01})
    assert limit("head_clearance", sagging, invented_lift(top=12.9)).verdict is FAIL
    assert limit("head_clearance", book_with("boom", sag=None)).verdict is UNKNOWN
    assert limit("head_clearance", book_with("switch", trips=None)).verdict is UNKNOWN
    assert limit("head_clearance", book_with("switch", margin=None)).verdict is UNKNOWN


def test_sag_of_another_boom_length() -> None:
    other = book_with("boom", sag={9.8: 0.01, 31.4: 0.24})
    assert limit("head_clearance", other).verdict is UNKNOWN


def test_block_above_the_head() -> None:
    above = invented_lift(top=40.0)
    assert limit("head_clearance", lift=above).verdict is FAIL
    assert limit("fleet_angle", lift=above).verdict is FAIL
    assert row(lift=above).verdict is FAIL


def test_boom_steeper_or_flatter_than_permitted() -> None:
    for radius in ((0.5, 1.0), (15.0, 15.79), (16.5, 16.5)):
        answer = table(lift=invented_lift(radius=radius, load=100.0, rigging=0.0))
        assert answer.recommended is None, radius
        assert answer.unproven is None, radius


def test_sector_whose_lowest_angle_is_not_on_file() -> None:
    book = book_with("boom", lowest={"side": radians(-1)})
    rows = table(book, invented_lift(sector="rear"))
    assert rows.recommended is None
    chart = tuple(replace(c, counts=replace(c.counts, rope="no")) if c.counts else c for c in book.charts)
    silent = replace(book, charts=chart)
    assert limit("chart", silent, invented_lift(sector="rear")).verdict is not PASS
    assert limit("chart", silent, invented_lift(sector="rear", radius=(0.4, 0.5))).verdict is not PASS


def test_line_pull_without_a_pattern_on_file() -> None:
    """The layer depends on the rope out, the rope out on where it ends: no pattern, no pass."""
    for name in ("lead_line_pull", "rope_length", "wraps", "twist", "fleet_angle", "tilt", "pattern"):
        assert limit(name, invented_book(patterns=())).verdict is UNKNOWN, name


def test_block_too_light_to_come_down() -> None:
    assert limit("overhaul", block_with(mass=60.0)).verdict is FAIL
    just = limit("overhaul").need
    assert just is not None
    margin = invented_settings().overhaul_margin
    assert limit("overhaul", block_with(mass=just / margin * 1.1)).verdict is UNKNOWN
    assert limit("overhaul", book_with("winch", drag=None)).verdict is UNKNOWN


def test_97_percent_of_the_chart_with_an_estimated_load() -> None:
    """12,500 kg are permitted: weighed it passes, estimated it grows by a tenth, without a basis nobody knows."""
    load = 12500.0 * 0.97 - 200.0 - 480.0 - 100.0
    weighed = invented_lift(load=load)
    assert limit("chart", lift=weighed).verdict is PASS
    assert limit("chart", lift=replace(weighed, load_basis="estimate")).verdict is not PASS
    assert limit("chart", lift=replace(weighed, load_basis=None)).verdict is UNKNOWN
    light = limit("chart", lift=replace(weighed, load=load * 0.85, load_basis="estimate"))
    assert light.verdict is UNKNOWN
    assert light.use is not None
    assert 0.9 < light.use <= 1


def test_gust_side_pull_two_cranes_persons() -> None:
    """Lifts of another rule book get no main-boom figures at all."""
    for kind in OTHER_RULE_BOOKS:
        answer = table(lift=invented_lift(kind=kind))
        assert answer.recommended is None
        for one in answer.rows:
            assert [x.verdict for x in one.limits] == [UNKNOWN] * len(LIMITS)
            assert all(x.use is None and x.have is None and x.need is None for x in one.limits)


def test_figure_of_the_lift_left_out() -> None:
    """No load, no rigging, no hook heights, no radius: nothing is put in their place."""
    for name in ("load", "rigging", "boom", "radius", "top", "bottom"):
        assert table(lift=invented_lift(**{name: None})).recommended is None, name


def test_permitted_pull_without_limit() -> None:
    """A pull that nothing bounds is no figure; the rope still is."""
    book = book_with("winch", pull=(inf, inf, inf, inf, inf))
    assert limit("lead_line_pull", book, invented_lift(load=30000.0), falls=2).verdict is FAIL


def test_chart_that_does_not_exist_for_the_boom() -> None:
    assert limit("chart", lift=invented_lift(chart=CHART, boom=9.8, radius=(3.0, 4.0), load=100.0)).verdict is FAIL
