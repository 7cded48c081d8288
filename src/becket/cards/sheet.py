"""A card before it is set in type: its template and what goes into it.

In:    nothing.
Out:   frozen records.
Never: files, PDF, computing.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, kw_only=True)
class Sheet:
    """One card. ``data`` is plain: text, numbers, lists, mappings."""

    template: str  # name of its template
    title: str  # in the contents page and in the document's own title
    data: Mapping[str, object] = field(repr=False)
