"""What every answer says before its body, and who is answered at all."""

from __future__ import annotations

import pytest
from starlette.routing import Route

from becket.web.headers import HEADERS, POLICY
from tests.web.asking import Phone

EVERY = ("/", "/c/hazel-70/now", "/c/no-such/now", "/no-such", "/link", "/sw.js", "/api/kept/hazel-70", "/static/no.js")


@pytest.mark.parametrize("path", EVERY)
def test_every_answer_has_every_header(phone: Phone, path: str) -> None:
    answer = phone.get(path)
    assert {name: answer.headers[name] for name in HEADERS} == dict(HEADERS)


def test_an_answer_to_a_stranger_and_to_a_bug_has_them_too(phone: Phone) -> None:
    def broken(request: object) -> None:
        raise ZeroDivisionError

    phone.app.router.routes.append(Route("/broken", broken))
    phone._raises = False
    bug = phone.get("/broken")
    phone.cookies.clear()
    for answer, status in ((phone.get("/"), 401), (bug, 500)):
        assert answer.status_code == status
        assert answer.headers["content-security-policy"] == POLICY
    assert "Something is wrong in becket, not in what you did." in bug.text
    assert "ZeroDivisionError" not in bug.text


def test_the_policy_lets_nothing_in_from_outside_and_nothing_inline() -> None:
    assert POLICY.startswith("default-src 'none'; script-src 'self'; style-src 'self';")
    assert "unsafe" not in POLICY
    assert "*" not in POLICY


def test_a_page_has_nothing_inline_and_nothing_from_elsewhere(phone: Phone) -> None:
    for path in ("/", "/c/hazel-70/now", "/c/hazel-70/pattern/main:4", "/c/hazel-70/change/main:2/main:4", "/link"):
        text = phone.get(path).text
        assert "<script>" not in text
        assert "<style" not in text.replace("<style>", "<style") or "<svg" in text
        assert ' onclick="' not in text
        assert 'src="http' not in text
        assert 'href="http' not in text


@pytest.mark.parametrize("host", ["evil.example", "evil.example:8470", "localhost.evil.example", "", "[::2]"])
def test_a_name_that_is_not_ours_is_refused(phone: Phone, host: str) -> None:
    answer = phone.get("/c/hazel-70/now", headers={"host": host})
    assert answer.status_code == 421
    assert "Hazel" not in answer.text
    assert "becket serve --host-name NAME" in answer.text


@pytest.mark.parametrize("host", ["localhost", "LOCALHOST:8470", "127.0.0.1:1", "[::1]:8470"])
def test_the_names_of_this_machine_are_answered(phone: Phone, host: str) -> None:
    assert phone.get("/c/hazel-70/now", headers={"host": host}).status_code == 200
