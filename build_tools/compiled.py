"""Templates compiled once: Jinja's code for each is kept from build to build (see kept.py), and in memory while one process runs."""

from __future__ import annotations

from functools import cache
from importlib.metadata import version
from pathlib import Path

from jinja2 import BytecodeCache

from . import kept

KIND = "templates"
_known: dict[str, bytes] = {}


class Compiled(BytecodeCache):
    """Code of templates. `way` names how an environment compiles: the same text compiled another way is other code."""

    def __init__(self, way: str):
        self.way = way

    def get_cache_key(self, name: str, filename: str | None = None) -> str:
        """The template's name: where the folder of templates lies makes no other code."""
        return name

    def load_bytecode(self, bucket) -> None:
        name = self._name(bucket)
        content = _known.get(name) or kept.get(KIND, name)
        if content is not None:
            bucket.bytecode_from_string(content)

    def dump_bytecode(self, bucket) -> None:
        name = self._name(bucket)
        _known[name] = bucket.bytecode_to_string()
        kept.put(KIND, name, _known[name])

    def _name(self, bucket) -> str:
        """Its checksum is that of the text; Python's version stands in the code itself."""
        return kept.key(self.way.encode(), _helpers(), bucket.key.encode(), bucket.checksum.encode())


@cache
def _helpers() -> bytes:
    """All code here and the packages that templates use: what is constant in a template is worked out when it is compiled."""
    files = sorted(Path(__file__).parent.rglob("*.py"))
    versions = " ".join(version(name) for name in ("jinja2", "markupsafe", "mkdocs", "mkdocs-material"))
    return kept.key(versions.encode(), *(file.read_bytes() for file in files)).encode()
