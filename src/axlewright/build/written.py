"""How TOML writes a path of keys and a text, and what such writing says."""

from __future__ import annotations

import re
import tomllib

Path = tuple[str, ...]

PLAIN_KEY = re.compile(r"[A-Za-z0-9_-]+")
_PART = r"""(?:\s*(?:"(?:\\.|[^"\\\n])*"|'[^'\n]*')\s*|[^."'\n]+)"""
_DOTTED = re.compile(rf"{_PART}(?:\.{_PART})*")


def quoted(text: str) -> str:
    """Text as a TOML string on one line; with apostrophes round what a backslash would spoil."""
    if ('"' in text or "\\" in text) and "'" not in text and text.isprintable():
        return f"'{text}'"
    escapes = {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\t": "\\t", "\r": "\\r"}
    return f'"{"".join(escapes.get(c) or _plain(c) for c in text)}"'


def _plain(char: str) -> str:
    return f"\\u{ord(char):04x}" if char < " " or char == "\x7f" else char


def dotted(path: Path) -> str:
    """A path as TOML writes it, parts with other signs in quotes."""
    return ".".join(p if PLAIN_KEY.fullmatch(p) else quoted(p) for p in path)


def split(text: str) -> Path:
    """Parts of a dotted path; quotes are needed only round a part that holds a dot or a quote.

    Nothing for a text that is no path.
    """
    if not _DOTTED.fullmatch(text):
        return ()
    try:
        return tuple(decoded(part.strip()) for part in re.findall(_PART, text))
    except ValueError:
        return ()


def decoded(literal: str) -> str:
    """What a TOML literal says: the text of a string, anything else as it stands."""
    return str(tomllib.loads(f"v = {literal}")["v"]) if literal[:1] in {'"', "'"} else literal
