"""`test --coverage` counts lines and branches, names what is not run, and fails below its mark. On an invented package."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
SIGN = '''
def sign(number):
    if number > 0:
        return 1
    if number < 0:
        return -1
    return 0
'''
CODE = """
import sys
from pathlib import Path
from build_tools.covered import measure
folder = Path(sys.argv[1])
sys.path.insert(0, str(folder))
sys.exit(measure(folder, {"stage": folder / "stage"}, ["-q", "-p", "no:cacheprovider", f"--rootdir={folder}", "test_sign.py"]))
"""


@pytest.fixture
def measured(tmp_path):
    """Function (text of the test) -> (exit status, what is printed)."""
    (tmp_path / "stage").mkdir()
    (tmp_path / "stage" / "__init__.py").write_text("", encoding="utf-8")
    (tmp_path / "stage" / "sign.py").write_text(SIGN, encoding="utf-8")
    (tmp_path / "pytest.ini").write_text("[pytest]\n", encoding="utf-8")

    def run(text: str) -> tuple[int, str]:
        (tmp_path / "test_sign.py").write_text("from stage.sign import sign\n\n\ndef test_sign():\n" + text, encoding="utf-8")
        done = subprocess.run([sys.executable, "-c", CODE, str(tmp_path)], cwd=ROOT, capture_output=True, text=True, timeout=120)
        return done.returncode, done.stdout + done.stderr

    return run


def test_all_is_run(measured):
    status, printed = measured("    assert [sign(n) for n in (2, -2, 0)] == [1, -1, 0]\n")
    assert status == 0, printed
    assert "stage, all                          100.0 %   100.0 %" in printed


def test_what_is_not_run_is_named_and_fails(measured):
    status, printed = measured("    assert sign(2) == 1\n")
    assert status == 1
    assert "stage/sign.py                        50.0 %    25.0 %  5, 6, 7" in printed
    assert "stage: fewer than 95 % of the lines are run" in printed and "stage: fewer than 95 % of the branches are run" in printed


def test_a_branch_alone_fails_too(measured):
    status, printed = measured("    assert [sign(n) for n in (2, 0)] == [1, 0]\n")
    assert status == 1 and "75.0 %  6" in printed


def test_a_failing_test_fails(measured):
    status, printed = measured("    assert [sign(n) for n in (2, -2, 0)] == [1, -1, 1]\n")
    assert status == 1 and "100.0 %   100.0 %" in printed
