"""Limit of the reeving pattern: on file, confirmed, and sound.

In:    one number of falls of a lift.
Out:   one limit.
Never: other limits; a pattern that is not on file.
"""

from __future__ import annotations
