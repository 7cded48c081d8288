"""Check: every fault of every file in one run, then what contradicts itself."""

from __future__ import annotations

from pathlib import Path

from becket.intake.check import CheckReport, check_files
from becket.verdict import Verdict
from tests.intake.reading import written
from tests.intake.texts import BOOK, CSV, JOBS, altered


def report_of(folder: Path, book: str, jobs: str | None = None, name: str = "jobs.yaml") -> CheckReport:
    """Return what is found in the files."""
    jobs_path = written(folder / name, jobs) if jobs is not None else None
    return check_files(written(folder / "crane.yaml", book), jobs_path)


def lines(report: CheckReport, folder: Path) -> list[str]:
    """Return the faults, the folder cut off."""
    return [str(fault).removeprefix(f"{folder}/") for fault in report.faults]


def test_good_files(tmp_path: Path) -> None:
    for name, jobs in (("jobs.yaml", JOBS), ("jobs.csv", CSV)):
        report = report_of(tmp_path, BOOK, jobs, name)
        assert report.faults == ()
        assert report.findings == ()
        assert report.verdict is Verdict.PASS


def test_every_fault_of_all_files_in_one_run_sorted_by_place(tmp_path: Path) -> None:
    written(tmp_path / "becket.settings.yaml", "hand_height: 1.6 m\n")
    book = altered(BOOK, ("mass: 240 kg", "mass: 240"), ("head right", "head rigth"))
    jobs = altered(
        JOBS, ("chart: full", "chart: ful"), ("people: 2\n", "people: two\n"), ("crane: Alder", "crane: Adler")
    )
    report = report_of(tmp_path, book, jobs)
    assert report.verdict is Verdict.FAIL
    assert lines(report, tmp_path) == [
        "becket.settings.yaml:1:1: hand_height: has no source; {value: figure, source: text}: who says so, and where",
        "crane.yaml:57:11: blocks.hook.mass: 240 has no unit; a mass in kg, t, lb, short ton or long ton",
        'crane.yaml:82:61: patterns[0].dead_end: "rigth" is no anchor of the head; did you mean "right"?',
        'jobs.yaml:2:8: crane: "Adler 25" is another crane; the crane of the book, "Alder 25"',
        "jobs.yaml:16:13: jobs[0].people: two; a whole number from 0 up, digits only, no zero in front",
        'jobs.yaml:20:87: jobs[0].lifts[0].chart: "ful" is no chart of the book; did you mean "full"?',
    ]


def test_a_faulty_part_of_the_book_does_not_blame_the_sheet(tmp_path: Path) -> None:
    """A mistyped boom length, block or chart name gives its own fault and no second one elsewhere."""
    for change, number in (
        (("length: 16 m, code", "length: 16, code"), 1),
        (("sheaves: {1: -0.1 m", "sheaves: {1: -0.1"), 1),
        (("sheaves: {1: -0.2 m", "sheaves: {1: -0.2"), 1),
        (("right: {side: 0.1 m", "right: {side: 0.1"), 1),
        (("  - name: full\n", "  - nam: full\n"), 1),
    ):
        report = report_of(tmp_path, altered(BOOK, change), JOBS)
        assert len(report.faults) == number, lines(report, tmp_path)


def test_a_missing_sheet_and_a_missing_book(tmp_path: Path) -> None:
    report = check_files(tmp_path / "a.yaml", tmp_path / "b.yaml")
    assert lines(report, tmp_path) == [
        "a.yaml:0:0: file: there is no such file; the path of a text file",
        "b.yaml:0:0: file: there is no such file; the path of a text file",
    ]


def test_contradictions_come_with_both_places(tmp_path: Path) -> None:
    """A keeper that holds nothing; a rated load that rises with the radius."""
    book = altered(BOOK, ("holds: [1, 2, 3], ", ""), ("6 m: 9 t", "6 m: 19 t"))
    report = report_of(tmp_path, book)
    assert report.faults == ()
    assert report.verdict is Verdict.FAIL
    found = {finding.name: [(place.line, place.field) for place in finding.places] for finding in report.findings}
    assert (78, "keepers[0].at") in found["keeper_holds_nothing"]
    assert found["rated_rises_with_radius"][0] == (103, "charts[0].rows")


def test_a_file_with_too_many_faults_is_still_answered(tmp_path: Path) -> None:
    book = BOOK + "".join(f"k{n}: 1\n" for n in range(2000))
    jobs = JOBS + "".join(f"k{n}: 1\n" for n in range(2000))
    report = report_of(tmp_path, book, jobs)
    assert report.verdict is Verdict.FAIL
    assert len(report.faults) == 2002
