"""The workflows keep every rule of workflows.py, and every rule is seen to fail on a spoilt copy."""

import pytest

from .workflows import RULES, parsed, workflows

# rule, file, text to replace, replacement, what the complaint says
SPOILT = [
    ("pinned", "check.yml", "actions/checkout@08c6903cd8c0fde910a37f88322edcfb5dd907a8 # v5.0.0", "actions/checkout@v5", "actions/checkout@v5"),
    ("pinned", "check.yml", "@e797f83bcb11b83ae66e0230d6156d7c80228e7c # v6.0.0", "@e797f83bcb11b83ae66e0230d6156d7c80228e7c", "e797f83"),
    ("pinned", "comment.yml", "@37930b1c2abaa49bbe596cd826c3c89aef350131 #", "@37930b1 #", "37930b1"),
    ("one_version", "check.yml", "@08c6903cd8c0fde910a37f88322edcfb5dd907a8", "@11bd71901bbe5b1630ceea73d27597364c9af683", "actions/checkout"),
    ("least_permissions", "check.yml", "permissions:\n  contents: read\n", "", "no permissions"),
    ("least_permissions", "check.yml", "permissions:\n  contents: read\n", "permissions: write-all\n", "write-all"),
    ("least_permissions", "check.yml", "  contents: read", "  contents: write", "write contents"),
    ("least_permissions", "comment.yml", "actions: read", "actions: write", "comment may write actions"),
    ("least_permissions", "publish.yml", "pages: write # to publish", "contents: write", "deploy may write contents"),
    ("no_privileged_trigger", "check.yml", "  pull_request:", "  pull_request_target:", "pull_request_target"),
    ("no_privileged_trigger", "comment.yml", "  workflow_run:", "  issue_comment:", "issue_comment"),
    ("no_secrets", "check.yml", "python3 -m build_tools test", "TOKEN=${{ secrets.DEPLOY }} python3 -m build_tools test", "secrets.DEPLOY"),
    ("no_secrets", "check.yml", 'python-version: "3.11"', "token: ${{ github.token }}", "github.token"),
    ("no_expression_in_scripts", "check.yml", "changes HEAD^1", "changes ${{ github.head_ref }}", "github.head_ref"),
    ("no_expression_in_scripts", "comment.yml", "const here = context.repo;", "const title = '${{ github.event.workflow_run.display_title }}';", "display_title"),
    ("no_credentials_left", "check.yml", "persist-credentials: false", "persist-credentials: true", "keeps credentials"),
    ("no_credentials_left", "publish.yml", "        with:\n          persist-credentials: false\n", "", "keeps credentials"),
    ("bounded_in_time", "check.yml", "timeout-minutes: 60", "timeout-minutes: 600", "test has no time limit"),
    ("bounded_in_time", "comment.yml", "    timeout-minutes: 5\n", "", "comment has no time limit"),
    ("bounded_in_time", "publish.yml", "concurrency:\n  group: publish\n  cancel-in-progress: false\n", "", "no concurrency group"),
    ("failures_count", "check.yml", "    timeout-minutes: 60\n", "    timeout-minutes: 60\n    continue-on-error: true\n", "test may fail"),
    ("failures_count", "check.yml", "        run: python3 -m build_tools test", "        continue-on-error: true\n        run: python3 -m build_tools test", "test: a step may fail"),
    ("failures_count", "other-generator.yml", "    continue-on-error: true\n", "", "elsewhere blocks"),
    ("failures_count", "other-generator.yml", "jobs:\n", "jobs:\n  after:\n    needs: elsewhere\n    steps: []\n", "after waits for elsewhere"),
    ("commands_exist", "other-generator.yml", "pages --try", "pages --trial", "--trial"),
    ("commands_exist", "check.yml", "build_tools check --strict --format annotations", "build_tools chek --strict --format annotations", "chek"),
    ("commands_exist", "check.yml", "--format annotations", "--format remarks", "remarks"),
    ("commands_exist", "check.yml", "renew --check", "renew --look", "--look"),
    ("commands_exist", "check.yml", "--out build/changes.md", "--into build/changes.md", "--into"),
    ("commands_exist", "publish.yml", "python3 -m build_tools build", "python -m build_tools.commands build", "not the command"),
    ("rare_shell", "publish.yml", "python3 -m build_tools build", "pip install something", "pip install"),
    ("comment_runs_nothing_of_the_change", "comment.yml", "actions/download-artifact@37930b1c2abaa49bbe596cd826c3c89aef350131 # v7.0.0", "actions/checkout@08c6903cd8c0fde910a37f88322edcfb5dd907a8 # v5.0.0", "uses actions/checkout"),
    ("comment_runs_nothing_of_the_change", "comment.yml", "const fs = require('fs');", "require('child_process').execSync('sh report');", "child_process"),
    ("comment_runs_nothing_of_the_change", "comment.yml", "      - name: Write the comment\n", "      - run: sh report/changes.md\n      - name: Write the comment\n", "runs a shell"),
    ("comment_runs_nothing_of_the_change", "comment.yml", "  workflow_run:", "  pull_request:", "triggered by ['pull_request']"),
    ("deployer_only_deploys", "publish.yml", "      - id: deployment\n", "      - run: python3 -m build_tools build\n      - id: deployment\n", "more than deploy"),
    ("deployer_only_deploys", "publish.yml", "    needs: build\n", "", "waits for no build"),
    ("deployer_only_deploys", "publish.yml", "    branches: [main]", "    branches: [main, draft]", "more than main"),
]


