"""What every workflow is held to: small functions over a parsed workflow, each giving its complaints as text."""

from __future__ import annotations

import contextlib
import io
import re
import shlex
from dataclasses import dataclass
from pathlib import Path

import yaml

from build_tools.commands.__main__ import COMMANDS, _parser

PINNED = re.compile(r"uses:\s+[\w.-]+/[\w.-]+(?:/[\w./-]+)?@[0-9a-f]{40} # v\d+\.\d+\.\d+$")
# The only jobs that may write, and what: everything else reads.
MAY_WRITE = {("comment.yml", "comment"): {"pull-requests"}, ("publish.yml", "deploy"): {"pages", "id-token"}}
# The only jobs that may fail without a word: nothing waits for them.
MAY_FAIL = {("other-generator.yml", "elsewhere")}
PROJECT = re.compile(r"\bpython3? .*build_tools")
RULES = {}


@dataclass(frozen=True)
class Workflow:
    """A workflow file: its name, its text, and what it says (all scalars as text, so that `on` stays a word)."""

    name: str
    text: str
    data: dict

    @property
    def jobs(self) -> dict:
        return self.data["jobs"]

    @property
    def steps(self):
        """(job name, step) of every step."""
        return [(name, step) for name, job in self.jobs.items() for step in job["steps"]]

    @property
    def triggers(self) -> set[str]:
        on = self.data["on"]
        return {on} if isinstance(on, str) else set(on)

    @property
    def scripts(self) -> list[str]:
        """Every text that is run: shell lines, and scripts given to an action."""
        return [step[key] for _, step in self.steps for key in ("run",) if key in step] + [step["with"]["script"] for _, step in self.steps if "script" in step.get("with", {})]


def parsed(name: str, text: str) -> Workflow:
    return Workflow(name, text, yaml.load(text, yaml.BaseLoader))


def workflows(root: Path) -> dict[str, Workflow]:
    """File name → workflow."""
    return {path.name: parsed(path.name, path.read_text(encoding="utf-8")) for path in sorted((root / ".github" / "workflows").iterdir())}


def rule(function):
    RULES[function.__name__] = function
    return function


@rule
def pinned(w: Workflow):
    """Every action is pinned by a full hash, its version beside it."""
    return [f"not pinned: {line.strip()}" for line in w.text.splitlines() if re.match(r"\s*(?:- )?uses:", line) and not PINNED.search(line)]


@rule
def one_version(w: Workflow):
    """An action has one hash in a file."""
    seen = {}
    for _, step in w.steps:
        action, _, commit = step.get("uses", "").partition("@")
        seen.setdefault(action, set()).add(commit)
    return [f"{action} has several hashes" for action, commits in seen.items() if len(commits) > 1]


@rule
def least_permissions(w: Workflow):
    """The file grants nothing but reading; a job may write only what is listed for it."""
    if "permissions" not in w.data:
        return ["no permissions at the top"]
    if not isinstance(w.data["permissions"], dict):
        return [f"permissions: {w.data['permissions']}"]
    complaints = [f"the whole file may {level} {what}" for what, level in w.data["permissions"].items() if level != "read"]
    for name, job in w.jobs.items():
        granted = job.get("permissions", {})
        if not isinstance(granted, dict):
            complaints.append(f"{name}: permissions: {granted}")
            continue
        writes = {what for what, level in granted.items() if level not in ("read", "none")}
        complaints += [f"{name} may write {what}" for what in sorted(writes - MAY_WRITE.get((w.name, name), set()))]
    return complaints


@rule
def no_privileged_trigger(w: Workflow):
    """No workflow runs a pull request's code with leave to write, or on what anyone may write in a comment or an issue."""
    return [f"triggered by {t}" for t in sorted(w.triggers & {"pull_request_target", "issue_comment", "issues", "discussion", "discussion_comment"})]


@rule
def no_secrets(w: Workflow):
    """No secret but the run's own token, and not even that where a pull request's code runs."""
    found = re.findall(r"secrets\.\w+|secrets:\s*inherit|secrets\[", w.text)
    if "pull_request" in w.triggers:
        found += re.findall(r"github\.token|GITHUB_TOKEN", w.text)
    return [f"names {text}" for text in found]


@rule
def no_expression_in_scripts(w: Workflow):
    """What is run holds no expression: texts from outside come in through the environment, where they are not read as code."""
    return [f"{match} in a script" for text in w.scripts for match in re.findall(r"\$\{\{.*?\}\}", text)]


