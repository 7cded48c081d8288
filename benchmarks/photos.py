"""How long the server works on a photo of a phone: twelve megapixels in, what is kept out.

In:    ``--quick`` for few rounds.
Out:   milliseconds, bytes before and after, most memory.
Never: anybody's photo: noise and stripes.
"""

from __future__ import annotations

import resource
import sys
import time
from io import BytesIO
from pathlib import Path
from random import Random
from statistics import median
from tempfile import TemporaryDirectory

from PIL import Image

from becket.records.photo_file import hash_of
from becket.records.photo_shelf import MOST_PIECE, PhotoShelf

SIZE = (4000, 3000)  # as phones take it [px]


def photo(seed: int) -> bytes:
    """Return an invented photo: coarse noise, enlarged.

    Args:
        seed: another gives another photo
    """
    small = Image.frombytes("RGB", (500, 375), Random(seed).randbytes(500 * 375 * 3))
    file = BytesIO()
    small.resize(SIZE, Image.Resampling.BICUBIC).save(file, "JPEG", quality=85)
    return file.getvalue()


def main() -> int:
    """Measure and print; return 0 [-]."""
    rounds = 2 if "--quick" in sys.argv else 10
    pieces: list[float] = []
    whole: list[float] = []
    with TemporaryDirectory() as folder:
        shelf = PhotoShelf(Path(folder))
        for seed in range(rounds):
            data = photo(seed)
            for offset in range(0, len(data), MOST_PIECE):
                start = time.perf_counter()
                arrived = shelf.take(hash_of(data), offset, data[offset : offset + MOST_PIECE], len(data))
                (whole if arrived.photo else pieces).append((time.perf_counter() - start) * 1000)
            assert shelf.has(hash_of(data))
        kept = shelf.path(hash_of(data)).stat().st_size
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1000
    print(f"{rounds} photos, {len(data) / 1e6:.1f} MB in, {kept / 1e6:.2f} MB kept; most memory {memory:.0f} MB")
    if pieces:
        print(f"a piece of {MOST_PIECE / 1e6:.0f} MB onto the disk: median {median(pieces):.1f} ms")
    print(f"the last piece, and the photo worked on: median {median(whole):.0f} ms, longest {max(whole):.0f} ms")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