@pytest.fixture(scope="module")
def real(root):
    return workflows(root)


@pytest.mark.parametrize("name", RULES)
def test_the_workflows_keep_the_rule(name, real):
    assert {file: RULES[name](workflow) for file, workflow in real.items() if RULES[name](workflow)} == {}


@pytest.mark.parametrize("name, file, old, new, said", SPOILT)
def test_the_rule_fails_on_a_spoilt_copy(name, file, old, new, said, real):
    text = real[file].text
    assert old in text
    complaints = RULES[name](parsed(file, text.replace(old, new, 1)))
    assert any(said in complaint for complaint in complaints), complaints


def test_every_rule_has_a_spoilt_copy():
    assert {case[0] for case in SPOILT} == set(RULES)


def test_there_are_these_workflows_and_no_other(real):
    assert list(real) == ["check.yml", "comment.yml", "other-generator.yml", "publish.yml"]


def test_an_action_is_at_one_version_everywhere(real):
    versions = {}
    for workflow in real.values():
        for _, step in workflow.steps:
            action, _, commit = step.get("uses", "").partition("@")
            versions.setdefault(action, set()).add(commit)
    assert {action for action, commits in versions.items() if len(commits) != 1} == set()


def test_the_comment_follows_the_check_and_fetches_what_it_kept(real):
    """Names that two files must agree on: the workflow's, the artifact's, the report's."""
    check, comment = real["check.yml"], real["comment.yml"]
    assert comment.data["on"] == {"workflow_run": {"workflows": [check.data["name"]], "types": ["completed"]}}
    assert "github.event.workflow_run.event == 'pull_request'" in comment.jobs["comment"]["if"]
    steps = check.jobs["changes"]["steps"]
    kept = next(step["with"] for step in steps if step.get("uses", "").startswith("actions/upload-artifact@"))
    assert f"name: '{kept['name']}'" in comment.jobs["comment"]["steps"][0]["with"]["script"]
    assert any(f"--out {kept['path']}" in step.get("run", "") for step in steps)
    assert comment.jobs["comment"]["steps"][2]["env"]["REPORT"] == "${{ runner.temp }}/report/" + kept["path"].rsplit("/", 1)[1]
    assert comment.jobs["comment"]["steps"][1]["with"]["path"] == "${{ runner.temp }}/report"


def test_a_pull_request_is_checked_tested_reported_and_built(real):
    check = real["check.yml"]
    assert check.triggers == {"pull_request", "push"} and check.data["on"]["push"] == {"branches": ["main"]}
    commands = [line.split()[3] for _, step in check.steps for line in step.get("run", "").splitlines() if "build_tools" in line]
    assert commands == ["check", "renew", "test", "changes", "build"]
    changes = check.jobs["changes"]
    assert changes["if"] == "github.event_name == 'pull_request'"
    # HEAD^1 is main as it was merged: the merge and its parents must be fetched.
    assert int(changes["steps"][0]["with"]["fetch-depth"]) >= 2


def test_the_way_to_another_generator_is_tried_on_the_site_as_it_is(real):
    lines = [step["run"] for step in real["other-generator.yml"].jobs["elsewhere"]["steps"] if "run" in step]
    assert lines == ["python3 -m build_tools build", "python3 -m build_tools pages --try"]
    assert real["other-generator.yml"].data["name"] != real["check.yml"].data["name"], "the comment follows the check alone"


def test_main_is_checked_before_it_is_built_and_published(real):
    publish = real["publish.yml"]
    commands = [line.split()[3] for _, step in publish.steps for line in step.get("run", "").splitlines()]
    assert commands == ["check", "build"] and publish.jobs["deploy"]["needs"] == "build"
