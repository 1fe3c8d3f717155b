"""Scratch projects with the small sound tree, in git repositories of their own."""

from __future__ import annotations

import os
import shutil
import subprocess
from contextlib import ExitStack
from html.parser import HTMLParser
from pathlib import Path

import pytest

from build_tools.changes import opened
from build_tools.changes.compare import compare_data, compare_versions
from tests.rules.trees import copy_sound, place_of

ROOT = Path(__file__).resolve().parents[2]
NOT_LINKED = ("data", "docs", "build", "tests")


class Project:
    """A project whose data is a copy of the small sound tree, and whose everything else is the real one."""

    def __init__(self, folder: Path):
        self.root, self.data = folder, folder / "data"
        folder.mkdir()
        for entry in ROOT.iterdir():
            if not entry.name.startswith(".") and entry.name not in NOT_LINKED:
                (folder / entry.name).symlink_to(entry, target_is_directory=entry.is_dir())
        copy_sound(folder)
        for entry in (ROOT / "docs").iterdir():
            if entry.name != "guides":
                (folder / "docs" / entry.name).symlink_to(entry, target_is_directory=entry.is_dir())

    def git(self, *words: str) -> str:
        """Run git here with no settings of the machine; its output."""
        environment = {"PATH": os.environ["PATH"], "HOME": str(self.root.parent), "GIT_CONFIG_NOSYSTEM": "1"}
        done = subprocess.run(["git", "-c", "user.name=Tester", "-c", "user.email=tester@example.org", *words], cwd=self.root, env=environment, capture_output=True, text=True, check=True)
        return done.stdout.strip()

    def commit(self) -> str:
        """Commit data/ and the guides; the commit's name."""
        if not (self.root / ".git").exists():
            self.git("init", "-q", "-b", "main")
        self.git("add", "-A", "data", "docs/guides")
        self.git("commit", "-q", "--allow-empty", "-m", "Data")
        return self.git("rev-parse", "HEAD")

    def edit(self, file: str, old: str, new: str) -> None:
        """Replace the one place where `old` stands."""
        path = place_of(Path(file), self.data)
        text = path.read_text(encoding="utf-8")
        assert text.count(old) == 1, f"{file} holds {old!r} {text.count(old)} times"
        path.write_text(text.replace(old, new), encoding="utf-8")

    def write(self, file: str, text: str) -> None:
        path = place_of(Path(file), self.data)
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")

    def before(self) -> Path:
        """The data and the guides as they are now, kept in a folder to compare with."""
        kept = self.root.parent / "before"
        shutil.copytree(self.data, kept / "data")
        shutil.copytree(self.root / "docs" / "guides", kept / "docs" / "guides")
        return kept

    def compare(self, base, head=None, whole: bool = False):
        """The report; `whole` renders both sides too."""
        with ExitStack() as stack:
            sides = [stack.enter_context(opened(self.root, None if name is None else str(name))) for name in (base, head)]
            return (compare_versions if whole else compare_data)(*sides, self.root)


class Page(HTMLParser):
    """Tags, attributes and text of a page."""

    def __init__(self, html):
        super().__init__()
        self.tags, self.text, self.attributes = [], "", []
        self.feed(html)

    def handle_starttag(self, tag, attributes):
        self.tags.append(tag)
        self.attributes += [(tag, name, value) for name, value in attributes]

    def handle_data(self, data):
        self.text += data


@pytest.fixture
def project(tmp_path) -> Project:
    return Project(tmp_path / "project")


@pytest.fixture
def change(project):
    """change((file, old, new), …): edits the sound tree; the report from before to after, and with back=True the other way round."""

    def run(*edits, back: bool = False):
        kept = project.before()
        for file, old, new in edits:
            if old is None:
                project.write(file, new)
            elif new is None:
                (project.data / file).unlink()
                if not any((project.data / file).parent.iterdir()):
                    (project.data / file).parent.rmdir()
            else:
                project.edit(file, old, new)
        report = project.compare(project.root, kept) if back else project.compare(kept)
        shutil.rmtree(kept)
        return report

    return run


def one(report, **wanted):
    """The one change that has these fields."""
    found = [c for c in report.changes if all(getattr(c, key) == value for key, value in wanted.items())]
    assert len(found) == 1, (wanted, [(c.name, c.what, c.kind, c.shown) for c in report.changes])
    return found[0]
