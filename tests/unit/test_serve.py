"""``axlewright serve`` as a process of its own: what it says, where it listens, how it ends."""

import os
import re
import signal
import socket
import subprocess
import sys
import threading
from contextlib import contextmanager

import httpx2
import pytest

from axlewright.store.builds import Store
from axlewright.store.database import DATABASE
from axlewright.workshop.template import template

pytestmark = pytest.mark.slow

RUN = [sys.executable, "-m", "axlewright.cli.main", "serve", "--no-open"]
SOON = 30.0
PAGE = {"Sec-Fetch-Site": "none"}


@contextmanager
def serving(*options, folder):
    """A running workbench; gives the process and the lines that it has said."""
    env = {**os.environ, "AXLEWRIGHT_DATA": str(folder), "PYTHONUNBUFFERED": "1"}
    command = [*RUN, "--port", "0", *options]
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=env, text=True
    ) as process:
        try:
            yield process, said_by(process)
        finally:
            process.kill()


def said_by(process):
    """What it says until it is ready; one that says nothing for long is ended."""
    watch = threading.Timer(SOON, process.kill)
    watch.start()
    lines = []
    for line in process.stdout:
        lines.append(line)
        if "Stop it with" in line:
            watch.cancel()
            return "".join(lines)
    watch.cancel()
    process.kill()
    pytest.fail("".join(lines) + process.stderr.read())


def address_in(said):
    return re.search(r"http://127\.0\.0\.1:\d+/", said)[0]


def test_it_serves_keeps_and_ends_on_ctrl_c(tmp_path):
    with serving(folder=tmp_path) as (process, said):
        address = address_in(said)
        assert f"Builds are kept in {tmp_path}" in said and "assphrase" not in said
        with httpx2.Client(base_url=address, headers=PAGE) as client:
            assert client.get("/").status_code == 200
            made = client.post("/api/builds", json={})
            assert made.status_code == 201 and "server" not in made.headers
        process.send_signal(signal.SIGINT)
        assert process.wait(SOON) in {0, 130}
        assert "Traceback" not in process.stderr.read()
    store = Store(tmp_path / DATABASE)
    (build,) = store.builds()
    assert store.latest(build.id).text == template()
    store.close()


def test_it_listens_on_this_machine_only(tmp_path):
    with serving(folder=tmp_path) as (_, said):
        port = int(address_in(said).rpartition(":")[2].strip("/"))
        with socket.socket(socket.AF_INET, socket.SOCK_STREAM) as other:
            other.bind(("127.0.0.2", port))  # taken if it listened everywhere


def test_a_network_is_told_the_passphrase_and_the_danger(tmp_path):
    with serving("--lan", "--data", str(tmp_path / "other"), folder=tmp_path) as (_, said):
        words = re.search(r"Passphrase: ([a-z]+ [a-z]+ [a-z]+ [a-z]+)\n", said)[1]
        assert "can read along" in said and str(tmp_path / "other") in said
        with httpx2.Client(base_url=address_in(said), headers=PAGE) as client:
            assert client.get("/api/builds").status_code == 401
            assert client.post("/unlock", data={"passphrase": words}).status_code == 303
            assert client.get("/api/builds").status_code == 200


def refused(*options, folder):
    env = {**os.environ, "AXLEWRIGHT_DATA": str(folder)}
    done = subprocess.run(
        [*RUN, *options], env=env, capture_output=True, text=True, timeout=SOON, check=False
    )
    assert done.returncode == 2, done.stderr
    assert "Traceback" not in done.stderr
    return done.stderr


def test_a_port_in_use_is_told(tmp_path):
    with socket.socket(socket.AF_INET, socket.SOCK_STREAM) as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        said = refused("--port", str(port), folder=tmp_path)
    assert f"port {port} cannot be used" in said and "choose another" in said


def test_a_folder_that_cannot_hold_builds_is_told(tmp_path):
    file = tmp_path / "file"
    file.write_text("x")
    assert refused("--port", "0", "--data", str(file), folder=tmp_path).strip()


def test_other_commands_load_nothing_of_the_server(tmp_path):
    build = tmp_path / "build.toml"
    build.write_text(template(), encoding="utf-8")
    code = (
        "import sys\nfrom axlewright.cli.main import run\n"
        "try:\n    run(['check', sys.argv[1]])\nexcept SystemExit:\n    pass\n"
        "print([m for m in ('fastapi', 'starlette', 'uvicorn', 'jinja2', 'sqlite3', 'socket',"
        " 'webbrowser', 'asyncio') if m in sys.modules], file=sys.stderr)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, str(build)], capture_output=True, text=True, check=False
    )
    assert done.stderr.strip().splitlines()[-1] == "[]"
