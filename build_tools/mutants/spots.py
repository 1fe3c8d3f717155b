"""Where a source text can be changed so that it computes something else: the same small changes for Python and JavaScript.

Comparisons (the boundary and the opposite), arithmetic, and/or, not, the sign, numbers, true and false, texts, min and max,
floor and ceil, any and all, conditions turned round, statements left out, nothing returned, break and continue.
Left alone: documentation, comments, type hints, decorators, imports, what an error says, keys in square brackets, and `strict=` of
zip, which repeats a check. A first assignment is not left out either: the name would be missing, and any test would see that.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from tree_sitter import Language, Node, Parser

ARITHMETIC = {"+": "-", "-": "+", "*": "/", "/": "*", "//": "/", "%": "*", "**": "*"}
BOUNDARY = {"<": "<=", "<=": "<", ">": ">=", ">=": ">"}
OPPOSITE = {"<": ">=", "<=": ">", ">": "<=", ">=": "<", "==": "!=", "!=": "==", "===": "!==", "!==": "===",
            "is": "is not", "is not": "is", "in": "not in", "not in": "in"}
LOGIC = {"and": "or", "or": "and", "&&": "||", "||": "&&"}
CALLS = {"min": "max", "max": "min", "any": "all", "all": "any", "abs": "", "math.floor": "math.ceil", "math.ceil": "math.floor", "np.maximum": "np.minimum",
         "Math.min": "Math.max", "Math.max": "Math.min", "Math.abs": "", "Math.floor": "Math.ceil", "Math.ceil": "Math.floor"}
METHODS = {"some": "every", "every": "some"}
SKIPPED = {"comment", "import_statement", "import_from_statement", "future_import_statement", "type", "decorator", "export_clause"}
ERRORS = {"raise_statement", "throw_statement"}
PLAIN = {"comparison_operator", "boolean_operator", "not_operator", "binary_expression", "true", "false"}  # changed from inside
FUNCTIONS = {"function_definition", "function_declaration", "arrow_function", "method_definition"}
TINY = 1e-3  # below it a number is an allowance for rounding: gone, or far too large


@dataclass(frozen=True)
class Mutant:
    """One change: bytes start..end of the file become `new`. `first` and `last` are the lines of the statement around it.

    `inside` is False for what runs when the module is loaded: constants, defaults of arguments, class bodies.
    """

    file: str
    function: str
    line: int
    text: str
    old: str
    new: str
    nth: int
    start: int
    end: int
    first: int
    last: int
    inside: bool

    @property
    def change(self) -> str:
        return f"{self.old or 'nothing'} → {self.new or 'nothing'}" + (f" ({self.nth})" if self.nth > 1 else "")

    @property
    def key(self) -> tuple[str, str, str, str]:
        """What it is known by as long as its line stays as it is, wherever that moves to."""
        return (self.file, self.function, self.text, self.change)

    def applied(self, source: bytes) -> bytes:
        return source[: self.start] + self.new.encode() + source[self.end :]


@cache
def _parser(ending: str) -> Parser:
    if ending == ".py":
        import tree_sitter_python as grammar
    else:
        import tree_sitter_javascript as grammar
    return Parser(Language(grammar.language()))


def tree_of_text(name: str, source: bytes) -> Node:
    """The syntax tree of a Python or JavaScript text, by the ending of its name."""
    return _parser(Path(name).suffix).parse(source).root_node


def mutants_of(path: Path) -> list[Mutant]:
    """Every mutant of a file, in the order of the text; ValueError when the file does not parse."""
    return list(_Walk(path).all())


class _Walk:
    def __init__(self, path: Path):
        self.path, self.python = path, path.suffix == ".py"
        self.source = path.read_bytes()
        self.lines = self.source.decode().splitlines()
        self.seen: Counter = Counter()
        self.assigned: dict[str, set[str]] = {}
        self.root = tree_of_text(path.name, self.source)
        if self.root.has_error:
            raise ValueError(f"{path} cannot be read")

    def all(self) -> Iterator[Mutant]:
        yield from self.walk(self.root, "", False, self.root)

    def walk(self, node: Node, function: str, inside: bool, statement: Node) -> Iterator[Mutant]:
        if node.type in SKIPPED or _is_documentation(node) or (node.type == "keyword_argument" and _text(node.child_by_field_name("name")) == "strict"):
            return
        if node.parent and node.parent.type in ("block", "statement_block", "module", "program"):
            statement = node
        for start, end, new in self.changes(node, function):
            old = _short(self.source[start:end].decode())
            line = self.source[:start].count(b"\n") + 1
            text = self.lines[line - 1].strip()
            key = (function, text, old, _short(new))
            self.seen[key] += 1
            last = statement.end_point[0] + 1
            body = statement.child_by_field_name("body") or statement.child_by_field_name("consequence")
            if body and start < body.start_byte:  # the head of an if, for or while
                last = body.start_point[0] + 1
            yield Mutant(self.path.name, function, line, text, old, new, self.seen[key], start, end, statement.start_point[0] + 1, last, inside)
        if node.type in ERRORS:
            return
        named = function
        if not inside and node.type in ("function_definition", "function_declaration", "class_definition", "class_declaration", "method_definition", "variable_declarator"):
            named = f"{function}.{_text(node.child_by_field_name('name'))}".strip(".")
        for child in node.children:
            body = not inside and node.type in FUNCTIONS and child == node.child_by_field_name("body")
            yield from self.walk(child, named, inside or body, statement)

    def changes(self, node: Node, function: str) -> Iterator[tuple[int, int, str]]:
        """(start, end, new text) of every change at this very node."""
        kind = node.type
        if kind in ("binary_operator", "binary_expression", "boolean_operator"):
            yield from _operator(node.child_by_field_name("operator"))
        elif kind == "comparison_operator":
            for operator in node.children_by_field_name("operators"):
                yield from _operator(operator)
        elif kind in ("augmented_assignment", "augmented_assignment_expression"):
            operator = node.child_by_field_name("operator")
            if new := ARITHMETIC.get(_text(operator).removesuffix("=")):
                yield (*_span(operator), new + "=")
        elif kind == "update_expression":
            operator = node.child_by_field_name("operator")
            yield (*_span(operator), {"++": "--", "--": "++"}[_text(operator)])
        elif kind == "not_operator" or (kind in ("unary_operator", "unary_expression") and _text(node.child_by_field_name("operator")) in "-!"):
            yield (*_span(node), _text(node.child_by_field_name("argument")))
        elif kind in ("integer", "float", "number"):
            yield from ((*_span(node), new) for new in _other_numbers(_text(node)))
        elif kind in ("true", "false"):
            yield (*_span(node), {"True": "False", "False": "True", "true": "false", "false": "true"}[_text(node)])
        elif kind == "string" and not self._is_name(node):
            if not any(child.type == "interpolation" for child in node.children):
                text = _text(node)
                yield (*_span(node), f"{text[:-1]}?{text[-1]}")
        elif kind in ("call", "call_expression"):
            yield from _call(node.child_by_field_name("function"))
        else:
            yield from self.statements(node, function)
        condition = _condition(node)
        if condition is not None and condition.type not in PLAIN and not (condition.type == "unary_expression" and _text(condition).startswith("!")):
            yield (*_span(condition), f"not ({_text(condition)})" if self.python else f"!({_text(condition)})")

    def statements(self, node: Node, function: str) -> Iterator[tuple[int, int, str]]:
        nothing = "pass" if self.python else ";"
        if node.type == "return_statement" and node.named_child_count and node.named_child(0).type not in ("none", "null"):
            yield (*_span(node), "return None" if self.python else "return null;")
        elif node.type in ERRORS:
            yield (*_span(node), nothing)
        elif node.type in ("break_statement", "continue_statement"):
            yield (node.start_byte, node.start_byte + len(node.type.split("_")[0]), "continue" if node.type.startswith("break") else "break")
        elif node.type == "expression_statement":
            what = node.named_child(0)
            if what.type in ("call", "call_expression", "augmented_assignment", "augmented_assignment_expression", "update_expression"):
                yield (*_span(node), nothing)
            elif what.type in ("assignment", "assignment_expression"):
                left = what.child_by_field_name("left")
                names = self.assigned.setdefault(function, set())
                if not self.python or left.type in ("subscript", "attribute") or _text(left) in names:
                    yield (*_span(node), nothing)
                names.add(_text(left))

    def _is_name(self, node: Node) -> bool:
        """A key in brackets, or what a check is to call a number when it refuses it."""
        if node.parent.type in ("argument_list", "arguments"):
            return _text(node.parent.parent).lstrip("_").startswith("check")
        return node.parent.type in ("subscript", "subscript_expression") or node.parent.type.startswith(("import", "export"))


def _operator(node: Node) -> Iterator[tuple[int, int, str]]:
    text = " ".join(_text(node).split())
    for table in (ARITHMETIC, BOUNDARY, OPPOSITE, LOGIC):
        if text in table:
            yield (*_span(node), table[text])


def _call(function: Node) -> Iterator[tuple[int, int, str]]:
    text = _text(function)
    if text in CALLS:
        yield (*_span(function), CALLS[text])
    elif function.type == "member_expression":
        method = function.child_by_field_name("property")
        if _text(method) in METHODS:
            yield (*_span(method), METHODS[_text(method)])


def _condition(node: Node) -> Node | None:
    """The condition of an if, while or for, of a choice between two values, or of a comprehension."""
    if node.type == "conditional_expression":
        return node.named_child(1)
    if node.type == "if_clause":
        return node.named_child(0)
    if node.type in ("if_statement", "elif_clause", "while_statement", "for_statement", "ternary_expression"):
        found = node.child_by_field_name("condition")
        return found.named_child(0) if found is not None and found.type == "parenthesized_expression" else found
    return None


def _other_numbers(text: str) -> list[str]:
    value = float(text.replace("_", ""))
    whole = value.is_integer()
    if whole and not {".", "e"} & set(text):
        others = [str(int(value) + 1), str(int(value) - 1)]
    elif whole:
        others = [repr(value + 1), repr(value - 1)]
    elif abs(value) < TINY:
        others = ["0.0", repr(value + 1)]
    else:
        others = [repr(value * 1.1), repr(value * 0.9)]
    return [f"({other})" if other.startswith("-") else other for other in others]


def _is_documentation(node: Node) -> bool:
    return node.type == "expression_statement" and node.named_child_count == 1 and node.named_child(0).type == "string"


def _span(node: Node) -> tuple[int, int]:
    return node.start_byte, node.end_byte


def _text(node: Node) -> str:
    return node.text.decode()


def _short(text: str) -> str:
    text = " ".join(text.split())
    return text if len(text) <= 60 else text[:59] + "…"
