"""Nothing in the tree points at one machine, at a registry, or at work left over."""

import os
import re
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SKIPPED = {"__pycache__", "out", "dist", "htmlcov"}
KEPT_HIDDEN = {".ci", ".gitignore"}
BINARY = {".otf", ".woff2", ".png", ".jpg", ".pdf"}

# Written apart, so that this file does not find itself.
WORDS = ("TO" + "DO", "FIX" + "ME", "tran" + "script")
HOSTS = ("py" + "pi.org", "python" + "hosted.org", "arti" + "factory", "index" + "-url")
FOLDERS = ("home", "root", "work", "Users", "tmp", "opt", "srv", "mnt")
PATHS = re.compile(r"(?<![\w.~/)}-])/(?:" + "|".join(FOLDERS) + r")/\w|[A-Z]:\\Users")


def texts():
    for folder, inside, names in os.walk(ROOT):
        inside[:] = [d for d in inside if kept(d) and not d.endswith(".egg-info")]
        for name in filter(kept, names):
            path = Path(folder, name)
            if path.suffix not in BINARY:
                yield path.relative_to(ROOT).as_posix(), path.read_text(encoding="utf-8")


def kept(name):
    return name not in SKIPPED and (not name.startswith(".") or name in KEPT_HIDDEN)


def test_the_tree_is_looked_at():
    seen = {name for name, _ in texts()}
    assert {"pyproject.toml", "src/axlewright/__init__.py", ".ci/run", "Makefile"} <= seen
    assert not any(name.startswith(".venv") for name in seen)


def test_no_work_is_left_over():
    assert [(n, w) for n, text in texts() for w in WORDS if re.search(rf"\b{w}", text)] == []


def test_no_registry_is_named():
    assert [(n, h) for n, text in texts() for h in HOSTS if h in text.lower()] == []


def test_no_path_of_one_machine():
    assert [(n, m[0]) for n, text in texts() for m in PATHS.finditer(text)] == []


def test_pinned_versions_name_no_place():
    lines = (ROOT / "constraints.txt").read_text(encoding="utf-8").splitlines()
    pins = [line for line in lines if line and not line.startswith("#")]
    assert len(pins) > 10
    assert [p for p in pins if not re.fullmatch(r"[a-z0-9-]+==[0-9][0-9a-z.]*", p)] == []


def test_patterns_find_what_they_are_for():
    assert PATHS.search('open("/' + 'home/ann/x")')
    assert not PATHS.search("docs/" + "work/plan and frame/" + "root/x")
