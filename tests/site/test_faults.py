"""What can go wrong while a site is built, done for real: killed, interrupted, two at once, a disk too small, a file taken away."""

import os
import shutil
import signal
import socket
import subprocess
import sys
import time
import urllib.request

import pytest

from build_tools.checksums import checksums, difference, read_list
from build_tools.site import tidy

from .test_build import project_with_site, run

pytestmark = pytest.mark.skipif(os.name == "nt", reason="signals and limits of POSIX")

BUILD = [sys.executable, "-m", "build_tools.commands", "build"]
DEAD = 2**22 + 17  # above the largest process number of Linux


@pytest.fixture(scope="module")
def project(root, tmp_path_factory, built):
    return project_with_site(root, tmp_path_factory.mktemp("faults") / "project", built)


@pytest.fixture
def whole(project):
    """The site; after the fault it is as it was built, and what is left behind goes with the next build's first step."""
    site = project / "build" / "site"
    yield site
    assert not difference(read_list(site), checksums(site))
    tidy(site)
    assert sorted(p.name for p in site.parent.iterdir()) == ["site"]


def heard():
    """In the new process: an interrupt is heard even where the tests themselves run in the background, deaf to it."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)


def begun(project, preexec_fn=heard):
    return subprocess.Popen(BUILD, cwd=project, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, preexec_fn=preexec_fn)


@pytest.mark.parametrize("seconds", [0.4, 3.0, 6.0])
def test_killed_at_any_moment(seconds, project, whole):
    process = begun(project)
    time.sleep(seconds)
    process.kill()
    process.communicate()
    assert not difference(read_list(whole), checksums(whole))


def test_the_next_build_puts_everything_right(project, whole):
    """After a kill, a half-built folder and a site moved aside: one build, and all is as it should be."""
    process = begun(project)
    time.sleep(2)
    process.kill()
    process.communicate()
    whole.rename(whole.with_name(f"site.old-{DEAD}"))
    done = run(project, "build")
    assert done.returncode == 0, done.stderr
    assert sorted(p.name for p in whole.parent.iterdir()) == ["site"]


def test_killed_between_the_two_renames(project, whole):
    """The old site had been moved aside and the new one was not yet in its place."""
    whole.rename(whole.with_name(f"site.old-{DEAD}"))
    tidy(whole)
    assert (whole / "index.html").is_file()


def test_killed_after_the_renames(project, whole):
    shutil.copytree(whole, whole.with_name(f"site.old-{DEAD}"))
    (whole.with_name(f"site.new-{DEAD}")).mkdir()
    tidy(whole)
    assert [p.name for p in whole.parent.iterdir() if p.is_dir()] == ["site"]


def test_folders_of_a_build_that_runs_are_left_alone(project, whole):
    running = whole.with_name(f"site.new-{os.getpid()}")
    running.mkdir()
    tidy(whole)
    assert running.is_dir()
    running.rmdir()


def test_interrupted(project, whole):
    process = begun(project)
    for _ in range(600):  # it is at work when its folder is there, however slow the machine
        if list(whole.parent.glob("site.new-*")):
            break
        time.sleep(0.1)
    process.send_signal(signal.SIGINT)
    _, said = process.communicate(timeout=60)
    assert process.returncode == 130 and "The last good site is untouched" in said and "Traceback" not in said


def test_two_at_once(project, whole):
    both = [begun(project), begun(project)]
    told = [process.communicate(timeout=180) for process in both]
    assert [process.returncode for process in both] == [0, 0], told


def test_a_disk_too_small(project, whole):
    """No file may grow beyond 40 kB: what a full disk does to the first large one."""
    import resource

    process = begun(project, preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (40_000, 40_000)))
    _, said = process.communicate(timeout=180)
    assert process.returncode == 1 and "The last good one is untouched" in said and "Traceback" not in said, said


@pytest.mark.parametrize("taken", ["data/crops/leek.yml", "docs/assets/css/site.css", "docs/methods.md", "docs/guides/water.md", "build_tools/render/templates/crop.html"])
def test_a_file_taken_away_while_it_builds(taken, project, whole):
    process = begun(project)
    time.sleep(1.5)
    held = (project / taken).read_bytes()
    (project / taken).unlink()
    try:
        _, said = process.communicate(timeout=120)
    finally:
        (project / taken).write_bytes(held)
    if process.returncode:
        assert "Traceback" not in said and taken.rpartition("/")[2] in said, said


def test_serving_interrupted_and_begun_again(project, whole):
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    for _ in range(2):
        process = subprocess.Popen([sys.executable, "-m", "build_tools.commands", "serve", "--port", str(port)], cwd=project, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, preexec_fn=heard)
        for _ in range(300):
            try:
                with urllib.request.urlopen(f"http://127.0.0.1:{port}/", timeout=2) as answer:
                    assert b"From packet to seedling" in answer.read()
                break
            except OSError:
                time.sleep(0.2)
        else:
            pytest.fail("the server did not answer")
        process.send_signal(signal.SIGINT)
        said, _ = process.communicate(timeout=60)
        assert process.returncode in (0, 130) and "Traceback" not in said, said
