"""Files that nobody has vouched for: refused fast, within bounded memory, in one clear line."""

# ruff: noqa: E501 (messages and lines of files stand here as they are)

from __future__ import annotations

import os
import subprocess
import sys
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

import becket
from becket.errors import FaultyFileError
from becket.intake.book import read_book
from becket.intake.page import FAULTS_MOST
from tests.intake.reading import SETTINGS, book_messages, book_of, cut, jobs_messages, written
from tests.intake.texts import BOOK, altered

SECONDS_MOST = 20.0  # on two busy cores; alone each takes well under 2
BYTES_MOST = 1_000_000_000

YAML_HELP = (
    "brackets, quotes, colons and indents that close; text with ': ' or ' #' in it stands in quotes; look in the line"
    " above too"
)
BOMB = "a: &a [x, x]\n" + "".join(
    f"{new}: &{new} [*{old}, *{old}]\n" for old, new in zip("abcdefgh", "bcdefghi", strict=True)
)

# name: (bytes of the file, messages)
SMALL: dict[str, tuple[bytes, list[str]]] = {
    "empty": (b"", ["0:0: file: is empty; a file as docs/files.md shows"]),
    "blank": (b" \n\n", ["0:0: file: is empty; a file as docs/files.md shows"]),
    "only a comment": (b"# soon\n", ["0:0: file: holds nothing but comments; a file as docs/files.md shows"]),
    "a word": (b"hello\n", ["1:1: file: hello; the keys of a crane book"]),
    "a list": (b"[a]\n", ["1:1: file: a list stands there; the keys of a crane book"]),
    "binary": (bytes(range(256)), ["2:118: file: byte 0x80 is not UTF-8; a text file saved as UTF-8"]),
    "UTF-16": ("becket: 1\n".encode("utf-16"), ["1:1: file: byte 0xff is not UTF-8; a text file saved as UTF-8"]),
    "Latin-1": (
        "crane:\n  - Kr\u00e4n\n".encode("latin-1"),
        ["2:7: file: byte 0xe4 is not UTF-8; a text file saved as UTF-8"],
    ),
    "surrogate": (b"crane: \xed\xa0\x80\n", ["1:8: file: byte 0xed is not UTF-8; a text file saved as UTF-8"]),
    "nought": (
        b"crane: a\x00b\n",
        ["1:9: file: character U+0000 stands there; plain text without control characters"],
    ),
    "escape": (
        b"a: 1\ncrane: \x1b[31m\n",
        ["2:8: file: character U+001B stands there; plain text without control characters"],
    ),
    "odd line end": (
        "crane: a\u2028b\n".encode(),
        ["1:9: file: character U+2028 stands there; plain text without control characters"],
    ),
    "byte order mark inside": (
        "crane: \ufeffb\n".encode(),
        ["1:8: file: character U+FEFF stands there; plain text without control characters"],
    ),
    "tab": (b"crane:\n\tname: x\n", ["2:1: file: a tab stands in the indent; spaces"]),
    "alias": (
        b"a: &x 1\nb: *x\n",
        [
            "1:4: file: the anchor &x stands there; plain values without anchors",
            "2:4: file: the alias *x stands there; the value itself, written out",
        ],
    ),
    "bomb": (
        BOMB.encode(),
        [
            "1:4: file: the anchor &a stands there; plain values without anchors",
            "2:4: file: the anchor &b stands there; plain values without anchors",
            "2:8: file: the alias *a stands there; the value itself, written out",
        ],
    ),
    "tag": (
        altered(BOOK, ("mass: 240 kg", "mass: !!float 240 kg")).encode(),
        ["57:11: file: the tag tag:yaml.org,2002:float stands there; plain values without tags"],
    ),
    "tag of a program": (
        altered(BOOK, ("foot: {x", "foot: !!python/object/apply:os.system {x")).encode(),
        ["5:9: file: the tag tag:yaml.org,2002:python/object/apply:os.system stands there; plain values without tags"],
    ),
    "anchor of a list": (
        altered(BOOK, ("pull: [", "pull: &p [")).encode(),
        ["29:9: file: the anchor &p stands there; plain values without anchors"],
    ),
    "directive": (
        b"%YAML 1.1\n---\nbecket: 1\n",
        ["1:1: file: a YAML directive stands there; no line that begins with %"],
    ),
    "two documents": (
        b"becket: 1\n---\nbecket: 1\n",
        ["2:1: file: a second document begins there; one document, no line ---"],
    ),
    "a list as key": (b"? [a, b]\n: 1\n", ["1:3: file: a list or a mapping stands as a key; a word as the key"]),
    "not closed": (
        b"crane: {name: x\n",
        [f"2:1: file: cannot be read as YAML: did not find expected ',' or '}}'; {YAML_HELP}"],
    ),
    "colon in text": (
        b"crane: a: b\n",
        [f"1:9: file: cannot be read as YAML: mapping values are not allowed in this context; {YAML_HELP}"],
    ),
    "nested": (
        b"a: " + b"[" * 40 + b"]" * 40,
        ["1:35: file: nested deeper than 32; a flatter file (setting file_depth_most)"],
    ),
}


