"""The page ``settings.md``: every named value of the method with its reason, and the rule sets.

In:    the tables that ship with the package.
Out:   one page.
Never: a value that is not in a table.
"""

from __future__ import annotations

from becket.settings.tables import read_table

SETTINGS = ("name", "value", "unit", "reason")
RULES = ("rules", "item", "applies", "value", "unit", "source", "status")

HEAD = """# Settings and rule sets

Made from the tables by `make docs`.

`becket.settings.yaml` beside the crane book replaces single settings, each with its source, and names a rule set:

```yaml
becket: 1
rules: ASME B30.5-2018
hand_height: {value: 1.7 m, source: "our own measurement, 2027-01-12"}
```

A replaced setting is named with its source wherever it decides. A figure of the crane book goes before a rule set.

## Settings"""


def pages() -> dict[str, str]:
    """Return the page with its text [-]."""
    parts = [
        HEAD,
        table_of(read_table("settings.csv", SETTINGS), SETTINGS),
        "## Rule sets\n\n`SEEN`: read in a stored copy of the source. `MEMORY`: from memory, shown as unconfirmed.",
        table_of(read_table("rule_sets.csv", RULES), RULES),
    ]
    return {"settings.md": "\n\n".join(parts) + "\n"}


def table_of(rows: list[dict[str, str]], columns: tuple[str, ...]) -> str:
    """Return rows as a table of a page [-].

    Args:
        rows: column name to text
        columns: in their order
    """
    lines = [[row[column].replace("|", "\\|") for column in columns] for row in rows]
    return "\n".join(f"| {' | '.join(line)} |" for line in [list(columns), ["---"] * len(columns), *lines])
