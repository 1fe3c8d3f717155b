"""Places that cannot be written or read, and disks that are full, for real: what is said, and that the last good site stays.

The administrator may write anywhere: where the tests run as one, the command gives that right up before it starts.
"""

import ctypes
import os
import shutil
import signal
import subprocess
import sys

import pytest

from build_tools.checksums import checksums, difference, read_list

from .test_build import project_with_site

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="rights, capabilities and mounts of Linux")

PR_CAPBSET_DROP, CAP_DAC_OVERRIDE, CAP_DAC_READ_SEARCH = 24, 1, 2  # linux/prctl.h, linux/capability.h


def bound_by_rights():
    """In the new process: rights of files count for the administrator too, from the next program on."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)
    if os.geteuid() == 0:
        libc = ctypes.CDLL(None, use_errno=True)
        for capability in (CAP_DAC_OVERRIDE, CAP_DAC_READ_SEARCH):
            if libc.prctl(PR_CAPBSET_DROP, capability, 0, 0, 0):
                raise OSError(ctypes.get_errno(), "prctl")


def run(project, *words, **environment):
    return subprocess.run([sys.executable, "-m", "build_tools.commands", *map(str, words)], cwd=project, capture_output=True, text=True, timeout=240, preexec_fn=bound_by_rights, env={**os.environ, **environment})


@pytest.fixture(scope="module")
def rights(tmp_path_factory):
    """Skips where rights do not bind even so, as on some mounted disks."""
    folder = tmp_path_factory.mktemp("rights")
    folder.chmod(0o555)
    try:
        done = subprocess.run([sys.executable, "-c", f"open({str(folder / 'a')!r}, 'w')"], capture_output=True, preexec_fn=bound_by_rights)
    except subprocess.SubprocessError:
        pytest.skip("this process may not give up its right to write anywhere")
    finally:
        folder.chmod(0o755)
    if done.returncode == 0:
        pytest.skip("rights of folders do not bind on this disk")


@pytest.fixture(scope="module")
def project(root, tmp_path_factory, built):
    folder = project_with_site(root, tmp_path_factory.mktemp("places") / "project", built)
    for name in ("pyproject.toml", "requirements-test.lock"):  # for the command `packages`
        shutil.copy(root / name, folder)
    return folder


@pytest.fixture
def whole(project):
    """The site; afterwards it is as it was built, and nothing was left beside it."""
    site = project / "build" / "site"
    yield site
    assert not difference(read_list(site), checksums(site))
    assert sorted(p.name for p in site.parent.iterdir()) == ["site"]


@pytest.fixture
def closed():
    """Take the right to write (or another) away from a folder or file; it is given back afterwards."""
    held = []

    def close(path, mode=0o555):
        held.append((path, path.stat().st_mode))
        path.chmod(mode)

    yield close
    for path, mode in held:
        path.chmod(mode)


def test_building_beside_a_site_in_a_closed_folder(rights, project, whole, closed):
    closed(whole.parent)
    done = run(project, "build")
    assert done.returncode == 1 and "Traceback" not in done.stderr, done.stderr
    assert "The site was not built: Permission denied" in done.stderr and "The last good one is untouched" in done.stderr


def test_a_closed_project_folder_does_not_hinder_building_elsewhere(rights, project, whole, closed, tmp_path):
    closed(project)
    closed(project / "data")
    done = run(project, "build", "--output", tmp_path / "site")
    assert done.returncode == 0, done.stderr
    assert (tmp_path / "site" / "index.html").is_file()


@pytest.mark.parametrize("name", ["data/crops/leek.yml", "data/crops", "docs/methods.md", "requirements.lock"])
def test_a_file_that_may_not_be_read(name, rights, project, whole, closed):
    closed(project / name, 0o000)
    done = run(project, "build")
    assert done.returncode == 1 and "Traceback" not in done.stderr, done.stderr
    assert name.rpartition("/")[2] in done.stderr and ("Permission denied" in done.stderr or "may be read" in done.stderr), done.stderr


@pytest.mark.parametrize("words, status", [
    (("posters", "--size", "A4", "--out"), 1), (("cards", "--crops", "leek", "--out"), 1), (("lots", "data/demo/lots.csv", "--out"), 2), (("labels", "data/demo/lots.csv", "--out"), 2), (("packages", "--sbom"), 1),
])
def test_other_commands_into_a_closed_folder(words, status, rights, project, whole, closed, tmp_path):
    folder = tmp_path / "closed"
    folder.mkdir()
    closed(folder)
    done = run(project, *words, folder / "new")
    assert done.returncode == status and "Traceback" not in done.stderr and "Permission denied" in done.stderr and str(folder) in done.stderr, done.stderr


def test_a_site_that_may_not_be_moved(project, whole):
    """An attribute of the file system that holds even the administrator."""
    if shutil.which("chattr") is None or subprocess.run(["chattr", "+i", whole], capture_output=True).returncode:
        pytest.skip("chattr +i cannot be had here")
    try:
        done = run(project, "build")
    finally:
        subprocess.run(["chattr", "-i", whole], check=True)
    assert done.returncode == 1 and "Traceback" not in done.stderr and "not permitted" in done.stderr and "The last good one is untouched" in done.stderr, done.stderr


@pytest.fixture
def small_disk(tmp_path):
    """A disk of 12 MB of its own; skipped where none can be mounted."""
    place = tmp_path / "small"
    place.mkdir()
    if shutil.which("mount") is None or subprocess.run(["mount", "-t", "tmpfs", "-o", "size=12m", "tmpfs", place], capture_output=True).returncode:
        pytest.skip("no small disk can be mounted here: that takes an administrator")
    yield place
    subprocess.run(["umount", place], check=True)


def test_a_disk_that_is_full(small_disk, project, whole):
    (small_disk / "site").mkdir()
    (small_disk / "site" / "index.html").write_text("the last good one")
    done = run(project, "build", "--output", small_disk / "site")
    assert done.returncode == 1 and "Traceback" not in done.stderr and "No space left on device" in done.stderr and "The last good one is untouched" in done.stderr, done.stderr
    assert [p.name for p in small_disk.iterdir()] == ["site"] and (small_disk / "site" / "index.html").read_text() == "the last good one"


def test_posters_and_serving_on_a_full_disk(small_disk, project, whole):
    (small_disk / "filler").write_bytes(b"\0" * (12 * 1024 * 1024 - 8192))
    for words, environment in ((("posters", "--out", small_disk / "posters"), {}), (("serve", "--port", "8765"), {"TMPDIR": str(small_disk)})):
        done = run(project, *words, **environment)
        assert done.returncode == 1 and "Traceback" not in done.stderr and "No space left on device" in done.stderr, done.stderr
        assert "port" not in done.stderr.lower(), "the port is not to blame"
