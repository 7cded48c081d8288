"""What is asked of hoist limit switch, drum, block off the ground and first lift.

In:    one deed with the crane before it.
Out:   fields: what is read, and what it is compared with.
Never: a wanted number in a prompt.
"""

from __future__ import annotations

from math import degrees

from becket.guide.asked import Ask, Asked
from becket.guide.figures_said import down
from becket.guide.script import Field


def lamp(asked: Asked) -> tuple[Field, ...]:
    """Return what the display shows while the weight is held up [-].

    Args:
        asked: the deed
    """
    wrong = "No stop shown: the switch does not work. The boom stays down until it is mended."
    choices, prompt = ("the stop shows", "nothing shows"), "What does the display show?"
    return (Field(name="display", kind="choice", prompt=prompt, choices=choices, stops=choices[1:], wrong=wrong),)


def stopped_before(asked: Asked) -> tuple[Field, ...]:
    """Return whether the switch stops the hook on the old falls [-].

    Args:
        asked: the deed
    """
    wrong = "The hoist limit switch does not work: no re-reeving. Have it mended."
    choices, prompt = ("it stopped", "it did not stop"), "Did it stop the hook?"
    return (Field(name="stopped", kind="choice", prompt=prompt, choices=choices, stops=choices[1:], wrong=wrong),)


def stopped_after(asked: Asked) -> tuple[Field, ...]:
    """Return what the switch stops on the new falls, and how far under the head [-].

    Args:
        asked: the deed
    """
    motions = ", ".join(asked.scene.book.switch.stops) or "hoist"
    wrong = "Not every motion stopped: the crane lifts nothing. Have the switch mended."
    choices = ("every one stopped", "not every one")
    return (
        Field(
            name="stopped",
            kind="choice",
            prompt=f"What did it stop: {motions}?",
            choices=choices,
            stops=choices[1:],
            wrong=wrong,
        ),
        limit_distance(asked),
    )


def limit_distance(asked: Asked) -> Field:
    """Return how far under the head the switch stopped the hook [m].

    Args:
        asked: the deed
    """
    trips = asked.scene.book.switch.trips
    said = f"The book says {trips:.1f} m. " if trips is not None else ""
    return Field(
        name="distance",
        kind="number",
        unit="m",
        prompt="Where it stopped: shaft to shaft",
        want=trips,
        tolerance=asked.scene.settings.switch_tolerance if trips is not None else None,
        wrong=f"You entered {{value}} m. {said}Look at weight and chain, try again.",
    )


def wraps(asked: Asked) -> Field:
    """Return the turns left on the drum at the lowest hook [-].

    Args:
        asked: the deed
    """
    least = asked.scene.book.winch.least_wraps
    return Field(
        name="wraps",
        kind="number",
        prompt="Turns left on the drum, hook lowest",
        least=float(least) if least is not None else None,
        wrong=f"You entered {{value}}. Never under {least} turns. Raise the hook.",
    )


def spooled(asked: Asked) -> tuple[Field, ...]:
    """Return the wraps left and how the rope lies on the drum [-].

    Args:
        asked: the deed
    """
    choices = ("side by side", "crossing or loose")
    wrong = "Crossing or loose: pay it out and spool it again under tension."
    prompt = "How do the turns lie on the drum?"
    return (
        wraps(asked),
        Field(name="spooling", kind="choice", prompt=prompt, choices=choices, stops=choices[1:], wrong=wrong),
    )


def level(asked: Asked) -> tuple[Field, ...]:
    """Return how the block hangs: level, turned how far [-].

    Args:
        asked: the deed
    """
    most = down(degrees(asked.scene.settings.twist_pass), 0)
    choices = ("level", "askew")
    wrong = "It hangs askew: set it down. Look at every pass before anybody goes on."
    turned = "You entered {value}°. Turned too far: set it down. Look for a turn in the rope, falls wrapped."
    return (
        Field(
            name="level",
            kind="choice",
            prompt="How does the block hang?",
            choices=choices,
            stops=choices[1:],
            wrong=wrong,
        ),
        Field(name="turned", kind="number", unit="deg", prompt="Turned how far", least=0.0, most=most, wrong=turned),
    )


def turns(asked: Asked) -> tuple[Field, ...]:
    """Return the turns that the falls make round one another under the first load [-].

    Args:
        asked: the deed
    """
    wrong = (
        "You entered {value}. The falls wrap: set it down, stop. The rope's turn has to come out first. "
        "Until it is out, today's date stands in the crane book: rope.seen_turning."
    )
    prompt = "Turns of the falls round one another"
    return (Field(name="turns", kind="number", prompt=prompt, least=0.0, most=0.0, wrong=wrong),)


ASK_HOIST: dict[str, Ask] = {
    "prove_before": stopped_before,
    "see_lamp": lamp,
    "look_level": level,
    "prove_switch": stopped_after,
    "spool": spooled,
    "first_lift": turns,
}