@rule
def no_credentials_left(w: Workflow):
    """A checkout leaves no credentials behind."""
    return [f"{job}: checkout keeps credentials" for job, step in w.steps if step.get("uses", "").startswith("actions/checkout@") and step.get("with", {}).get("persist-credentials") != "false"]


@rule
def bounded_in_time(w: Workflow):
    """Every job has a time limit of an hour or less, and runs of the same thing do not pile up."""
    late = [f"{name} has no time limit" for name, job in w.jobs.items() if not 0 < int(job.get("timeout-minutes", 0)) <= 60]
    return late + ([] if "group" in w.data.get("concurrency", {}) else ["no concurrency group"])


@rule
def failures_count(w: Workflow):
    """A failure stops the run, but for the jobs that nothing waits for; those never stop anything."""
    complaints = [f"{job}: a step may fail" for job, step in w.steps if "continue-on-error" in step]
    for name, job in w.jobs.items():
        if (w.name, name) in MAY_FAIL:
            complaints += [] if job.get("continue-on-error") == "true" else [f"{name} blocks"]
            complaints += [f"{other} waits for {name}" for other, found in w.jobs.items() if name in found.get("needs", [])]
        elif "continue-on-error" in job:
            complaints.append(f"{name} may fail")
    return complaints


@rule
def commands_exist(w: Workflow):
    """Every line that calls the project calls a command there is, with options it takes."""
    complaints = []
    for _, step in w.steps:
        for line in step.get("run", "").splitlines():
            if not PROJECT.search(line):
                continue
            words = shlex.split(line, comments=True)
            if words[:3] != ["python3", "-m", "build_tools"]:
                complaints.append(f"not the command that runs anywhere: {line}")
            elif said := refused(words[3:]):
                complaints.append(f"{line}: {said}")
    return complaints


@rule
def rare_shell(w: Workflow):
    """The project's work is done by its commands; what else a step runs is one of a few harmless lines."""
    allowed = {'cat build/changes.md >> "$GITHUB_STEP_SUMMARY"'}
    lines = [line for _, step in w.steps for line in step.get("run", "").splitlines()]
    return [f"shell: {line}" for line in lines if not PROJECT.search(line) and line not in allowed]


@rule
def comment_runs_nothing_of_the_change(w: Workflow):
    """Whoever may write to a pull request checks out nothing, runs no shell and starts no program."""
    writers = [name for name, job in w.jobs.items() if "pull-requests" in job.get("permissions", {}) and job["permissions"]["pull-requests"] == "write"]
    complaints = []
    for name in writers:
        for step in w.jobs[name]["steps"]:
            action = step.get("uses", "").split("@")[0]
            if "run" in step:
                complaints.append(f"{name} runs a shell")
            elif action not in ("actions/github-script", "actions/download-artifact"):
                complaints.append(f"{name} uses {action}")
            script = step.get("with", {}).get("script", "")
            complaints += [f"{name}: {word}" for word in re.findall(r"child_process|\bexec\b|\beval\b|new Function|import\(|require\((?!'fs'\))", script)]
        if w.triggers != {"workflow_run"}:
            complaints.append(f"{name} is triggered by {sorted(w.triggers)}")
    return complaints


@rule
def deployer_only_deploys(w: Workflow):
    """The job that may publish runs nothing but the deployment, after the build, on main."""
    complaints = []
    for name, job in w.jobs.items():
        if job.get("permissions", {}).get("pages") != "write":
            continue
        if [step.get("uses", "run").split("@")[0] for step in job["steps"]] != ["actions/deploy-pages"]:
            complaints.append(f"{name} does more than deploy")
        if "needs" not in job or "environment" not in job:
            complaints.append(f"{name} waits for no build, or has no environment")
        if w.data["on"] != {"push": {"branches": ["main"]}}:
            complaints.append(f"{name} runs on more than main")
    return complaints


def refused(words: list[str]) -> str:
    """What the command line says against the words; empty when it takes them."""
    command = next((word for word in words if word in COMMANDS), None)
    said = io.StringIO()
    with contextlib.redirect_stderr(said):
        try:
            _, further = _parser(command).parse_known_args(words)
        except SystemExit:
            return said.getvalue().strip().splitlines()[-1]
    return f"unknown: {' '.join(further)}" if further and command != "test" else ""
