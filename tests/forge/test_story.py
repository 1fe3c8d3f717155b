"""The whole way of a pull request: a value is changed on a branch, merged as the host merges it, reported on, and commented."""

import re
import shutil
import subprocess
import sys

import pytest

from .fake_host import Host, serving
from .player import FORK, Player, artifact, event, pull
from .workflows import workflows


def git(folder, *words):
    names = ["-c", "user.name=Wren (invented)", "-c", "user.email=wren@example.org", "-c", "commit.gpgsign=false", "-c", "protocol.file.allow=always"]
    return subprocess.run(["git", *names, *words], cwd=folder, capture_output=True, text=True, check=True).stdout.strip()


@pytest.fixture(scope="module")
def checkout(root, tmp_path_factory):
    """What the host checks out for a pull request: the merge of a contributor's branch into main, two commits deep."""
    work = tmp_path_factory.mktemp("story") / "work"
    for name in ("data", "docs/guides", "schema", "build_tools"):
        shutil.copytree(root / name, work / name, ignore=shutil.ignore_patterns("__pycache__"))
    git(work, "init", "-q", "-b", "main")
    git(work, "add", "-A")
    git(work, "commit", "-q", "-m", "The data as it is")
    git(work, "checkout", "-q", "-b", "warmer")
    tomato = work / "data" / "crops" / "tomato.yml"
    text = tomato.read_text(encoding="utf-8")
    before = re.search(r"minimum_c: \{value: ([\d.]+)", text)
    number = before[1]
    tomato.write_text(text.replace(before[0], f"minimum_c: {{value: {float(number) + 0.5:g}", 1), encoding="utf-8")
    git(work, "commit", "-q", "-a", "-m", "Tomato: a warmer minimum")
    commit = git(work, "rev-parse", "HEAD")
    git(work, "checkout", "-q", "main")
    (work / "NOTES.md").write_text("main has moved on\n", encoding="utf-8")
    git(work, "add", "-A")
    git(work, "commit", "-q", "-m", "A note")
    git(work, "merge", "-q", "--no-ff", "-m", "Merge", "warmer")
    clone = work.parent / "clone"
    git(work.parent, "clone", "-q", "--depth", "2", work.as_uri(), "clone")
    return clone, commit, number


def test_from_a_changed_value_to_its_comment(root, checkout, tmp_path):
    clone, commit, number = checkout
    files = workflows(root)
    line = next(step["run"] for step in files["check.yml"].jobs["changes"]["steps"] if "build_tools changes" in step.get("run", ""))
    words = line.removeprefix("python3 -m build_tools ").split()
    done = subprocess.run([sys.executable, "-m", "build_tools.commands", *words], cwd=clone, capture_output=True, text=True, timeout=180)
    assert done.returncode == 0, done.stderr
    report = (clone / "build" / "changes.md").read_bytes()
    host = Host(pulls=[pull(8, commit, FORK)], artifacts={70: [artifact(11, size=len(report))]})
    with serving(host) as base:
        Player(host, base, files["comment.yml"].jobs["comment"]["steps"], tmp_path).run(event(commit, FORK), {11: {"changes.md": report}})
    body, = [comment["body"] for comment in host.comments[8]]
    assert "Tomato" in body and f"{number} → {float(number) + 0.5:g} °C" in body
    assert "1 value" in body and "note" not in body.lower().split("touched")[0], "what moved on main meanwhile is not the pull request's"
