"""What happened in a run besides its entries, and all of it by time.

In:    what a record is told from.
Out:   sections: differences, stops, notes, what came after the close; what each person saw and entered.
Never: a hidden value; a note that changes anything.
"""

from __future__ import annotations

from collections.abc import Mapping

from becket.cards.record_told import Line, Section
from becket.guide.event import order_of
from becket.guide.run import fold_run
from becket.web.present.planned import mark_words
from becket.web.present.record_counts import rounds_of
from becket.web.present.record_kept import KeptLike, RunKept, joined
from becket.web.present.record_times import item_name
from becket.web.present.record_values import said_values, values_of

BROKEN_OFF = ("interrupted", "stopped", "resumed", "went_on_from_paper")
RESUME_KEYS = ("keepers_out", "last_sheave", "block")


def tell_differences(run: RunKept) -> Section:
    """Return where two counts differed, what was done about it, and how it ended [-].

    Args:
        run: what the record is told from
    """
    lines: list[Line] = []
    for one in rounds_of(run):
        if one.compared is None or one.compared.agreed:
            continue
        label = run.word("record.round", label=one.group.label, round=one.number)
        after = [r for r in rounds_of(run) if r.group == one.group and r.number > one.number and r.compared]
        last = after[-1] if after else None
        ended = last is not None and last.compared is not None and last.compared.agreed
        how = run.word("record.ended_agreed", round=last.number) if last and ended else None
        why = one.compared.why or run.word("record.round_differs_bare")
        lines.append(Line(label=label, value=why, below=(how or run.word("record.not_ended"),)))
    for kept in run.of_kind("count_again", "followed_by_hand"):
        lines.append(Line(label=run.word(f"record.kind.{kept.event.kind}"), value="", below=(run.said_by(kept),)))
    says = () if lines else (run.word("record.differences_none"),)
    title = run.word("record.differences")
    return Section(name="differences", title=title, says=says, lines=tuple(lines), is_empty=not lines)


def tell_stops(run: RunKept) -> Section:
    """Return where the work was broken off and taken up again [-].

    Args:
        run: what the record is told from
    """
    lines = []
    for kept in run.of_kind(*BROKEN_OFF):
        lines.append(
            Line(
                label=run.word(f"record.kind.{kept.event.kind}"),
                value=said_entered(run, kept),
                below=(*_found_on_return(run, kept), run.said_by(kept)),
            )
        )
    says = () if lines else (run.word("record.stops_none"),)
    return Section(name="stops", title=run.word("record.stops"), says=says, lines=tuple(lines), is_empty=not lines)


def _found_on_return(run: RunKept, kept: KeptLike) -> tuple[str, ...]:
    """Return what was not as kept, as the person on coming back was told it."""
    if kept.event.kind != "resumed":
        return ()
    upto = [one.event for one in run.kept if order_of(one.event) <= order_of(kept.event)]
    resume = fold_run(run.script, upto).resume
    return resume.why if resume is not None and resume.differs else ()


def tell_notes(run: RunKept) -> tuple[Section, ...]:
    """Return the notes, then what came after the close or out of turn and changes nothing [-].

    Args:
        run: what the record is told from
    """
    notes = tuple(
        Line(label=str(kept.event.entered.get("text") or kept.event.entered.get("note") or ""), value="", below=below)
        for kept in run.of_kind("noted")
        for below in [_note_below(run, kept)]
    )
    says = () if notes else (run.word("record.notes_none"),)
    sections = [Section(name="notes", title=run.word("record.notes"), says=says, lines=notes, is_empty=not notes)]
    for name in ("late", "out_of_turn"):
        keys = set(run.state.late if name == "late" else run.state.out_of_turn)
        found = tuple(_told(run, kept) for kept in run.kept if kept.event.key in keys)
        if found:
            title = run.word(f"record.{name}")
            sections.append(Section(name=name, title=title, says=(run.word(f"record.{name}_says"),), lines=found))
    return tuple(sections)


def tell_all(run: RunKept) -> Section:
    """Return every event by time: what was on the screen and what was entered [-].

    Args:
        run: what the record is told from
    """
    lines = tuple(_told(run, kept) for kept in run.kept)
    says = (run.word("record.all_says"),)
    return Section(name="all", title=run.word("record.all", count=len(lines)), says=says, lines=lines, is_long=True)


def said_entered(run: RunKept, kept: KeptLike) -> str:
    """Return what was entered, in words; hidden where nobody may see it yet [-].

    Args:
        run: what the record is told from
        kept: the event
    """
    event = kept.event
    if event.key in run.sealed or event.entered.get("sealed"):
        return run.word("record.hidden")
    if event.kind == "signed":
        return run.word("record.signed_values", count=len(values_of(event)))
    if event.kind == "entered":
        item = run.items.get(str(event.entered.get("item")))
        return "; ".join(f"{value.asked}: {value.said}" for value in said_values(item, values_of(event)))
    entered = {name: value for name, value in event.entered.items() if name != "script"}
    if event.kind == "run_started":
        entered = {name: value for name, value in entered.items() if name in ("before", "after", "why", "lot", "book")}
        if entered.get("why"):
            entered["why"] = mark_words(str(entered["why"]), run.word)
    if event.kind == "photo_taken":
        entered = {name: value for name, value in entered.items() if value not in (None, "")}
    if "item" in entered:
        entered["item"] = item_name(run, str(entered["item"]))
    return "; ".join(f"{value.asked}: {value.said}" for value in said_values(None, entered))


def _told(run: RunKept, kept: KeptLike) -> Line:
    event = kept.event
    name = event.entered.get("item")
    kind = run.word(f"record.kind.{event.kind}")
    label = joined((f"{kept.number}", kind, item_name(run, str(name)) if name and event.kind == "entered" else ""))
    below = (run.said_by(kept), _shown(run, event.shown), said_proof(run, event.shown))
    return Line(label=label, value=said_entered(run, kept), below=tuple(one for one in below if one))


def _shown(run: RunKept, shown: Mapping[str, object]) -> str:
    parts = []
    item = run.items.get(str(shown.get("item")))
    text = shown.get("text")
    if isinstance(text, str) and text.strip():
        parts.append(text.strip().rstrip("."))
    elif item is not None:
        asked = " / ".join(field.prompt for field in item.fields)
        parts.append(asked.rstrip(".") if item.blind and asked else item.do.rstrip("."))
    screen = shown.get("screen")
    if isinstance(screen, str) and screen:
        parts.append(run.word("record.screen", screen=screen))
    return run.word("record.saw", text="; ".join(parts)) if parts else ""


def said_proof(run: RunKept, shown: Mapping[str, object]) -> str:
    """Return how the person showed who it is; nothing where the screen asked for no proof [-].

    Args:
        run: for its words
        shown: what was on the screen
    """
    proof = shown.get("proof")
    if not proof:
        return ""
    return run.word("record.proof", proof=str(proof))


def _note_below(run: RunKept, kept: KeptLike) -> tuple[str, ...]:
    about = kept.event.entered.get("about")
    if not about:
        return (run.said_by(kept),)
    number = next((str(one.number) for one in run.kept if one.event.key == about), str(about))
    return (run.said_by(kept), run.word("record.note_about", number=number))
