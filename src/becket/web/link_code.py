"""A link as a code that the camera of a phone reads.

In:    an address.
Out:   a picture as SVG.
Never: an address of anybody else.
"""

from __future__ import annotations

import segno


def link_code(address: str) -> str:
    """Return a QR code as SVG: level M, four modules of white around it [-].

    Args:
        address: that is opened
    """
    code = segno.make(address, error="m", micro=False, boost_error=False)
    return str(code.svg_inline(border=4, scale=6, dark="#000", light="#fff"))
