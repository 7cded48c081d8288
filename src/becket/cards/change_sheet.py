"""The change sheet: the method on paper, for the day on which the phone is dead.

In:    a crane book, a change as worked out.
Out:   sheets: the steps for both, and what each person enters alone; the sheet as PDF.
Never: a count, or a box in which the second person reads the first one's count.
"""

from __future__ import annotations

from becket.book.crane import Book
from becket.book.tackle import State
from becket.cards.foot import foot_of, manual_of
from becket.cards.pictures import on_card
from becket.cards.qr import card_identity
from becket.cards.seals import joint_seal
from becket.cards.sheet import Sheet
from becket.cards.typesetting import typeset
from becket.drawing.side import draw_side
from becket.figures import said, shown, whole_minutes, window
from becket.limits.wording import falls_in_words
from becket.method.change import Change
from becket.method.step import Step
from becket.method.step_words import CAUTIONS
from becket.verdict import Verdict

NOT_FOR_USE = "NOT FOR USE"
ALONE = {"rigger": "RIGGER alone", "operator": "OPERATOR alone"}
HOW_ALONE = "Yours alone: fold it, show nobody, say no number, until a step says that both are shown."
SIDE_WIDTH = 82.0  # of the side view [mm]
_KEPT_WHOLE = (", to ", ", or ", ", and ")  # a comma that does not part two values


def change_sheet(book: Book, change: Change, *, printed: str, system: str = "metric") -> bytes:
    """Return the change sheet as PDF [-].

    Args:
        book: the crane
        change: as worked out
        printed: date, as 2026-11-30
        system: "metric" or "us"
    """
    sheets = change_sheets(book, change, printed=printed, system=system)
    return typeset(sheets, title=sheets[0].title, printed=printed)


def change_sheets(book: Book, change: Change, *, printed: str, system: str = "metric") -> tuple[Sheet, ...]:
    """Return the steps for both, then the own sheet of each person, before they are set in type [-].

    Args:
        book: the crane
        change: as worked out
        printed: date, as 2026-11-30
        system: "metric" or "us"
    """
    main = _main_sheet(book, change, printed, system)
    alone = [_own_sheet(book, change, who, printed, system) for who in ALONE]
    return (main, *(sheet for sheet in alone if sheet is not None))


def values_asked(step: Step) -> tuple[str, ...]:
    """Return the values that a step asks for, one box each [-].

    >>> values_asked(Step(number=1, who="rigger", phase="", do="", value_asked="keepers out, clips out"))
    ('keepers out', 'clips out')
    >>> values_asked(Step(number=1, who="rigger", phase="", do="", value_asked="degrees, to 0.1"))
    ('degrees, to 0.1',)
    """
    parts = [part.strip() for part in (step.value_asked or "").split(";")]
    boxes = [part if any(word in part for word in _KEPT_WHOLE) else part.split(", ") for part in parts if part]
    return tuple(box for one in boxes for box in ([one] if isinstance(one, str) else one))


def _main_sheet(book: Book, change: Change, printed: str, system: str) -> Sheet:
    words = change_in_words(change.before, change.after)
    pages = dict.fromkeys(p.page for p in (change.facts.before_pattern, change.facts.after_pattern) if p and p.page)
    if change.position and change.position.page:
        pages[change.position.page] = None
    cautions = ("A box left empty, or a value you did not expect: stop, write the time, call the other.",)
    data = {
        **_common(book, change, printed, cautions),
        "title": f"Change: {words}",
        "pages": "pages " + ", ".join(page for page in pages if page) if pages else "pages not on file",
        "reasons": [
            {"verdict": str(one.verdict), "name": one.name.replace("_", " "), "why": said(one.why, system)}
            for one in change.reasons
            if one.verdict is not Verdict.PASS
        ],
        "facts": _facts(change, system),
        "side": _side(book, change, system),
        "notes": _notes(change, system),
        "rows": _rows(change, system),
    }
    return Sheet(template="change", title=f"{book.crane}: change sheet, {words}", data=data)


def _own_sheet(book: Book, change: Change, who: str, printed: str, system: str) -> Sheet | None:
    rows = [_step(step, system) for step in change.steps if step.blind and step.who == who]
    if not rows:
        return None
    data = {**_common(book, change, printed, ()), "who": ALONE[who], "how": HOW_ALONE, "rows": rows}
    return Sheet(template="own", title=f"{book.crane}: change, own sheet of the {who}", data=data)


