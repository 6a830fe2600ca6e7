"""The working behind a number as a tree that opens step by step."""

from __future__ import annotations

from dataclasses import dataclass, field

from axlewright.quantities.working import Node, Step, steps


@dataclass
class Branch:
    """One step and the steps that it used."""

    title: str
    result: str
    lines: tuple[str, ...]
    source: str
    origin: str
    below: list[Branch] = field(default_factory=list)

    @property
    def steps(self) -> int:
        """How many steps hang below this one."""
        return sum(1 + b.steps for b in self.below)


def tree(node: Node) -> Branch:
    """The working of a node, the answer at its root."""
    root, *rest = steps(node)
    top = _branch(root)
    open_branches = [top]
    for step in rest:
        del open_branches[step.depth :]
        made = _branch(step)
        open_branches[-1].below.append(made)
        open_branches.append(made)
    return top


def _branch(step: Step) -> Branch:
    title = step.title.rstrip(".").replace("_", " ")
    return Branch(title, step.result, step.lines, step.source, step.origin)
