"""The two versions: a git revision, a folder or the working tree, each read and checked with today's rules."""

from __future__ import annotations

import os
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import cached_property, lru_cache
from pathlib import Path, PurePosixPath

from ..check import check_tree
from ..check.schema_rules import SchemaSet
from ..problem import Problem, did_you_mean, errors
from ..read import DataTree, read_tree
from .plain import clean

WORKING_TREE = "the working tree"
LARGEST = 4_000_000  # bytes of a file taken from a revision; no file of data/ that is read comes near
GUIDES = "docs/guides"
MARKS_OF_DATA = ("crops", "sources", "library.yml")


class CannotCompare(ValueError):
    """A version that cannot be had; the message is for the person who asked."""


@dataclass
class Version:
    """One side: its name for people, the folder that holds data/, and what was read. `links` are problems found while it was fetched."""

    name: str
    root: Path
    tree: DataTree
    schemas: SchemaSet
    links: list[Problem] = field(default_factory=list)

    @cached_property
    def problems(self) -> list[Problem]:
        """Every error of today's checks; worked out when first wanted, since versions that do not differ need none."""
        return [*errors(check_tree(self.tree, self.schemas)), *self.links]

    @property
    def data(self) -> Path:
        return self.root / "data"

    @property
    def guides(self) -> Path:
        return self.root / GUIDES


def schemas_of(root: Path) -> SchemaSet:
    """The schemas of the project, which both versions are held against; loaded once."""
    return _schemas((root / "schema").resolve())


@lru_cache(maxsize=2)
def _schemas(folder: Path) -> SchemaSet:
    return SchemaSet.load(folder)


def _git(root: Path, *words: str, given: bytes = b"") -> bytes:
    """Run git without a shell, a prompt or a lock; its output. Raises CannotCompare."""
    environment = {**os.environ, "LC_ALL": "C", "GIT_TERMINAL_PROMPT": "0", "GIT_OPTIONAL_LOCKS": "0"}
    try:
        done = subprocess.run(["git", "-C", str(root), *words], input=given, capture_output=True, env=environment, check=False)
    except (FileNotFoundError, PermissionError) as error:
        raise CannotCompare("git is needed to read a revision, and was not found. Install it, or name a folder that holds the data.") from error
    if done.returncode:
        raise CannotCompare(clean(done.stderr.decode("utf-8", "replace").strip().split("\n")[-1], 300) or "git could not read the repository.")
    return done.stdout


def _commit(root: Path, name: str) -> str:
    """The commit of a revision's name. Raises CannotCompare with the nearest branch or tag."""
    try:
        _git(root, "rev-parse", "--git-dir")
    except CannotCompare as error:
        if "git is needed" in str(error):
            raise
        raise CannotCompare(f'"{clean(name, 100)}" is no folder, and revisions cannot be read, since the project is not in a git repository here ({error}). Name two folders that hold the data.') from error
    try:
        return _git(root, "rev-parse", "--verify", "--quiet", "--end-of-options", f"{name}^{{commit}}").decode().strip()
    except CannotCompare:
        names = _git(root, "for-each-ref", "--format=%(refname:short)", "refs/heads", "refs/tags", "refs/remotes").decode("utf-8", "replace").split("\n")
        hint = did_you_mean(name, filter(None, names))
        shallow = _git(root, "rev-parse", "--is-shallow-repository").strip() == b"true"
        more = "This copy holds only the newest revisions: fetch the whole history first (git fetch --unshallow)." if shallow else ""
        raise CannotCompare(" ".join(filter(None, (f'There is no folder and no revision "{clean(name, 100)}".', clean(hint, 300), more)))) from None


def _write_revision(root: Path, commit: str, target: Path) -> list[Problem]:
    """Write data/ and the guides of a commit below `target` as it stands in the repository; links are named as problems, never made."""
    listed = _git(root, "ls-tree", "-r", "-z", commit, "--", "data", GUIDES).split(b"\0")
    files, links = [], []
    for entry in filter(None, listed):
        fields, _, raw = entry.partition(b"\t")
        mode, kind, name = *fields.split()[:2], raw.decode("utf-8", "replace")
        if mode == b"120000" or kind != b"blob":
            links.append(Problem(name, 1, 1, "symlink", "A link to another file is not read.", "Put the file itself here."))
        elif ".." not in PurePosixPath(name).parts:
            files.append((name, fields.split()[2]))
    (target / "data").mkdir(parents=True, exist_ok=True)
    out, at = _git(root, "cat-file", "--batch", given=b"".join(blob + b"\n" for _, blob in files)), 0
    for name, _ in files:
        end = out.index(b"\n", at)
        fields = out[at:end].split()
        if len(fields) < 3:  # a copy without all of its objects
            raise CannotCompare(f"{clean(name, 120)} of that revision is not in this copy of the repository: fetch it whole first.")
        size = int(fields[2])
        path = target / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(out[end + 1 : end + 1 + min(size, LARGEST)])
        at = end + size + 2
    return links


def _is_data(folder: Path) -> bool:
    return folder.is_dir() and any((folder / name).exists() for name in MARKS_OF_DATA)


def _read(name: str, root: Path, schemas: SchemaSet, links: list[Problem] | None = None) -> Version:
    return Version(name, root, read_tree(root / "data"), schemas, links or [])


@contextmanager
def opened(root: Path, name: str | None) -> Iterator[Version]:
    """A version by name, read: a folder that holds data/ or is it, else a git revision; None is the working tree of the project `root`.

    Files of a revision stand in a temporary folder until the context ends. Raises CannotCompare.
    """
    schemas = schemas_of(root)
    if name is None:
        if not _is_data(root / "data"):
            raise CannotCompare("The project's folder data/ is missing or empty.")
        yield _read(WORKING_TREE, root, schemas)
        return
    if not name.strip() or "\0" in name:
        raise CannotCompare("A version needs a name: a git revision, or a folder that holds the data.")
    folder = Path(name)
    with tempfile.TemporaryDirectory(prefix="germination-changes-") as temporary:
        place = Path(temporary)
        try:
            is_folder = folder.is_dir()
        except OSError:  # a name too long for a file
            is_folder = False
        if is_folder and _is_data(folder / "data"):
            yield _read(f"the folder {clean(name, 100)}", folder.resolve(), schemas)
        elif is_folder and _is_data(folder):
            (place / "data").symlink_to(folder.resolve(), target_is_directory=True)
            if (docs := folder.resolve().parent / "docs").is_dir():
                (place / "docs").symlink_to(docs, target_is_directory=True)
            yield _read(f"the folder {clean(name, 100)}", place, schemas)
        else:
            try:
                commit = _commit(root, name)
            except CannotCompare as error:
                if is_folder:
                    raise CannotCompare(f"The folder {clean(name, 100)} holds no data/ and is none: crops/, sources/ or library.yml should stand there.") from error
                raise
            links = _write_revision(root, commit, place)
            if not _is_data(place / "data"):
                raise CannotCompare(f'The revision "{clean(name, 100)}" ({commit[:10]}) holds no data/.')
            shown = clean(name, 100)
            yield _read(shown if commit.startswith(name) else f"{shown} ({commit[:10]})", place, schemas, links)