def _common(book: Book, change: Change, printed: str, cautions: tuple[str, ...]) -> dict[str, object]:
    patterns = (change.facts.before_pattern, change.facts.after_pattern)
    identity = card_identity("change", joint_seal(book, patterns), book.fingerprint)
    stopped = None if change.verdict is Verdict.PASS else f"{NOT_FOR_USE}: {change.verdict}"
    return {
        "manual": manual_of(book, None),
        "not_for_use": stopped,
        "unconfirmed": not change.is_confirmed,
        "foot": foot_of(book, identity, printed=printed, cautions=cautions),
    }


def change_in_words(before: State, after: State) -> str:
    """Return a change as the title of its sheet says it, as "main on 2 falls to main on 4 falls" [-].

    Args:
        before: what is rigged
        after: what is to be rigged
    """
    return " to ".join(f"{state.block} on {falls_in_words(state.falls)}" for state in (before, after))


def _facts(change: Change, system: str) -> list[dict[str, str]]:
    place, leave, run = change.position, change.rope_to_leave, change.simulation
    rows: list[tuple[str, str]] = []
    if place is not None:
        rows += [
            ("boom length", shown(place.length, "length", system)),
            ("code", place.code),
            ("over the", place.sector),
            ("counterweight", shown(place.counterweight, "mass", system)),
            ("outriggers", place.outriggers),
            ("boom down to", shown(place.angle, "angle", system)),
            ("head above the ground", shown(place.head_height, "length", system)),
            ("radius of the head", shown(place.radius, "length", system, "up")),
            ("clear room needed", shown(place.free_radius_needed, "length", system, "up")),
            ("wind, at most", "not on file" if place.wind is None else f"{place.wind:.1f} m/s"),
        ]
    if leave is not None and leave.target is not None:
        rows += [("boom while the hook is set", shown(leave.at_angle, "angle", system))]
        rows += [("hook under the head, shaft to shaft", shown(leave.target, "length", system, "up"))]
    if run is not None:
        reach = None if run.weight_window is None else window(*run.weight_window, "angle", system)
        rows += [
            ("block touches at", shown(run.touches_angle, "angle", system)),
            ("switch weight in reach at", reach or "?"),
            ("ropes tight at", shown(run.tight_angle, "angle", system)),
            ("block lifts off at", shown(run.lift_off_angle, "angle", system)),
        ]
    return [{"name": name, "value": value} for name, value in rows]


def _side(book: Book, change: Change, system: str) -> dict[str, object] | None:
    if change.position is None:
        return None
    return on_card(draw_side(book, change, system=system), SIDE_WIDTH)


def _notes(change: Change, system: str) -> list[str]:
    notes = []
    if change.position is None and change.why_no_position:
        notes.append(f"No position: {said(change.why_no_position, system)}")
    if change.asked:
        notes.append(f"Not given, ask and write before the first hold point: {', '.join(change.asked)}.")
    if change.minutes:
        basis = "the crew's own records" if change.minutes.from_records else "estimate"
        notes.append(f"Time: {whole_minutes(change.minutes.total)} ({basis}).")
    return [*notes, " ".join(CAUTIONS[1:])]


def _rows(change: Change, system: str) -> list[dict[str, object]]:
    rows: list[dict[str, object]] = []
    phase = None
    for step in change.steps:
        if step.phase != phase:
            phase = step.phase
            rows.append({"is_phase": True, "name": _phase_words(phase), "pause": is_pause(phase)})
        rows.append(_step(step, system))
    return rows


def is_pause(phase: str) -> bool:
    """Return whether a phase begins with the crane stopped and isolated: a hold point [-].

    >>> is_pause("H2 Switch weight"), is_pause("Before")
    (True, False)
    """
    return len(phase) > 1 and phase[0] == "H" and phase[1].isdigit()


def _phase_words(phase: str) -> str:
    return f"PAUSE {phase}" if is_pause(phase) else phase


def _step(step: Step, system: str) -> dict[str, object]:
    return {
        "is_phase": False,
        "number": step.number,
        "who": step.who,
        "do": said(step.do, system),
        "look_for": said(step.look_for, system) if step.look_for else None,
        "asked": list(values_asked(step)),
        "alone": step.blind,
    }
