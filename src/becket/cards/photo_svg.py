"""A photo as a picture that goes into a sheet of paper.

In:    a JPEG as it is kept, its width and height.
Out:   an SVG that holds it, so that the photo goes the way of every other picture: no file, no folder.
Never: an address from elsewhere; a JPEG written anew.
"""

from __future__ import annotations

from base64 import b64encode


def photo_svg(data: bytes, width: int, height: int) -> str:
    """Return an SVG with a photo in it [px].

    Args:
        data: JPEG
        width: of the photo [px]
        height: of the photo [px]
    """
    size = f'width="{width}" height="{height}"'
    link = f"data:image/jpeg;base64,{b64encode(data).decode('ascii')}"
    names = 'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'
    return f'<svg {names} {size} viewBox="0 0 {width} {height}"><image {size} xlink:href="{link}"/></svg>'
