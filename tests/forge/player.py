"""Plays the job of the comment workflow step by step, its own scripts run by Node, against a made-up host."""

from __future__ import annotations

import json
import os
import re
import subprocess
from dataclasses import dataclass
from pathlib import Path

import playwright

from .fake_host import REPOSITORY, Host

NODE = next(Path(playwright.__file__).parent.glob("driver/node*"))  # comes with the package, so that no other is needed
PLAY = Path(__file__).with_name("play.mjs")
HERE, FORK = {"id": 1, "owner": {"login": "wrenfield"}}, {"id": 2, "owner": {"login": "hazel"}}
OLD, NEW = "a" * 40, "b" * 40


@dataclass
class Player:
    """Plays the job's steps in their order, each under its own condition, with its own environment."""

    host: Host
    base: str
    steps: list[dict]
    folder: Path

    def run(self, event: dict, reports: dict[int, dict[str, bytes]] | None = None) -> list[str]:
        """Play one event; `reports` holds the files of each artifact. What the scripts noted."""
        outputs, noted = {}, []
        for step in self.steps:
            condition = re.fullmatch(r"steps\.find\.outputs\.(\w+) != ''", step["if"]) if "if" in step else None
            if condition and not outputs.get(condition[1]):
                continue
            if step["uses"].startswith("actions/download-artifact@"):
                self._fetch(self._filled(step["with"], outputs, event), reports or {})
                continue
            said = self._script(step["with"]["script"], self._filled(step.get("env", {}), outputs, event), event)
            noted += said["notices"]
            if "id" in step:
                outputs = said["outputs"]
        return noted

    def _filled(self, texts: dict, outputs: dict, event: dict) -> dict:
        known = {"runner.temp": str(self.folder), "github.token": "token", "github.event.workflow_run.id": str(event["workflow_run"]["id"])}
        def value(match):
            name = match[1]
            return outputs.get(name.removeprefix("steps.find.outputs."), "") if name.startswith("steps.find.outputs.") else known[name]
        return {key: re.sub(r"\$\{\{ (.+?) \}\}", value, text) for key, text in texts.items()}

    def _fetch(self, given: dict, reports: dict) -> None:
        artifact = int(given["artifact-ids"])
        assert artifact in {a["id"] for a in self.host.artifacts[int(given["run-id"])]}, "an artifact of another run"
        for name, content in reports[artifact].items():
            path = Path(given["path"]) / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(content)

    def _script(self, script: str, env: dict, event: dict) -> dict:
        owner, repo = REPOSITORY.split("/")
        task = {"script": script, "base": self.base, "payload": event, "repo": {"owner": owner, "repo": repo}}
        done = subprocess.run([NODE, PLAY], input=json.dumps(task), capture_output=True, text=True, timeout=60, env={"PATH": os.environ["PATH"], **env})
        if done.returncode:
            raise RuntimeError(done.stderr)
        return json.loads(done.stdout)


def event(commit=NEW, repository=HERE, branch="warmer", run=70):
    """The event of a run that ended. As for forks, it lists no pull requests."""
    run = {"id": run, "event": "pull_request", "conclusion": "success", "head_sha": commit, "head_branch": branch, "head_repository": repository, "pull_requests": [], "html_url": f"https://host.example/runs/{run}"}
    return {"workflow_run": run, "repository": {"default_branch": "main"}}


def pull(number=5, commit=NEW, repository=HERE, branch="warmer", state="open", base="main"):
    owner = repository["owner"]["login"] if repository else "gone"
    return {"number": number, "state": state, "base": {"ref": base}, "head": {"label": f"{owner}:{branch}", "sha": commit, "repo": repository}}


def artifact(number, size=900, name="changes-report", expired=False):
    return {"id": number, "name": name, "size_in_bytes": size, "expired": expired}
