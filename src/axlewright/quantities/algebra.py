"""A formula's code as text: the expression that is computed, in symbols and in numbers."""

from __future__ import annotations

import ast
import functools
import inspect
import textwrap
from collections.abc import Callable, Mapping
from typing import Any

_PRECEDENCE: dict[type[ast.AST], int] = {
    ast.Add: 1, ast.Sub: 1, ast.Mult: 2, ast.Div: 2, ast.USub: 3, ast.Pow: 4,
}  # fmt: skip
_SIGNS: dict[type[ast.AST], str] = {
    ast.Add: " + ", ast.Sub: " − ", ast.Mult: "·", ast.Div: " / ",
    ast.Lt: " < ", ast.LtE: " ≤ ", ast.Gt: " > ", ast.GtE: " ≥ ", ast.Eq: " = ", ast.NotEq: " ≠ ",
    ast.BitAnd: " and ", ast.BitOr: " or ",
}  # fmt: skip
_POWERS = str.maketrans("0123456789-.", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻·")
_NAMES = {
    "sqrt": "√", "log": "ln", "arcsin": "asin", "arccos": "acos", "arctan": "atan",
    "arctan2": "atan2", "minimum": "min", "maximum": "max", "abs": "abs",
}  # fmt: skip
_ATOM = 9


@functools.cache
def straight_line(function: Callable[..., Any]) -> tuple[tuple[str, ast.expr], ...]:
    """Assignments and the returned expression of a formula's body; raises if it is not straight.

    Gives ``(name, expression)`` pairs; the returned expression has an empty name.
    """
    tree = ast.parse(textwrap.dedent(inspect.getsource(function)))
    body = tree.body[0]
    if not isinstance(body, ast.FunctionDef):
        raise ValueError(f"{function.__name__} is no plain function")
    lines: list[tuple[str, ast.expr]] = []
    for statement in body.body:
        if isinstance(statement, ast.Expr) and isinstance(statement.value, ast.Constant):
            continue  # the docstring
        if isinstance(statement, ast.Assign) and isinstance(statement.targets[0], ast.Name):
            lines.append((statement.targets[0].id, statement.value))
        elif isinstance(statement, ast.AnnAssign) and isinstance(statement.target, ast.Name):
            if statement.value is not None:
                lines.append((statement.target.id, statement.value))
        elif isinstance(statement, ast.Return) and statement.value is not None:
            lines.append(("", statement.value))
        else:
            raise ValueError(f"{function.__name__} is not straight: {ast.unparse(statement)}")
    return tuple(lines)


def render(node: ast.expr, names: Mapping[str, str]) -> str:
    """Print an expression with each name replaced by its symbol or number."""
    return _render(node, names)[0]


def _render(node: ast.expr, names: Mapping[str, str]) -> tuple[str, int]:  # noqa: PLR0911
    match node:
        case ast.Constant(value=value):
            return _constant(value), _ATOM
        case ast.Name(id=name):
            return names.get(name, name), _ATOM
        case ast.Attribute(attr="pi"):
            return "π", _ATOM
        case ast.Attribute(value=inner, attr=field):
            return f"{_render(inner, names)[0]}.{field}", _ATOM
        case ast.UnaryOp(op=ast.USub(), operand=operand):
            return f"−{_wrapped(operand, names, 3)}", 3
        case ast.BinOp(left=base, op=ast.Pow(), right=power):
            return _power(base, power, names), 4
        case ast.BinOp(left=left, op=op, right=right):
            return _binary(left, op, right, names)
        case ast.Compare(left=left, ops=[op], comparators=[right]):
            sign = _SIGNS[type(op)]
            return f"{_render(left, names)[0]}{sign}{_render(right, names)[0]}", 0
        case ast.Call():
            return _call(node, names), _ATOM
        case ast.Subscript(value=inner):
            return _render(inner, names)  # np.where(...)[()]
        case _:
            raise ValueError(f"cannot print {ast.unparse(node)}")


def _constant(value: object) -> str:
    if isinstance(value, float) and value.is_integer() and abs(value) < 1e6:
        return str(int(value))
    return f"{value:g}" if isinstance(value, float) else str(value)


def _wrapped(node: ast.expr, names: Mapping[str, str], least: int) -> str:
    text, precedence = _render(node, names)
    return text if precedence >= least else f"({text})"


def _binary(
    left: ast.expr, op: ast.operator, right: ast.expr, names: Mapping[str, str]
) -> tuple[str, int]:
    rank = _PRECEDENCE.get(type(op), 0)
    tighter = rank + 1 if isinstance(op, ast.Sub | ast.Div) else rank
    sign = _SIGNS.get(type(op), f" {type(op).__name__} ")
    if isinstance(op, ast.Mult) and isinstance(left, ast.BinOp) and isinstance(left.op, ast.Div):
        rank_of_left = rank + 1  # a / b·c would be read as a / (b·c)
    else:
        rank_of_left = rank
    return f"{_wrapped(left, names, rank_of_left)}{sign}{_wrapped(right, names, tighter)}", rank


def _power(base: ast.expr, power: ast.expr, names: Mapping[str, str]) -> str:
    inner = _wrapped(base, names, 5)
    match power:
        case ast.Constant(value=n) if isinstance(n, int | float) and n == int(n):
            return inner + str(int(n)).translate(_POWERS)
        case ast.UnaryOp(op=ast.USub(), operand=ast.Constant(value=n)) if isinstance(
            n, int | float
        ) and n == int(n):
            return inner + f"-{int(n)}".translate(_POWERS)
        case _:
            return f"{inner}^{_wrapped(power, names, _ATOM)}"


def _call(node: ast.Call, names: Mapping[str, str]) -> str:
    name = node.func.attr if isinstance(node.func, ast.Attribute) else ast.unparse(node.func)
    parts = [_render(a, names)[0] for a in node.args]
    if name == "where":
        return f"({parts[1]} if {parts[0]}, else {parts[2]})"
    if name == "sqrt" and _render(node.args[0], names)[1] == _ATOM and "(" not in parts[0]:
        return f"√{parts[0]}"
    return f"{_NAMES.get(name, name)}({', '.join(parts)})"
