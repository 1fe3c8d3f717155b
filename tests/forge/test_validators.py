"""The files of the repository's host, held to published schemas of them and to an auditor of workflows; both work without a network."""

import shutil
import subprocess
import sys
import sysconfig
from pathlib import Path

import pytest

FILES = {
    "vendor.github-workflows": ("workflows/check.yml", "workflows/comment.yml", "workflows/other-generator.yml", "workflows/publish.yml"),
    "custom.github-workflows-require-timeout": ("workflows/check.yml", "workflows/comment.yml", "workflows/other-generator.yml", "workflows/publish.yml"),
    "vendor.github-issue-forms": ("ISSUE_TEMPLATE/correct-a-value.yml", "ISSUE_TEMPLATE/add-a-table.yml", "ISSUE_TEMPLATE/add-a-crop.yml"),
    "vendor.github-issue-config": ("ISSUE_TEMPLATE/config.yml",),
    "vendor.dependabot": ("dependabot.yml",),
}
# schema, file, text to replace, replacement, what is said
SPOILT = [
    ("vendor.github-workflows", "workflows/check.yml", "runs-on:", "runs-at:", "runs-at"),
    ("vendor.github-workflows", "workflows/publish.yml", "id-token: write", "id-token: scribble", "scribble"),
    ("custom.github-workflows-require-timeout", "workflows/comment.yml", "    timeout-minutes: 5\n", "", "timeout-minutes"),
    ("vendor.github-issue-forms", "ISSUE_TEMPLATE/add-a-crop.yml", "type: dropdown", "type: drawer", "drawer"),
    ("vendor.github-issue-forms", "ISSUE_TEMPLATE/add-a-table.yml", "      label: Authors\n", "", "label"),
    ("vendor.github-issue-config", "ISSUE_TEMPLATE/config.yml", "blank_issues_enabled", "blank_issues", "blank_issues"),
    ("vendor.dependabot", "dependabot.yml", "interval: monthly", "interval: seldom", "seldom"),
]


def validated(schema: str, *files: Path) -> subprocess.CompletedProcess:
    return subprocess.run([sys.executable, "-m", "check_jsonschema", "--builtin-schema", schema, *files], capture_output=True, text=True, timeout=120)


@pytest.mark.parametrize("schema", FILES)
def test_files_fit_the_published_schema(schema, root):
    done = validated(schema, *(root / ".github" / name for name in FILES[schema]))
    assert done.returncode == 0, done.stdout + done.stderr


@pytest.mark.parametrize("schema, name, old, new, said", SPOILT)
def test_a_spoilt_file_does_not(schema, name, old, new, said, root, tmp_path):
    text = (root / ".github" / name).read_text(encoding="utf-8")
    assert old in text
    spoilt = tmp_path / Path(name).name
    spoilt.write_text(text.replace(old, new, 1), encoding="utf-8")
    done = validated(schema, spoilt)
    assert done.returncode == 1 and said in done.stdout, done.stdout + done.stderr


def test_every_file_of_the_host_is_validated(root):
    held = {name for names in FILES.values() for name in names} | {"PULL_REQUEST_TEMPLATE.md"}
    assert {path.relative_to(root / ".github").as_posix() for path in (root / ".github").rglob("*") if path.is_file()} == held


def audited(folder: Path) -> subprocess.CompletedProcess:
    """The auditor's strictest opinion, without a network."""
    auditor = shutil.which("zizmor", path=sysconfig.get_path("scripts"))
    assert auditor, "zizmor is not installed; it is in the lock file of the tests"
    return subprocess.run([auditor, "--offline", "--persona", "pedantic", "--no-config", "--color", "never", folder], capture_output=True, text=True, timeout=120)


def test_the_auditor_finds_nothing(root):
    done = audited(root / ".github")
    assert done.returncode == 0 and "No findings to report" in done.stdout + done.stderr, done.stdout + done.stderr


@pytest.mark.parametrize("file, old, new, finding", [
    ("check.yml", "changes HEAD^1", "changes ${{ github.head_ref }}", "template-injection"),
    ("check.yml", "        with:\n          persist-credentials: false\n", "", "artipacked"),
    ("check.yml", "contents: read", "contents: write", "excessive-permissions"),
    ("check.yml", "@08c6903cd8c0fde910a37f88322edcfb5dd907a8 # v5.0.0", "@v5", "unpinned-uses"),
    ("comment.yml", "# zizmor: ignore[dangerous-triggers]", "#", "dangerous-triggers"),
])
def test_the_auditor_finds_what_is_spoilt(file, old, new, finding, root, tmp_path):
    folder = tmp_path / ".github" / "workflows"
    shutil.copytree(root / ".github" / "workflows", folder)
    text = (folder / file).read_text(encoding="utf-8")
    assert old in text
    (folder / file).write_text(text.replace(old, new, 1), encoding="utf-8")
    done = audited(tmp_path / ".github")
    assert done.returncode != 0 and finding in done.stdout, done.stdout + done.stderr
