"""When something is wrong: bad input in words, our own fault briefly with a log."""

from __future__ import annotations

import os
import sys
import tempfile
import traceback
from pathlib import Path
from typing import Any

import click
import typer

from axlewright.build.problems import BuildError
from axlewright.workshop import messages


class InputError(Exception):
    """Something that the user asked for cannot be done; says why and what would be right."""


def guarded(app: typer.Typer, arguments: list[str]) -> int:  # noqa: PLR0911 (one exit each)
    """Run the commands and give the exit code."""
    as_json = "--json" in arguments
    try:
        result: Any = typer.main.get_command(app).main(args=arguments, standalone_mode=False)
    except BuildError as e:
        _tell(messages.build_error_envelope(e) if as_json else str(e), as_json)
        return messages.BAD_INPUT
    except InputError as e:
        _tell(messages.error_envelope("bad input", str(e)) if as_json else str(e), as_json)
        return messages.BAD_INPUT
    except typer.Exit as e:
        return e.exit_code
    except click.ClickException as e:
        if as_json:
            _tell(messages.error_envelope("bad command", e.format_message()), as_json)
        else:
            said = e.format_message()
            twice = said.find("Did you mean", said.find("Did you mean") + 1)
            said = said[:twice].rstrip() if twice > 0 else said
            _tell(
                said
                if said.startswith("Usage")
                else f"{said.rstrip('?. ')}. See axlewright --help",
                as_json,
            )
        return messages.BAD_INPUT
    except (KeyboardInterrupt, typer.Abort):
        return 130
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return messages.HOLDS
    except Exception as e:
        return _our_fault(e, as_json)
    return result if isinstance(result, int) else messages.HOLDS


def _tell(text: str, as_json: bool) -> None:
    typer.echo(text, err=not as_json)


def _our_fault(error: Exception, as_json: bool) -> int:
    with tempfile.NamedTemporaryFile(
        "w", prefix="axlewright-", suffix=".log", delete=False, encoding="utf-8"
    ) as log:
        traceback.print_exception(error, file=log)
    text = (
        f"This is a fault of axlewright, not yours ({type(error).__name__})."
        " Your files are untouched."
        f" What happened stands in {log.name}"
    )
    _tell(messages.error_envelope("our fault", text) if as_json else text, as_json)
    return messages.OUR_FAULT


def write_new(path: Path, text: str) -> None:
    """Write a file that must not exist yet."""
    try:
        with path.open("x", encoding="utf-8") as f:
            f.write(text)
    except FileExistsError:
        raise InputError(f"{path} exists; choose another name, nothing was overwritten") from None
    except OSError as e:
        raise InputError(f"{path} cannot be written: {e.strerror}") from None


def writable(path: Path) -> None:
    """Refuse a path that cannot be written, before the work is done."""
    parent = path.parent
    try:
        parent.mkdir(parents=True, exist_ok=True)
    except OSError as e:
        raise InputError(f"{parent} cannot be made: {e.strerror}") from None
    if path.is_dir():
        raise InputError(f"{path} is a folder; name a file")
    if not os.access(path if path.exists() else parent, os.W_OK):
        raise InputError(f"{path} cannot be written here")
