"""What is wrong with a build file, where, and what would be right."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

Severity = Literal["error", "caution"]


@dataclass(frozen=True)
class Problem:
    """One finding about the text of a build file."""

    severity: Severity
    key: str
    message: str
    line: int
    column: int

    def text(self, file: str) -> str:
        """The message with its place, as every face prints it."""
        where = f"{self.key}: " if self.key else ""
        return f"{file}:{self.line}: {where}{self.message}"


class BuildError(Exception):
    """A build file that cannot be worked with; carries every problem found."""

    def __init__(self, file: str, problems: Sequence[Problem]) -> None:
        self.file = file
        self.problems = tuple(problems)
        super().__init__("\n".join(p.text(file) for p in problems))
