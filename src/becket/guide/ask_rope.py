"""What is asked of rope, sheaves, dead end, new block and switch weight.

In:    one deed with the crane before it.
Out:   fields: what is read, and what it is compared with.
Never: a wanted number in a prompt.
"""

from __future__ import annotations

from becket.guide.asked import Ask, Asked, dead_end_places, seen, sheave_keys
from becket.guide.figures_said import up
from becket.guide.script import Field


def sheave_threaded(asked: Asked) -> tuple[Field, ...]:
    """Return the number of the sheave that the rope lies in now [-].

    Args:
        asked: the deed
    """
    place, _, number = asked.deed.of.partition(" ")
    way = "over" if place == "head" else "under"
    wrong = f"You entered {place} {{value}}. Step {asked.number} is {asked.deed.of}. Draw it back out, or enter again."
    return (_sheave(asked, int(number), f"Which {place} sheave is it {way}?", wrong),)


def sheave_drawn(asked: Asked) -> tuple[Field, ...]:
    """Return the number of the sheave that is bare now [-].

    Args:
        asked: the deed
    """
    place, _, number = asked.deed.of.partition(" ")
    wrong = f"You entered {place} {{value}}. Step {asked.number} is {asked.deed.of}. Look again, or enter again."
    return (_sheave(asked, int(number), f"Which {place} sheave is bare now?", wrong),)


def held(asked: Asked) -> tuple[Field, ...]:
    """Return what is held up by hand [-].

    Args:
        asked: the deed
    """
    fitting = asked.scene.book.dead_end.fitting or "fitting"
    choices = (f"{fitting} and pin", fitting, "rope alone")
    return (Field(name="held", kind="choice", prompt="What do you hold up by hand?", choices=choices),)


def sheaves_seen(asked: Asked) -> tuple[Field, ...]:
    """Return groove, flange and bearing of the bare sheaves, as looked at [-].

    Args:
        asked: the deed
    """
    return seen("Groove, flange, bearing of every bare sheave", ("rope print", "crack", "sticks or rattles"))


def end_seen(asked: Asked) -> tuple[Field, ...]:
    """Return the rope's end and its fitting, as looked at [-].

    Args:
        asked: the deed
    """
    return seen("Rope's end, wedge, socket", ("broken wires", "kink or crushed", "wedge or socket bad"))


def seated(asked: Asked) -> tuple[Field, ...]:
    """Return how the rope lies as it comes tight [-].

    Args:
        asked: the deed
    """
    return seen("Rope in every groove and on the drum", ("off a sheave", "on a flange or pin", "crossed on the drum"))


def place_and_tail(asked: Asked) -> tuple[Field, ...]:
    """Return where the dead end is made and how long its tail is [-].

    Args:
        asked: the deed
    """
    return (dead_end_place(asked), tail(asked))


def dead_end_place(asked: Asked) -> Field:
    """Return where the dead end is [-].

    Args:
        asked: the deed
    """
    return Field(
        name="place",
        kind="choice",
        prompt="Where is the dead end?",
        want=asked.scene.after.dead_end,
        choices=dead_end_places(asked.scene.book),
        wrong="You entered {value}. The pattern has it elsewhere. Look at the picture, make it anew.",
    )


def tail(asked: Asked) -> Field:
    """Return the tail of the rope beyond the fitting [mm].

    Args:
        asked: the deed
    """
    length = asked.scene.book.dead_end.tail
    least = up(1000 * length, 0) if length is not None else None
    return Field(
        name="tail",
        kind="number",
        unit="mm",
        prompt="Tail measured",
        least=least,
        wrong=f"You entered {{value}} mm. The book wants {least or 0:.0f} mm. Make the dead end anew.",
    )


def block_plate(asked: Asked) -> tuple[Field, ...]:
    """Return what the plate of the new block says: name, rating, mass [-].

    Args:
        asked: the deed
    """
    book, name = asked.scene.book, asked.scene.after.block
    block, tolerance = book.blocks[name], asked.scene.settings.plate_tolerance / 1000
    wrong = "You entered {value}. The book has this block otherwise. Look at the plate: is it the right one?"
    return (
        Field(
            name="block",
            kind="choice",
            prompt="Which block stands there?",
            want=name,
            choices=(*sorted(book.blocks), "another"),
            wrong=wrong,
        ),
        *(
            Field(
                name=key,
                kind="number",
                unit="t",
                prompt=prompt,
                want=round(mass / 1000, 3) if mass is not None else None,
                tolerance=tolerance if mass is not None else None,
                wrong=wrong,
            )
            for key, prompt, mass in (
                ("rated", "Rating on its plate", block.rated),
                ("mass", "Mass on its plate, ballast counted", block.mass),
            )
        ),
    )


def switch_line(asked: Asked) -> tuple[Field, ...]:
    """Return the rope that the switch weight hangs round [-].

    Args:
        asked: the deed
    """
    switch, want = asked.scene.book.switch, asked.scene.path.switch_weight_after
    lines = dict.fromkeys(line for line in (switch.weight_on_even, switch.weight_on_odd, want) if line)
    wrong = f"You entered {{value}}. On these falls it hangs round the {want}. Hang it there."
    return (
        Field(
            name="line",
            kind="choice",
            prompt="Which rope is the switch weight round?",
            want=want,
            choices=(*lines, "another rope"),
            wrong=wrong,
        ),
    )


def _sheave(asked: Asked, want: int, prompt: str, wrong: str) -> Field:
    place = asked.deed.of.partition(" ")[0]
    return Field(
        name="sheave",
        kind="sheave",
        prompt=prompt,
        want=want,
        place=place,
        sheaves=sheave_keys(asked.scene.book, place, asked.state.hanging),
        wrong=wrong,
    )


ASK_ROPE: dict[str, Ask] = {
    "hold_end": held,
    "draw_out": sheave_drawn,
    "look_sheaves": sheaves_seen,
    "see_sheaves": sheaves_seen,
    "look_end": end_seen,
    "exchange_block": block_plate,
    "thread": sheave_threaded,
    "make_dead_end": place_and_tail,
    "weight_on": switch_line,
    "seated": seated,
}
