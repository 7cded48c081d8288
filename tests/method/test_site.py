"""What a site gives."""

from becket.method.site import Site, ground_at_head, to_ask


def test_figures_not_given_are_asked_not_judged() -> None:
    assert to_ask(Site()) == ("free radius", "ground", "slope")
    assert to_ask(Site(free_radius=30.0, ground=0.0, slope=0.0)) == ()


def test_level_ground_where_none_is_given() -> None:
    assert ground_at_head(Site()) == 0.0
    assert ground_at_head(Site(ground=0.3)) == 0.3
