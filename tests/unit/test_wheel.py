"""The wheel works by itself: built, installed into an empty environment, run outside the tree."""

import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

pytestmark = [pytest.mark.slow, pytest.mark.xdist_group("wheel")]

ROOT = Path(__file__).resolve().parents[2]
EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))


def clean_environment():
    """The caller's variables without what would lead back into the tree."""
    return {
        k: v for k, v in os.environ.items() if not k.startswith(("PYTHON", "VIRTUAL_ENV", "COV_"))
    }


def run(*command, cwd, fine=(0,)):
    done = subprocess.run(
        [str(c) for c in command], cwd=cwd, env=clean_environment(), capture_output=True,
        encoding="utf-8", timeout=600, check=False,
    )  # fmt: skip
    assert done.returncode in fine, f"{command}\n{done.stdout}\n{done.stderr}"
    return done.stdout


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    folder = tmp_path_factory.mktemp("wheel")
    run(sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", folder, cwd=ROOT)
    (built,) = folder.glob("*.whl")
    return built


@pytest.fixture(scope="module")
def installed(wheel, tmp_path_factory):
    folder = tmp_path_factory.mktemp("outside")
    run(sys.executable, "-m", "venv", folder / "venv", cwd=folder)
    binaries = folder / "venv" / "bin"
    run(binaries / "python", "-m", "pip", "install", "--quiet", "--disable-pip-version-check",
        "-c", ROOT / "constraints.txt", wheel, cwd=folder)  # fmt: skip
    return folder, binaries


def test_wheel_carries_every_data_file(wheel):
    inside = set(zipfile.ZipFile(wheel).namelist())
    source = ROOT / "src"
    wanted = {
        p.relative_to(source).as_posix()
        for p in (source / "axlewright").rglob("*")
        if p.is_file() and "__pycache__" not in p.parts
    }
    assert wanted - inside == set()
    assert any(name.endswith("licenses/LICENSE") for name in inside)
    assert not any(name.startswith(("tests", "docs", "examples")) for name in inside)


def test_installed_package_needs_nothing_of_the_tests(installed):
    folder, binaries = installed
    code = (
        "import importlib.util as u, axlewright;"
        "from axlewright.workshop.template import template;"
        "from axlewright.build.reader import read_build;"
        "from axlewright.build.resolve import resolve;"
        "print(axlewright.__file__, resolve(read_build(template())).machine.name);"
        "print([m for m in ('pytest', 'skfem', 'pandas', 'pint') if u.find_spec(m)])"
    )
    where, found = run(binaries / "python", "-c", code, cwd=folder).splitlines()
    assert where.startswith(str(folder))
    assert found == "[]"


def test_installed_command_answers(installed):
    folder, binaries = installed
    said = run(binaries / "axlewright", "--help", cwd=folder)
    assert "check" in said and "paper" in said


def test_installed_command_checks_an_example_and_prints_its_paper(installed):
    folder, binaries = installed
    build = folder / "build.toml"
    build.write_bytes(EXAMPLES[0].read_bytes())
    said = run(binaries / "axlewright", "check", build.name, cwd=folder, fine=(0, 1))
    assert said.strip()
    run(binaries / "axlewright", "paper", build.name, "-o", "paper.pdf", cwd=folder, fine=(0, 1))
    assert (folder / "paper.pdf").read_bytes().startswith(b"%PDF-")
