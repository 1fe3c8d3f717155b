"""A scratch copy of the project's data and schemas, and the commands run on it."""

from __future__ import annotations

import shutil
from functools import cache
from pathlib import Path

from build_tools.check.schema_rules import SchemaSet
from build_tools.commands import __main__ as commands

load_once = cache(SchemaSet.load)  # the schemas of the project stay as they are: they are compiled once for all tests


class Project:
    """A folder with data/, the guides and schema/; `run` runs a command there and keeps what it printed."""

    def __init__(self, data: Path, root: Path, folder: Path, capsys, monkeypatch):
        shutil.copytree(data, folder / "data")
        shutil.copytree(data.parent / "docs" / "guides", folder / "docs" / "guides")
        shutil.copytree(root / "schema", folder / "schema")
        self.folder, self.capsys, self.out, self.err = folder, capsys, "", ""
        monkeypatch.setattr(commands, "ROOT", folder)
        monkeypatch.setattr(SchemaSet, "load", lambda _: load_once(root / "schema"))

    def run(self, *words: str) -> int:
        """The exit status of a command; what it said is in `out` and `err`."""
        self.capsys.readouterr()
        try:
            status = commands.main(list(words))
        finally:
            self.out, self.err = self.capsys.readouterr()
        return status

    def file(self, name: str, content: str | bytes) -> str:
        """A file beside the data, such as somebody's table; its path as typed."""
        path = self.folder / name
        path.write_bytes(content if isinstance(content, bytes) else content.encode("utf-8"))
        return str(path)

    def text(self, name: str) -> str:
        """A file's text under data/."""
        return (self.folder / "data" / name).read_text(encoding="utf-8")

    def change(self, name: str, old: str, new: str) -> None:
        """Put `new` in the place of the one `old` in a file under data/."""
        text = self.text(name)
        assert text.count(old) == 1, f"{name} holds {old!r} {text.count(old)} times"
        (self.folder / "data" / name).write_text(text.replace(old, new), encoding="utf-8")
