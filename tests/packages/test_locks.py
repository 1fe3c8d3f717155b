"""The lock files: a hash on every line, no address, wheels only; a damaged one is told with its line."""

import re
from importlib.metadata import distribution

import pytest
from packaging.markers import Marker
from packaging.tags import parse_tag, sys_tags

from build_tools import set_up
from build_tools.lock_files import SITE, TEST, BadLock, direct, normal, read_lock, whole

BOTH = pytest.mark.parametrize("name", [SITE, TEST])


@BOTH
def test_every_line_is_a_pin_or_a_hash(root, name):
    lines = (root / name).read_text(encoding="utf-8").splitlines()
    pins = read_lock(root / name)
    assert len(lines) == sum(1 + len(pin.hashes) for pin in pins) and min(len(pin.hashes) for pin in pins) >= 1
    assert not any("://" in line or " @ " in line or line.startswith("-") for line in lines)


def test_the_test_lock_holds_the_site_lock(root):
    site, test = ({(p.name, p.version, p.hashes) for p in read_lock(root / name)} for name in (SITE, TEST))
    assert site <= test


@BOTH
def test_only_wheels_are_installed_and_only_by_hash(root, name, monkeypatch, tmp_path):
    """The command that is really run, caught before it starts."""
    caught = []

    class Caught(Exception):
        pass

    def popen(command, **options):
        caught.extend(map(str, command))
        raise Caught

    monkeypatch.setattr(set_up.subprocess, "Popen", popen)
    (tmp_path / ".venv").mkdir()
    with pytest.raises(Caught):
        set_up._install(tmp_path / ".venv", root / name)
    assert "--require-hashes" in caught and caught[caught.index("--only-binary") + 1] == ":all:"
    assert caught[-2:] == ["-r", str(root / name)] and not any("index" in word or "://" in word for word in caught)


def test_every_pin_for_this_python_is_installed_from_a_wheel_that_fits(root):
    """What can be told without a network: the locked version is here, and came as a wheel for this system or for any."""
    supported = set(sys_tags())
    for pin in read_lock(root / TEST):
        if pin.marker and not Marker(pin.marker).evaluate():
            continue
        package = distribution(pin.name)
        assert package.version == pin.version, pin
        tags = re.findall(r"^Tag: (.+)$", package.read_text("WHEEL") or "", re.MULTILINE)
        assert any(tag in supported for text in tags for tag in parse_tag(text)), (pin.name, tags)


@BOTH
def test_every_direct_dependency_is_locked(root, name):
    site, test = direct(root)
    assert len(site) >= 10 and len(test) >= 10 and not set(site) & set(test)
    assert set(site) <= {pin.name for pin in whole(root, name)}


GOOD = "a-b==1.0 \\\n    --hash=sha256:" + "0" * 64 + " \\\n    --hash=sha256:" + "1" * 64 + "\nc==2 ; python_full_version < '3.12' \\\n    --hash=sha256:" + "2" * 64 + "\n"


def test_a_sound_lock_is_read(tmp_path):
    (tmp_path / "a.lock").write_text(GOOD)
    first, second = read_lock(tmp_path / "a.lock")
    assert (first.name, first.version, first.marker, len(first.hashes), first.line) == ("a-b", "1.0", "", 2, 1)
    assert (second.marker, second.line) == ("python_full_version < '3.12'", 4)


@pytest.mark.parametrize("text, line, words", [
    ("", 1, "empty"),
    ("\n\n", 1, "empty"),
    (GOOD[:60], 2, "damaged"),  # in the middle of a hash
    (GOOD.replace("c==2", "c>=2"), 4, "damaged"),
    (GOOD.replace("0" * 64, "0" * 63), 2, "damaged"),
    (GOOD.replace("0" * 64, "z" * 64), 2, "damaged"),
    (GOOD.replace("sha256", "md5", 1), 2, "damaged"),
    (GOOD[: GOOD.index("    --hash=sha256:1")], 2, "cut short"),
    (GOOD[: GOOD.index("    --hash=sha256:2")], 4, "cut short"),
    (GOOD.rstrip("\n"), 5, "cut short"),
    (GOOD + "-e .\n", 6, "damaged"),
    (GOOD + "d @ file.whl \\\n", 6, "damaged"),
    (GOOD.replace("    --hash=sha256:" + "1" * 64 + "\n", ""), 3, "damaged"),  # its pin ends with a promise of more
])
def test_a_damaged_lock_is_told_with_its_line(text, line, words, tmp_path):
    (tmp_path / "requirements.lock").write_text(text)
    with pytest.raises(BadLock) as told:
        read_lock(tmp_path / "requirements.lock")
    assert str(told.value).startswith(f"requirements.lock:{line}: ") and words in str(told.value) and "Restore it" in str(told.value)


def test_bytes_that_are_no_text_and_a_file_that_is_gone(tmp_path):
    (tmp_path / "requirements.lock").write_bytes(b"\xff\xfe")
    with pytest.raises(BadLock, match="no text"):
        read_lock(tmp_path / "requirements.lock")
    with pytest.raises(BadLock, match="gone.lock:1: The lock file is missing"):
        read_lock(tmp_path / "gone.lock")


@pytest.mark.parametrize("kept", [1, 5, 20])
def test_a_lock_cut_between_two_packages_is_told(kept, root, tmp_path):
    blocks = re.split(r"\n(?=\S)", (root / SITE).read_text(encoding="utf-8"))
    (tmp_path / SITE).write_text("\n".join(blocks[:kept]) + "\n")
    (tmp_path / "pyproject.toml").write_bytes((root / "pyproject.toml").read_bytes())
    assert len(read_lock(tmp_path / SITE)) == kept
    with pytest.raises(BadLock, match=r"lacks .*typst.*cut short, or older"):
        whole(tmp_path, SITE)


def test_names_are_compared_as_pep_503_says():
    """Examples of PEP 503 and its like, from memory."""
    assert {normal(name) for name in ("Foo_Bar", "foo.bar", "foo--bar", "FOO-_-BAR")} == {"foo-bar"}
