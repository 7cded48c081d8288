"""The proxy of the documentation, as it stands there, before a real server: where nginx is installed."""

from __future__ import annotations

import re
import shutil
import subprocess
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import httpx
import pytest

from tests.phone.server import PhoneServer, demo_folder, free_port
from tests.web.accounts_at import PASSWORD

PAGE = Path(__file__).parents[2] / "docs" / "proxy.md"
NAME = "crane-office.example"
pytestmark = pytest.mark.skipif(
    shutil.which("nginx") is None or shutil.which("openssl") is None, reason="needs nginx and openssl"
)


def example() -> str:
    """Return the configuration that the page shows."""
    found = re.search(r"```nginx\n(.*?)```", PAGE.read_text(encoding="utf-8"), re.DOTALL)
    assert found is not None
    return found[1]


def configured(folder: Path, becket: int, http: int, https: int) -> Path:
    """Return the page's configuration with ports and places of this test, the rest as it is."""
    certificate, key = folder / "office.pem", folder / "office.key"
    made = ["openssl", "req", "-x509", "-newkey", "rsa:2048", "-nodes", "-days", "2", "-subj", f"/CN={NAME}"]
    subprocess.run([*made, "-out", certificate, "-keyout", key], check=True, capture_output=True)
    text = example()
    for old, new in (
        ("listen 80;", f"listen 127.0.0.1:{http};"),
        ("listen 443 ssl", f"listen 127.0.0.1:{https} ssl"),
        ("/etc/ssl/crane-office.pem", str(certificate)),
        ("/etc/ssl/private/crane-office.key", str(key)),
        ("http://127.0.0.1:8470", f"http://127.0.0.1:{becket}"),
    ):
        assert old in text, old
        text = text.replace(old, new)
    places = "".join(
        f"{kind}_temp_path {folder}/{kind};\n" for kind in ("client_body", "proxy", "fastcgi", "uwsgi", "scgi")
    )
    head = f"pid {folder}/pid;\nerror_log {folder}/errors;\ndaemon off;\nevents {{}}\n"
    path = folder / "nginx.conf"
    path.write_text(f"{head}http {{\naccess_log {folder}/access;\n{places}{text}}}\n", encoding="utf-8")
    return path


@contextmanager
def proxy(path: Path, port: int) -> Iterator[None]:
    """Run nginx on a configuration until the end of the test."""
    with subprocess.Popen(["nginx", "-c", path], stderr=subprocess.DEVNULL) as process:
        try:
            end = time.monotonic() + 10
            while time.monotonic() < end:
                try:
                    httpx.get(f"http://127.0.0.1:{port}", timeout=1)
                    break
                except httpx.HTTPError:
                    time.sleep(0.02)
            yield
        finally:
            process.terminate()
            process.wait(10)


def test_the_proxy_of_the_page_carries_a_sign_in_an_entry_and_a_page(tmp_path: Path) -> None:
    http, https = free_port(), free_port()
    server = PhoneServer(demo_folder(tmp_path / "data"), more=("--shared", "--host-name", NAME))
    path = configured(tmp_path, server.port, http, https)
    checked = subprocess.run(["nginx", "-t", "-c", path], capture_output=True, text=True, check=False)
    assert checked.returncode == 0, checked.stderr
    assert "[warn]" not in checked.stderr
    server.start()
    try:
        assert server.link.startswith(f"https://{NAME}/invited/")
        with proxy(path, http), phone_at(https) as phone:
            moved = httpx.get(f"http://127.0.0.1:{http}/c/hazel-70/now", headers={"host": NAME})
            assert (moved.status_code, moved.headers["location"]) == (301, f"https://{NAME}/c/hazel-70/now")
            form = {"password": (None, PASSWORD), "again": (None, PASSWORD)}
            answer = phone.post(f"/invited/{server.link.rpartition('/')[2]}", files=form)
            assert answer.status_code == 303, answer.text
            assert "Secure" in answer.headers["set-cookie"]
            phone.headers["cookie"] = answer.headers["set-cookie"].partition(";")[0]
            page = phone.get("/c/hazel-70/now")
            assert page.status_code == 200
            assert page.headers["strict-transport-security"] == "max-age=31536000"
            assert phone.post("/api/events", json={"events": []}).json()["results"] == []
            foreign = phone.post("/api/events", json={"events": []}, headers={"origin": "https://evil.example"})
            assert foreign.status_code == 403
            said = [wrong(phone, f"192.0.2.{number}") for number in range(21)]
            assert [one.status_code for one in said] == [403] * 20 + [429]  # of one address, whatever it says of itself
            assert "Wrong too often." in said[20].text  # becket's word, not the proxy's own bound
            assert "/invited/" not in (tmp_path / "access").read_text(encoding="utf-8")
    finally:
        server.stop()


@contextmanager
def phone_at(port: int) -> Iterator[httpx.Client]:
    """Give a client that goes to the proxy by its name."""
    host = f"{NAME}:{port}"
    own = {"host": host, "origin": f"https://{host}", "sec-fetch-site": "same-origin"}
    with httpx.Client(base_url=f"https://127.0.0.1:{port}", headers=own, verify=False, timeout=20) as client:
        yield client


def wrong(phone: httpx.Client, said: str) -> httpx.Response:
    """Return the answer to a wrong sign-in with another name each time, from an address that the phone made up."""
    form = {"name": (None, said), "password": (None, "wrong as can be")}
    return phone.post("/sign-in", files=form, headers={"x-forwarded-for": said})
