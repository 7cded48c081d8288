"""kill -9 of the server while phones write: nothing that was acknowledged is lost, nothing doubled, photos go on."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from becket.records.photo_file import hash_of
from tests.records.conftest import NewUrl
from tests.records.kill_server import KINDS, OUTSIDE, a_site, finished, killed, looked
from tests.records.test_photos import jpeg

PLACES = {"sqlite": 12, "postgresql": 6}  # seeds; 12: one place of each kind


def test_what_a_killed_server_acknowledged_is_there_once(new_url: NewUrl, engine: str, tmp_path: Path) -> None:
    url = new_url() if engine == "postgresql" else None
    with a_site(tmp_path / "data", url) as site:
        faults = [fault for seed in range(PLACES[engine]) for fault in killed(site, seed)]
        assert faults + finished(site) == []
    assert sum(site.deaths.values()) == PLACES[engine]
    reached = set(site.deaths) - {"place not reached", "at its start", *OUTSIDE}
    assert len(reached) > len(set(KINDS[: PLACES[engine]]) - set(OUTSIDE)) // 2, site.deaths
    assert sum(len(phone.numbers) for phone in site.phones) > 3 * PLACES[engine]


@pytest.mark.parametrize("engine", ["sqlite"], indirect=True)
def test_the_look_afterwards_can_find_a_fault(engine: str, tmp_path: Path) -> None:
    with a_site(tmp_path / "data") as site:
        phone = site.phones[0]
        phone.enter(random.Random(1))
        assert finished(site) == []
        key, number = next(iter(phone.numbers.items()))
        phone.numbers |= {key: number + 1, "never.1": 5}
        data = jpeg(40, 30)
        phone.photos["x"] = phone.events[0], data
        (site.folder / "photos").mkdir(exist_ok=True)
        (site.folder / "photos" / f"{hash_of(data)}.jpg").write_bytes(data)
        assert sorted(looked(site)) == sorted(
            [
                "never.1: acknowledged as 5",
                f"{key}: acknowledged as {number + 1}",
                f"{hash_of(data)}.jpg is not the photo that was sent",
            ]
        )
