"""The version of the file formats.

In:    the word beside the key ``becket``.
Out:   the version, a fault for any other.
Never: migrations; there is one version.
"""

from __future__ import annotations

from becket.errors import UnreadableTextError
from becket.intake.fields import word
from becket.units import shortened


def _version(found: str) -> int:
    if found != "1":
        raise UnreadableTextError(f"version {shortened(found)}", "1, the version of the format that this becket reads")
    return 1


VERSION = word(_version, "1, the version of the format")
