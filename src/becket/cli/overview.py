"""The list of commands, and what ``becket --help`` prints.

In:    nothing; the table below is the list that runs.
Out:   text. It needs no library, so that the help is there at once.
Never: a command's own options.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

COMMANDS: Final[Mapping[str, str]] = {
    "check": "Every fault of a crane book and a job sheet, or good.",
    "falls": "How many falls a lift needs, and every limit of each number of falls.",
    "limits": "What the reeving that is on can do: greatest load, lowest hook.",
    "pattern": "A reeving pattern as the manual prints it, and its checks.",
    "confirm": "The second person's own reading of the page, sealed when both agree.",
    "change": "From one reeving to another: position, rope to leave, steps.",
    "plan": "The coming lifts: where to change the reeving, what it costs, why.",
    "card": "One printed card: pattern, window, count slip, load by falls.",
    "pack": "Every pattern, change and answer of a crane in one file to carry.",
    "serve": "The pages for the phone, behind a link that opens once.",
    "record": "The records: verify, take out and in, back up, restore, move.",
    "demo": "The main job on two invented cranes, start to end.",
}

GOVERNS: Final = (
    "The maker's manual, the load chart, local law and the competent persons on site govern. Not a load indicator."
)


def overview() -> str:
    """Return the help of the whole program, at most 80 columns wide [-].

    >>> print(overview().splitlines()[0])
    Usage: becket COMMAND [FILES] [OPTIONS]
    """
    rows = [f"  {name:<9}{short}" for name, short in COMMANDS.items()]
    return "\n".join(
        [
            "Usage: becket COMMAND [FILES] [OPTIONS]",
            "",
            "becket plans, guides and records the re-reeving of a telescopic mobile crane.",
            "It checks reeving patterns that the crew typed from the maker's manual. It",
            "never proposes one. What is not on file is unknown, and unknown is no pass.",
            "",
            "Commands:",
            *rows,
            "",
            "becket COMMAND --help tells the options, with an example.",
            "A state is written BLOCK:FALLS, as in main:4. Every quantity has a unit: 14.6 t.",
            "Exit code: 0 nothing fails, 1 something fails or is unknown, 2 cannot be read.",
            "",
            "The maker's manual, the load chart, local law and the competent persons on",
            "site govern. Not a load indicator.",
        ]
    )