@pytest.mark.parametrize("name", SMALL)
def test_message(name: str, tmp_path: Path) -> None:
    data, wanted = SMALL[name]
    assert book_messages(tmp_path, data) == wanted


def test_no_such_file(tmp_path: Path) -> None:
    path = tmp_path / "none.yaml"
    with pytest.raises(FaultyFileError) as caught:
        read_book(path, SETTINGS)
    assert cut(caught.value, path) == ["0:0: file: there is no such file; the path of a text file"]


def test_a_folder_and_a_pipe(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    for path in (tmp_path, pipe):
        with pytest.raises(FaultyFileError) as caught:
            read_book(path, SETTINGS)
        assert cut(caught.value, path) == ["0:0: file: is not a plain file; the path of a text file"]


def test_an_odd_path() -> None:
    path = Path("a\0b")
    with pytest.raises(FaultyFileError) as caught:
        read_book(path, SETTINGS)
    assert [fault.found for fault in caught.value.faults] in (
        ["cannot be opened (odd path)"],
        ["there is no such file"],
    )


@pytest.mark.parametrize(
    ("error", "why"),
    [
        (PermissionError(13, "Permission denied"), "Permission denied"),
        (OSError(5, "Input/output error"), "Input/output error"),
        (OSError(), "odd path"),
        (ValueError("embedded null byte"), "odd path"),
    ],
)
def test_a_file_that_cannot_be_opened(
    error: Exception, why: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(self: Path, mode: str) -> None:
        raise error

    path = written(tmp_path / "crane.yaml", BOOK)
    monkeypatch.setattr(Path, "open", fails)
    with pytest.raises(FaultyFileError) as caught:
        read_book(path, SETTINGS)
    assert cut(caught.value, path) == [f"0:0: file: cannot be opened ({why}); a file that may be read"]


def test_a_loop_of_links(tmp_path: Path) -> None:
    path = tmp_path / "loop.yaml"
    path.symlink_to(path)
    with pytest.raises(FaultyFileError) as caught:
        read_book(path, SETTINGS)
    wanted = "0:0: file: cannot be opened (Too many levels of symbolic links); a file that may be read"
    assert cut(caught.value, path) == [wanted]


def test_the_limits_are_settings(tmp_path: Path) -> None:
    path = tmp_path / "crane.yaml"
    path.write_text(BOOK)
    for limit, message in (
        ({"file_size_most": 100.0}, "0:0: file: is larger than 100 bytes; a smaller file (setting file_size_most)"),
        ({"file_depth_most": 2.0}, "5:9: file: nested deeper than 2; a flatter file (setting file_depth_most)"),
        ({"file_values_most": 9.0}, "3:1: file: more than 9 values; a smaller file (setting file_values_most)"),
    ):
        with pytest.raises(FaultyFileError) as caught:
            read_book(path, replace(SETTINGS, **limit))  # type: ignore[arg-type]
        assert cut(caught.value, path) == [message]


def test_a_byte_order_mark_and_other_line_ends_are_no_fault(tmp_path: Path) -> None:
    plain = book_of(tmp_path, BOOK)
    other = book_of(tmp_path, ("\ufeff" + BOOK.replace("\n", "\r\n")).encode())
    assert replace(other.book, fingerprint="") == replace(plain.book, fingerprint="")
    assert other.marks == plain.marks


def test_too_many_faults_stop_the_reading(tmp_path: Path) -> None:
    text = BOOK + "".join(f"key{number}: 1\n" for number in range(5000))
    lines = book_messages(tmp_path, text)
    assert len(lines) == FAULTS_MOST + 1
    assert any(line.endswith(f": file: {FAULTS_MOST} faults up to here; mend these first") for line in lines)


HUGE = {
    "larger than allowed": lambda: b"a" * 100_000_000,
    "deep flow": lambda: b"a: " + b"[" * 1_000_000,
    "deep block": lambda: b"- " * 1_000_000,
    "deep braces": lambda: b"{a: " * 1_000_000,
    "many words": lambda: b"a: [" + b"1," * 7_000_000 + b"1]",
    "many keys": lambda: b"".join(b"k%d: 1\n" % n for n in range(1_200_000)),
    "one long word": lambda: b"crane: " + b"x" * 15_000_000,
    "one long path": lambda: BOOK.replace("head 2 block 1", "head 1 " * 2_000_000).encode(),
    "blank lines": lambda: b"\n" * 15_000_000 + b"becket: 2",
    "quotes": lambda: b'a: "' + b"\\n" * 7_000_000,
    "many lengths": lambda: (
        BOOK.replace(
            '    - {length: 9.5 m, code: "0-0"}\n',
            "".join(f'    - {{length: {n}.5 m, code: "0-0"}}\n' for n in range(8_000)),
        )
        .replace(
            "rereeve:\n",
            "rereev: x\nrereeve:\n"
            + "".join(
                f"  - {{counterweight: 3 t, outriggers: full, sector: side, length: {n}.5 m, lowest: 1 deg, highest: 2 deg}}\n"
                for n in range(8_000)
            ),
        )
        .encode()
    ),
}
HUGE_TABLES = {
    "separators": lambda: b"," * 15_000_000,
    "rows of nothing": lambda: b"crane,job\n" + b",\n" * 7_000_000,
    "one quote": lambda: b'crane,job\n"' + b"x" * 15_000_000,
    "pairs of quotes": lambda: b'crane,job\n"' + b'""' * 7_000_000,
    "blank lines": lambda: b"\n" * 15_000_000 + b"crane",
    "many rows": lambda: b"crane,job,name\n" + b"a,b,c\n" * 2_000_000,
}

IN_A_PROCESS = ("many words", "many keys", "many rows")  # these take the most memory


@pytest.mark.parametrize("name", [name for name in HUGE if name not in IN_A_PROCESS])
def test_a_hostile_book_is_refused_fast(name: str, tmp_path: Path) -> None:
    _refused_fast(lambda data: book_messages(tmp_path, data), HUGE[name]())


@pytest.mark.parametrize("name", [name for name in HUGE_TABLES if name not in IN_A_PROCESS])
def test_a_hostile_table_is_refused_fast(name: str, tmp_path: Path) -> None:
    _refused_fast(lambda data: jobs_messages(tmp_path, data, "jobs.csv"), HUGE_TABLES[name]())


def _refused_fast(read: Callable[[bytes], list[str]], data: bytes) -> None:
    started = time.process_time()
    lines = read(data)
    assert time.process_time() - started < SECONDS_MOST
    assert lines
    assert all(len(line) < 2000 for line in lines)


@pytest.mark.parametrize("case", IN_A_PROCESS)
def test_a_hostile_file_is_refused_fast_within_bounded_memory(case: str, tmp_path: Path) -> None:
    """A process that may not have more than this much memory still gives its one line."""
    is_table = case in HUGE_TABLES
    data = (HUGE_TABLES if is_table else HUGE)[case]()
    path = written(tmp_path / ("jobs.csv" if is_table else "crane.yaml"), data)
    reader = "read_jobs(path, read_settings(None), None)" if is_table else "read_book(path, read_settings(None))"
    program = f"""
import resource
from pathlib import Path
from becket.errors import FaultyFileError
from becket.intake.book import read_book
from becket.intake.jobs import read_jobs
from becket.intake.settings import read_settings
resource.setrlimit(resource.RLIMIT_AS, ({BYTES_MOST}, {BYTES_MOST}))
path = Path({str(path)!r})
try:
    {reader}
except FaultyFileError as error:
    print(error.faults[0].found)
    used = resource.getrusage(resource.RUSAGE_SELF)
    assert used.ru_utime < {SECONDS_MOST}
"""
    source = str(Path(becket.__file__).parents[1])
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, env={"PYTHONPATH": source})
    assert done.returncode == 0, done.stderr[-500:]
    assert done.stdout.splitlines()[0].startswith("more than 1000000")
