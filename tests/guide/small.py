"""A change of sixteen screens, written by hand: small enough to be read beside a test.

In:    nothing.
Out:   a script with one pause, every way of comparing, keepers, override, limit.
Never: a figure of a real crane.
"""

from __future__ import annotations

from becket.guide.script import Field, Group, Item, Reeving, Script

MAIN_4 = Reeving(
    state="main:4",
    block="main",
    falls=4,
    head_sheaves=(3, 5),
    block_sheaves=(3, 5),
    dead_end="head b",
    is_confirmed=True,
)
ANGLE = Field(
    name="angle",
    kind="number",
    prompt="The boom angle",
    unit="deg",
    want=20.0,
    tolerance=0.3,
    wrong="You entered {value} deg. Stop.",
)
SHEAVES = (1, 2, 3, 4, 5)
FOUND = {"keepers_out": 2, "last_sheave": "head 3", "block": "on the ground"}


def _item(name: str, who: str, fields: tuple[Field, ...], group: str | None = None, **other: object) -> Item:
    facts: dict[str, object] = {
        "number": None,
        "part": "steps",
        "phase": "Work",
        "other": "hands off",
        "look_for": None,
        "action": "Enter what you read",
        "blind": group is not None,
        **other,
    }
    return Item(id=name, who=who, do=f"Do {name}.", fields=fields, group=group, **facts)  # type: ignore[arg-type]


def _count(name: str, want: int | None = None) -> Field:
    return Field(name=name, kind="count", prompt=name.replace("_", " ").capitalize(), want=want)


def _choice(name: str, want: str | None, *choices: str, stops: tuple[str, ...] = ()) -> Field:
    return Field(name=name, kind="choice", prompt=name.capitalize(), want=want, choices=choices, stops=stops)


def small_change() -> Script:
    """Return the script [-]."""
    pads = {"kind": "sheaves", "prompt": "Sheaves with rope", "sheaves": SHEAVES}
    setting = (
        Field(name="falls", kind="falls", prompt="Falls set on the indicator", want=4),
        _choice("block", "main", "main", "ball"),
    )
    off = (_choice("override", "off", "off", "on"),)
    keepers_in = (_count("keepers_in", 2), _count("clips_in", 2))
    items = (
        _item("a1", "both", ()),
        _item("a2", "operator", (ANGLE,), resume=FOUND),
        _item("p1", "both", (_count("people", 0),), part="pause-1", resume=FOUND),
        _item("p2", "operator", (Field(name="time", kind="time", prompt="Since"),), part="pause-1", resume=FOUND),
        _item(
            "p3", "rigger", (_choice("ground", None, "firm", "soft", stops=("soft",)),), part="pause-1", resume=FOUND
        ),
        _item("k1", "rigger", (_count("keepers_out", 2), _count("clips_out", 2)), "out", resume=FOUND),
        _item(
            "a3",
            "rigger",
            (Field(name="sheave", kind="sheave", prompt="Sheave", want=3, sheaves=SHEAVES),),
            resume=FOUND,
        ),
        _item(
            "f1",
            "operator",
            (Field(name="sheaves", **pads), _choice("ends_on", None, "head", "block")),  # type: ignore[arg-type]
            "falls",
            resume=FOUND,
        ),
        _item(
            "f2",
            "rigger",
            (
                Field(name="ropes", kind="falls", prompt="Ropes"),
                Field(name="block_sheaves", **pads),  # type: ignore[arg-type]
            ),
            "falls",
            resume=FOUND,
        ),
        _item("k2", "rigger", keepers_in, "in", resume=FOUND),
        _item("k3", "operator", keepers_in, "in"),
        _item("i1", "operator", setting, "indicator", by_lot=True),
        _item("i2", "rigger", setting, "indicator"),
        _item("o1", "operator", off, "override"),
        _item("o2", "rigger", off, "override"),
        _item(
            "t1",
            "operator",
            (
                _choice("stopped", None, "every one stopped", "not every one", stops=("not every one",)),
                Field(name="distance", kind="number", prompt="Where", unit="m", least=0.5, most=2.0),
            ),
        ),
    )
    compare = {"falls": "falls", "indicator": "indicator"}
    names = dict.fromkeys(item.group for item in items if item.group)
    return Script(
        kind="change",
        crane="hazel-70",
        crane_name="Hazel 70",
        manual="Invented manual",
        issue=None,
        book="f" * 16,
        before="main:2",
        after="main:4",
        minutes=None,
        facts=(),
        warnings=(),
        expects=(MAIN_4,),
        keepers_out=2,
        clips_out=2,
        items=items,
        groups=tuple(
            Group(
                name=name,
                compare=compare.get(name, "equal"),
                items=tuple(item.id for item in items if item.group == name),
                label=name.capitalize(),
            )
            for name in names
        ),
        pictures={},
    )
