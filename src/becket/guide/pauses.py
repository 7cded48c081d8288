"""The four pauses: lists that are read from the crane anew, before what cannot be taken back.

In:    a scene, the deeds in order, the crane before each.
Out:   where each pause stands, its questions.
Never: what a blind count wants, in words; a value carried over from a step.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from becket.guide.ask_boom import code, low_angle, touch_angle
from becket.guide.ask_hoist import limit_distance, wraps
from becket.guide.ask_rope import dead_end_place, tail
from becket.guide.ask_site import free_radius, wind
from becket.guide.asked import Asked
from becket.guide.script import Field
from becket.method.crane_state import Deed

SLACK_HANDS = ("slack_keeper_out", "hold_end", "dead_end_pin_out")


@dataclass(frozen=True, kw_only=True)
class Question:
    """One item of a pause."""

    do: str
    action: str
    field: Field
    who: str = "both"


@dataclass(frozen=True, kw_only=True)
class Pause:
    """One list. ``place``: at which of the deeds it stands, before it."""

    name: str
    place: Callable[[tuple[Deed, ...]], int]
    questions: Callable[[Asked], tuple[Question, ...]]


def _after_touch(deeds: tuple[Deed, ...]) -> int:
    """Index of what comes after the rigger is first called in: the crane is isolated, the ropes still tight."""
    touched = _first(deeds, ("read_touch",))
    return next(i for i in range(touched, len(deeds)) if deeds[i].kind == "call_in") + 1


def _before_slack_hands(deeds: tuple[Deed, ...]) -> int:
    return _first(deeds, SLACK_HANDS)


def _after_dead_end(deeds: tuple[Deed, ...]) -> int:
    return _first(deeds, ("make_dead_end",)) + 1


def _before_first_lift(deeds: tuple[Deed, ...]) -> int:
    return _first(deeds, ("first_lift",))


def _first(deeds: tuple[Deed, ...], kinds: tuple[str, ...]) -> int:
    return next(i for i, deed in enumerate(deeds) if deed.kind in kinds)


def before_slack(asked: Asked) -> tuple[Question, ...]:
    """Return the questions of pause 1 [-].

    Args:
        asked: the deed that comes next
    """
    settings, counterweight = asked.scene.settings, asked.position.counterweight / 1000
    people = Field(
        name="people",
        kind="count",
        prompt="People inside, the rigger not counted",
        want=0,
        wrong="You entered {value}. Everybody else out of the area first.",
    )
    weight = Field(
        name="counterweight",
        kind="number",
        unit="t",
        prompt="Counterweight on the crane",
        want=round(counterweight, 3),
        tolerance=settings.plate_tolerance / 1000,
        wrong=f"You entered {{value}} t. The position is for {counterweight:g} t. Boom up, stop.",
    )
    return (
        Question(do="Look round: who is inside the area?", action="Enter how many", field=people),
        Question(do="Read the counterweight.", action="Enter the tonnes read", field=weight),
        Question(do="Read the telescope code.", action="Enter the code read", field=code(asked), who="operator"),
        Question(do="Read the boom angle.", action="Enter the angle read", field=touch_angle(asked)[0], who="operator"),
        Question(do="Look for the second line's hook.", action="Enter where it is", field=_second_line(asked)),
        Question(do="Read the wind.", action="Enter the wind read", field=wind(asked), who="operator"),
        Question(do="Pace the free radius.", action="Enter what you paced", field=free_radius(asked), who="operator"),
    )


def before_slack_keeper(asked: Asked) -> tuple[Question, ...]:
    """Return the questions of pause 2 [-].

    Args:
        asked: the deed that comes next
    """
    time = Field(name="winch_locked", kind="time", prompt="Winch locked since")
    ground = Field(
        name="stands_on",
        kind="choice",
        prompt="The block stands on",
        choices=("firm ground", "a mat", "soft ground"),
        stops=("soft ground",),
        wrong="Soft ground: the block can tip. Nobody goes in before it stands firm.",
    )
    chocks = Field(
        name="chocks",
        kind="number",
        prompt="Chocks under the block",
        least=1,
        wrong="You entered {value}. Chock the block first.",
    )
    return (
        Question(do="Motion stopped. Read the boom angle.", action="Enter the angle read", field=low_angle(asked)[0]),
        Question(do="Look at the winch: locked, tagged.", action="Enter since when", field=time, who="operator"),
        Question(do="Look under the block.", action="Enter what it stands on", field=ground, who="rigger"),
        Question(do="Count the chocks.", action="Enter the chocks", field=chocks, who="rigger"),
        Question(
            do="Say who holds the rope's free end.",
            action="Enter the name",
            field=Field(name="end_held_by", kind="name", prompt="Free end held by"),
        ),
        Question(
            do="Say aloud: hands off the controls.",
            action="Enter who said it",
            field=Field(name="hands_off_by", kind="name", prompt="Hands off said by"),
        ),
    )


def before_closing(asked: Asked) -> tuple[Question, ...]:
    """Return the questions of pause 3 [-].

    Args:
        asked: the deed that comes next
    """
    state = asked.state
    keepers = _counted("keepers", "Keepers lying out", len(state.keepers_out))
    clips = _counted("clips", "Clips lying out", len(state.clips_out))
    sheaves = Field(
        name="sheaves",
        kind="number",
        prompt="Sheaves turned and looked at",
        least=len(asked.scene.path.thread),
        wrong="You entered {value}. Some were not looked at: look at every one that the rope runs over.",
    )
    marks = ("none", "light wear", "rope print", "sticks or rattles", "crack")
    worst = Field(
        name="worst",
        kind="choice",
        prompt="Worst mark seen on a sheave",
        choices=marks,
        stops=marks[2:],
        wrong="Such a sheave carries no rope. Stop the change, call a competent person.",
    )
    place = replace(dead_end_place(asked), prompt="Dead end is on")
    return (
        Question(do="Count the keepers in the box.", action="Enter the keepers", field=keepers, who="rigger"),
        Question(do="Count the clips in the box.", action="Enter the clips", field=clips, who="rigger"),
        Question(do="How many sheaves did you look at?", action="Enter how many", field=sheaves, who="rigger"),
        Question(do="What was the worst mark?", action="Enter the mark", field=worst, who="rigger"),
        Question(do="Look where the dead end is.", action="Enter the place", field=place, who="rigger"),
        Question(do="Measure the tail.", action="Enter the tail", field=tail(asked), who="rigger"),
        Question(do="Read the size off the wedge.", action="Enter the size", field=_wedge(asked), who="rigger"),
    )


def before_first_load(asked: Asked) -> tuple[Question, ...]:
    """Return the questions of pause 4 [-].

    Args:
        asked: the deed that comes next
    """
    where, turns = "Where did the limit stop the hook?", "Turns on the drum, hook lowest."
    return (
        *_falls_again(asked.scene.after.falls),
        *_override_again(),
        Question(do=where, action="Enter the metres", field=limit_distance(asked), who="operator"),
        Question(do=turns, action="Enter the turns", field=wraps(asked), who="operator"),
    )


def _falls_again(falls: int) -> tuple[Question, ...]:
    """Ropes and setting, each read by each; the words do not hold the number, not even after a wrong one."""
    wrong = "You entered {value}. Nobody lifts: count again, both, and read the indicator."

    def question(name: str, prompt: str, do: str, who: str) -> Question:
        field = Field(name=f"{name}_{who}", kind="falls", prompt=prompt, want=falls, wrong=wrong)
        return Question(do=do, action=f"Enter the {'ropes' if name == 'count' else 'setting'}", field=field, who=who)

    ropes, setting = "Ropes that carry the block", "Falls set on the indicator"
    return (
        question("count", ropes, "Count the ropes from the cab.", "operator"),
        question("count", ropes, "Count the ropes at the block.", "rigger"),
        question("setting", setting, "Read the falls set on the indicator.", "operator"),
        question("setting", setting, "Read the falls set on the indicator.", "rigger"),
    )


def _override_again() -> tuple[Question, ...]:
    override = Field(
        name="override",
        kind="choice",
        prompt="The override stands",
        want="off",
        choices=("off", "on"),
        wrong="You entered {value}. Turn it off before anything is lifted.",
    )
    key = Field(
        name="key",
        kind="choice",
        prompt="Its key is",
        choices=("with the operator", "locked away", "in its lock"),
        stops=("in its lock",),
        wrong="Take the key out before anything is lifted.",
    )
    return (
        Question(do="Look at the override.", action="Enter how it stands", field=override, who="operator"),
        Question(do="Where is the override's key?", action="Enter where", field=key, who="operator"),
    )


def _second_line(asked: Asked) -> Field:
    second = asked.scene.book.second_line
    has_one = second is None or bool(second.hangs)
    choices = ("no second line", "stowed", "tied back", "hangs free")
    return Field(
        name="second_line",
        kind="choice",
        prompt="The second line's hook",
        want=None if has_one else "no second line",
        choices=choices,
        stops=("hangs free", "no second line") if has_one else ("hangs free",),
        wrong="You entered {value}. Not as the book has it, or not stowed. Stow it, or mend the book.",
    )


def _counted(name: str, prompt: str, want: int) -> Field:
    wrong = "You entered {value}. Not as many as came out: look for them, count again."
    return Field(name=name, kind="count", prompt=prompt, want=want, wrong=wrong)


def _wedge(asked: Asked) -> Field:
    end, tolerance = asked.scene.book.dead_end, asked.scene.settings.wedge_tolerance
    want = round(1000 * end.rope_diameter, 1) if end.rope_diameter is not None else None
    said = f"The book has {want:g} mm. " if want is not None else ""
    return Field(
        name="wedge",
        kind="number",
        unit="mm",
        prompt="Rope size read off wedge and socket",
        want=want,
        tolerance=round(1000 * tolerance, 3) if want is not None else None,
        wrong=f"You entered {{value}} mm. {said}Not of this rope: do not use it.",
    )


PAUSES = (
    Pause(name="pause-1", place=_after_touch, questions=before_slack),
    Pause(name="pause-2", place=_before_slack_hands, questions=before_slack_keeper),
    Pause(name="pause-3", place=_after_dead_end, questions=before_closing),
    Pause(name="pause-4", place=_before_first_lift, questions=before_first_load),
)
