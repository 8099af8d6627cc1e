"""Works out a printed line of arithmetic, by another way than the product prints it.

The line is turned into an expression of Python, which may hold numbers, signs and a few functions
only. Degrees become radians where the sign stands.
"""

from __future__ import annotations

import ast
import math
import re
from collections.abc import Mapping

FUNCTIONS = {
    "sqrt": math.sqrt,
    "tan": math.tan,
    "sin": math.sin,
    "ln": math.log,
    "exp": math.exp,
    "log2": math.log2,
    "radians": math.radians,
}
NUMBER = r"(?:\d+(?:\.\d+)?)"
_ALLOWED = (
    ast.Expression, ast.BinOp, ast.UnaryOp, ast.Constant, ast.Name, ast.Call, ast.Load,
    ast.Add, ast.Sub, ast.Mult, ast.Div, ast.Pow, ast.USub,
)  # fmt: skip


def word(name: str) -> str:
    """A pattern for a symbol that stands by itself."""
    return rf"(?<![A-Za-z0-9.]){re.escape(name)}(?![A-Za-z0-9])"


def value_of(printed: str, numbers: Mapping[str, float] | None = None) -> float:
    """What a printed expression comes to; `numbers` are those of its symbols. ValueError if not."""
    text, names = printed, dict(numbers or {})
    order = sorted(names, key=len, reverse=True)
    for at, name in enumerate(order):
        text = re.sub(word(name), f" @{at}@ ", text)
    for sign, python in (("×", "*"), ("·", "*"), ("÷", "/"), ("−", "-"), ("^", "**")):
        text = text.replace(sign, python)
    text = text.replace("²", "**2").replace("³", "**3").replace("√", "sqrt").replace("π", " pi ")
    text = re.sub(rf"({NUMBER}|@\d+@)\s*°", r"radians(\1)", text)
    text = re.sub(r"@(\d+)@", r"symbol\1", text).strip()
    # An angle is written in degrees; its symbol has no sign of them.
    values = {
        f"symbol{at}": math.radians(names[name]) if name.endswith("angle") else names[name]
        for at, name in enumerate(order)
    }
    try:
        tree = ast.parse(text, mode="eval")
    except SyntaxError as error:
        raise ValueError(f"'{printed}' is no arithmetic") from error
    for node in ast.walk(tree):
        if not isinstance(node, _ALLOWED):
            raise ValueError(f"'{printed}' holds what is no arithmetic")
        if isinstance(node, ast.Name) and node.id not in {*FUNCTIONS, *values, "pi"}:
            raise ValueError(f"'{node.id}' in '{printed}' has no number")
    code = compile(tree, "printed", "eval")
    return float(eval(code, {"__builtins__": {}}, {**FUNCTIONS, **values, "pi": math.pi}))
