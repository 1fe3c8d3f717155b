"""A mutant's code in the place of the real one: of one loaded function, or of a whole module as it is loaded."""

from __future__ import annotations

import importlib.abc
import importlib.util
import sys
from pathlib import Path
from types import CodeType, FunctionType

from .pool import Broken
from .spots import Mutant


class Changed(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Loads one module from a changed text, as if it stood in its file."""

    def __init__(self, name: str, path: Path, text: bytes):
        self.name, self.path, self.text = name, path, text

    def find_spec(self, fullname, path, target=None):
        return importlib.util.spec_from_file_location(fullname, self.path, loader=self) if fullname == self.name else None

    def exec_module(self, module):
        exec(compile(self.text, str(self.path), "exec"), module.__dict__)


def exchange(name: str, path: Path, mutant: Mutant) -> None:
    """Give the loaded function that a mutant changes its changed code."""
    code = _code_of(compile(mutant.applied(path.read_bytes()), str(path), "exec"), mutant.function)
    found = sys.modules[name]
    for part in mutant.function.split("."):
        found = vars(found)[part]
    while not isinstance(found, FunctionType):  # behind a property, a cache, a class method
        found = next(getattr(found, inner) for inner in ("fget", "func", "__wrapped__", "__func__") if hasattr(found, inner))
    found.__code__ = code


def _code_of(code: CodeType, function: str) -> CodeType:
    for inner in code.co_consts:
        if isinstance(inner, CodeType):
            if inner.co_qualname == function:
                return inner
            if function.startswith(inner.co_qualname + "."):
                return _code_of(inner, function)
    raise Broken(f"there is no function {function}")
