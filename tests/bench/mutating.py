"""One small fault at a time in a module's syntax tree: the mutants that `mutants` draws from.

Left out, since no test could or should tell them from the original: docstrings and annotations,
decorators and class options, asserts for the type checker, the words of a refusal, lengths at which
a quoted text is clipped, room for rounding, and `zip(strict=…)`.
"""

from __future__ import annotations

import ast
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial

COMPARES: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq, ast.Is: ast.IsNot, ast.IsNot: ast.Is, ast.In: ast.NotIn, ast.NotIn: ast.In,
}  # fmt: skip
SUMS: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult,
    ast.FloorDiv: ast.Mult, ast.Mod: ast.Mult,
}  # fmt: skip
CALLS = {"min": "max", "max": "min", "any": "all", "all": "any"}
CLIPPED = 20
"""A slice of a text up to this many letters or more clips it for a message."""
ROUNDING = 1e-6
"""Smaller numbers are room for rounding."""


@dataclass(frozen=True, slots=True)
class Spot:
    """A fault that can be put into a tree. `owner` is the function or method, "" at the top."""

    line: int
    owner: str
    old: str
    new: str
    put_in: Callable[[], None]


def spots(tree: ast.Module) -> list[Spot]:
    """List the faults that can be put into a module, each by calling its `put_in`."""
    return list(_inside(tree, "", at_top=True))


def _inside(node: ast.AST, owner: str, *, at_top: bool) -> Iterator[Spot]:
    for name, value in ast.iter_fields(node):
        if name in ("annotation", "returns", "decorator_list", "format_spec", "bases"):
            continue
        for place, child in enumerate(value if isinstance(value, list) else [value]):
            if not isinstance(child, ast.AST) or _is_left_out(child):
                continue
            put = partial(_put, node, name, place if isinstance(value, list) else None)
            inner, top = owner, at_top
            if at_top and isinstance(child, ast.ClassDef | ast.FunctionDef):
                inner = f"{owner}.{child.name}".lstrip(".")
                top = isinstance(child, ast.ClassDef)
            for new in _faulty(child):
                line = getattr(child, "lineno", getattr(node, "lineno", 0))
                yield Spot(line, owner, _short(child), _short(new), partial(put, new))
            yield from _inside(child, inner, at_top=top)
        if name == "ifs":
            for place, condition in enumerate(value):
                yield Spot(
                    condition.lineno, owner, f"if {_short(condition)}", "no condition",
                    partial(value.pop, place),
                )  # fmt: skip


def _put(node: ast.AST, name: str, place: int | None, new: ast.AST) -> None:
    if place is None:
        setattr(node, name, new)
    else:
        getattr(node, name)[place] = new


def _short(node: ast.AST) -> str:
    return ast.unparse(node).split("\n")[0][:90]


def _is_left_out(node: ast.AST) -> bool:
    match node:
        case ast.Raise() | ast.Assert() | ast.Import() | ast.ImportFrom():
            return True
        case ast.Expr(value=ast.Constant()):
            return True
        case ast.If(test=ast.Name(id="TYPE_CHECKING")):
            return True
        case ast.Assign(targets=[ast.Name(id="__slots__")]):
            return True
        case ast.keyword(arg="strict" | "slots" | "frozen" | "maxsize"):
            return True
        case ast.Subscript(value=ast.Name(id="Literal")) | ast.Call(func=ast.Name(id="cast")):
            return True
        case ast.Slice(upper=ast.Constant(value=int(end))):
            return end >= CLIPPED
    return False


def _faulty(node: ast.AST) -> Iterator[ast.AST]:
    """Yield what stands in a node's place, one fault each."""
    match node:
        case ast.Compare(left=left, ops=[op], comparators=[right]):
            yield ast.Compare(left, [COMPARES[type(op)]()], [right])
            if isinstance(right, ast.Tuple | ast.Set) and len(right.elts) > 1:
                for each in right.elts:
                    rest: list[ast.expr] = [other for other in right.elts if other is not each]
                    yield ast.Compare(left, [op], [ast.Tuple(rest, ast.Load())])
        case ast.BoolOp(op=op, values=values):
            yield ast.BoolOp(ast.Or() if isinstance(op, ast.And) else ast.And(), values)
        case ast.UnaryOp(op=ast.Not(), operand=operand):
            yield ast.Call(ast.Name("bool", ast.Load()), [operand], [])
        case ast.BinOp(left=left, op=op, right=right) if type(op) in SUMS:
            if not (_is_text(left) or _is_text(right)):
                yield ast.BinOp(left, SUMS[type(op)](), right)
        case ast.AugAssign(target=target, op=op, value=value) if type(op) in SUMS:
            if not _is_text(value):
                yield ast.AugAssign(target, SUMS[type(op)](), value)
        case ast.IfExp(test=test, body=body, orelse=orelse):
            yield ast.IfExp(test, orelse, body)
        case ast.If(test=test, body=body, orelse=orelse):
            if isinstance(body[-1], ast.Raise) and not orelse:
                yield ast.If(ast.Constant(value=False), body, orelse)
            elif not isinstance(test, ast.Compare | ast.UnaryOp):
                yield ast.If(ast.UnaryOp(ast.Not(), test), body, orelse)
        case ast.Constant(value=bool(value)):
            yield ast.Constant(value=not value)
        case ast.Constant(value=int(value) | float(value)) if abs(value) >= ROUNDING or not value:
            yield ast.Constant(value=value + 1 if abs(value) < 10 else value * 2)
        case ast.Call(func=ast.Name(id=name), args=args, keywords=keywords) if name in CALLS:
            yield ast.Call(ast.Name(CALLS[name], ast.Load()), args, keywords)
        case ast.Call(func=ast.Name(id="replace") as func, args=args, keywords=keywords):
            for one in keywords:
                yield ast.Call(func, args, [each for each in keywords if each is not one])
        case ast.Expr(value=ast.Call()) | ast.Continue():
            yield ast.Pass()


def _is_text(node: ast.AST) -> bool:
    """Whether an operand is plainly a text or a list: adding the other way is no fault, but a crash."""
    return isinstance(node, ast.JoinedStr | ast.Tuple | ast.List) or (
        isinstance(node, ast.Constant) and isinstance(node.value, str)
    )
