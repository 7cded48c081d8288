"""What ``check`` and ``confirm`` found, as text.

In:    a report on files, a confirmation.
Out:   one line a fault, each finding with its places, or "good".
Never: judging.
"""

from __future__ import annotations

from becket.cli.lines import plain_name, wrapped
from becket.intake.check import CheckReport, PlacedContradiction
from becket.intake.confirm import Confirmation
from becket.verdict import Verdict


def check_text(report: CheckReport) -> str:
    """Return the faults, one a line and not broken, then the findings; "good" where there is nothing [-].

    Args:
        report: what was found in the files
    """
    if report.verdict is Verdict.PASS:
        return "good"
    parts = ["\n".join(str(fault) for fault in report.faults)] if report.faults else []
    parts += [_finding(finding) for finding in report.findings]
    return "\n\n".join([*parts, _count(report)])


def confirm_text(confirmation: Confirmation) -> str:
    """Return whether both readings agreed; both, one above the other, where they did not [-].

    Args:
        confirmation: what became of the second person's reading
    """
    if confirmation.sealed:
        return f"Same as typed. {confirmation.state} is confirmed, seal {confirmation.seal}."
    return f"Not confirmed: {confirmation.state}. Nothing is written.\n{confirmation.difference or ''}".rstrip()


def _finding(finding: PlacedContradiction) -> str:
    places = [f"  {place.file}:{place.line}:{place.column}: {place.field}" for place in finding.places]
    return "\n".join([wrapped(f"{plain_name(finding.name)}: {finding.why}", "FINDING  "), *places])


def _count(report: CheckReport) -> str:
    faults, findings = len(report.faults), len(report.findings)
    return f"{faults} fault{'s' * (faults != 1)}, {findings} finding{'s' * (findings != 1)}."
