"""Hand height on the page Settings: one value of the crew's file, for every crane, by somebody who stands for it."""

from __future__ import annotations

from pathlib import Path

import pytest

from becket.intake.settings import read_settings
from tests.web.asking import Phone

BY = "Rita Rigger, stretched hands, 26 Nov"


def set_to(phone: Phone, height: str, source: str = BY) -> tuple[int, str]:
    """Send the form; return the status and what the page says."""
    fields = {name: (None, value) for name, value in (("height", height), ("source", source))}
    answer = phone.post("/settings/hand-height?crane=hazel-70", files=fields)
    return answer.status_code, answer.text


def test_the_shipped_height_is_said_to_be_nobodys(phone: Phone) -> None:
    page = phone.get("/settings?crane=hazel-70").text
    assert "1.55 m" in page
    assert "nobody here has measured it" in page


@pytest.mark.parametrize(("height", "metres"), [("1.62 m", 1.62), ("5 ft 4 in", 1.6256)])
def test_a_new_height_counts_for_every_crane_and_the_position(
    phone: Phone, folder: Path, height: str, metres: float
) -> None:
    before = phone.house.crane("hazel-70").settings_fingerprint
    assert set_to(phone, height)[0] == 303
    assert read_settings(folder).hand_height == pytest.approx(metres)
    assert {round(crane.settings.hand_height, 9) for crane in phone.house.cranes()} == {metres}
    assert phone.house.crane("hazel-70").settings_fingerprint != before, "scripts and plans are worked out anew"
    assert f"Set by: {BY}." in phone.get("/settings").text
    assert phone.house.store.read("")[-1].event.kind == "file_taken"


def test_everything_else_of_the_file_stays(phone: Phone, folder: Path) -> None:
    path = folder / "becket.settings.yaml"
    old = (
        "becket: 1\n# our own\nhand_height:\n  value: 1.5 m\n  source: Otto\n"
        "work_room: {value: 3 m, source: wide rigger}\n"
    )
    path.write_text(old, encoding="utf-8")
    assert set_to(phone, "1.7 m")[0] == 303
    assert path.read_text(encoding="utf-8") == (
        f'becket: 1\n# our own\nhand_height: {{value: "1.7 m", source: "{BY}"}}\n'
        "work_room: {value: 3 m, source: wide rigger}\n"
    )
    kept = [one for one in folder.iterdir() if one.name.startswith("becket.settings.2")]
    assert [one.read_text(encoding="utf-8") for one in kept] == [old]


@pytest.mark.parametrize(
    ("height", "source", "said"),
    [
        ("1.6", BY, "1.6 has no unit"),
        ("high", BY, "Hand height high"),
        ("16 m", BY, "from 0.8 to 2.2 m over the ground"),
        ("-1 m", BY, "from 0.8 to 2.2 m over the ground"),
        ("1.6 kg", BY, "Hand height"),
        ("1.6 m", "  ", "Say who measured it"),
        ("1.6 m", "x" * 121, "Say who measured it"),
    ],
)
def test_what_cannot_be_used_is_said_and_changes_nothing(
    phone: Phone, folder: Path, height: str, source: str, said: str
) -> None:
    status, text = set_to(phone, height, source)
    assert status == 409
    assert said in text
    assert "Nothing is changed." in text
    assert not (folder / "becket.settings.yaml").exists()


def test_a_source_is_text_and_nothing_else(phone: Phone, folder: Path) -> None:
    source = 'x"}\nwork_room: {value: 9 m, source: "y'
    assert set_to(phone, "1.6 m", source)[0] == 303
    found = read_settings(folder)
    assert (found.work_room, found.replaced) == (2.5, {"hand_height": " ".join(source.split())})


def test_letters_of_every_kind_are_kept_as_they_are(phone: Phone, folder: Path) -> None:
    source = "Müller, tape 😀 שלום"
    assert set_to(phone, "1.6 m", source)[0] == 303
    assert read_settings(folder).replaced == {"hand_height": source}
    assert source in (folder / "becket.settings.yaml").read_text(encoding="utf-8")


def test_a_file_that_cannot_be_read_is_mended_first(phone: Phone, folder: Path) -> None:
    path = folder / "becket.settings.yaml"
    path.write_text("becket: 1\nhand_heigth: {value: 1 m, source: x}\n", encoding="utf-8")
    status, text = set_to(phone, "1.6 m")
    assert (status, "line 2" in text, "mend that file first" in text) == (409, True, True)
    assert path.read_text(encoding="utf-8").startswith("becket: 1\nhand_heigth")
