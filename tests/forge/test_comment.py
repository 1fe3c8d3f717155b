"""The comment workflow, its own scripts run against a made-up host: who gets a comment, when it is renewed, and that it is harmless."""

from __future__ import annotations

import html
import re

import pytest

from build_tools.changes.printers import markdown_escaped

from .fake_host import BOT, REPOSITORY, Host, serving
from .player import FORK, HERE, NEW, OLD, Player, artifact, event, pull
from .workflows import workflows

MARKER = "<!-- germination reference: report of changes -->"


@pytest.fixture
def player(root, tmp_path):
    steps = workflows(root)["comment.yml"].jobs["comment"]["steps"]
    host = Host()
    with serving(host) as base:
        yield Player(host, base, steps, tmp_path)


def report(text):
    return {"changes.md": text if isinstance(text, bytes) else text.encode()}


def bodies(player, number=5):
    return [comment["body"] for comment in player.host.comments.get(number, [])]


def play(player, text="3 values change.", **given):
    """One pull request with one run and one report; the bodies of its comments."""
    player.host.pulls = [pull(**given)]
    player.host.artifacts = {70: [artifact(11)]}
    player.run(event(**given), {11: report(text)})
    return bodies(player)


def test_the_first_comment(player):
    body, = play(player, "3 values of 2 crops change.\n\n| Crop | Before | After |\n| --- | --- | --- |\n| Tomato | 15.5 °C | **18 °C** |\n")
    assert body.startswith(MARKER)
    assert "| Tomato | 15.5 °C | **18 °C** |\n" in body and "[run](https://host.example/runs/70)" in body and "bbbbbbbbbb" in body
    assert player.host.written == [("POST", f"/repos/{REPOSITORY}/issues/5/comments")]


def test_a_newer_run_updates_it_in_place(player):
    play(player, "3 values change.", commit=OLD)
    player.host.pulls = [pull(commit=NEW)]
    player.host.artifacts[71] = [artifact(12)]
    player.run(event(run=71), {12: report("4 values change.")})
    body, = bodies(player)
    assert "4 values change." in body and "3 values" not in body
    assert [method for method, _ in player.host.written] == ["POST", "PATCH"]


def test_the_same_report_again_writes_nothing(player):
    play(player)
    player.run(event(), {11: report("3 values change.")})
    assert len(bodies(player)) == 1 and len(player.host.written) == 1


def test_a_fork_is_found_by_its_branch_and_commit(player):
    others = [pull(3, OLD, HERE), pull(4, NEW, {"id": 9, "owner": {"login": "ash"}})]
    player.host.pulls = [*others, pull(5, NEW, FORK)]
    player.host.artifacts = {70: [artifact(11)]}
    player.run(event(repository=FORK), {11: report("1 value changes.")})
    assert len(bodies(player)) == 1 and set(player.host.comments) == {5}


@pytest.mark.parametrize("branch", ["a&state=closed&head=x", "../../issues/1/comments", "$(touch here)`", "é ü?#"])
def test_an_odd_branch_name_stays_a_name(player, branch):
    assert len(play(player, repository=FORK, branch=branch)) == 1


def test_the_event_s_own_list_of_pull_requests_is_not_believed(player):
    """It lists every pull request from a branch of that name, of other commits too."""
    player.host.pulls = [pull()]
    player.host.artifacts = {70: [artifact(11)]}
    ended = event()
    ended["workflow_run"]["pull_requests"] = [{"number": 99}]
    player.run(ended, {11: report("1 value changes.")})
    assert set(player.host.comments) == {5}


@pytest.mark.parametrize("pulls", [[], [pull(commit=OLD)], [pull(state="closed")], [pull(base="draft")], [pull(repository=FORK)], [pull(repository=None)]], ids=["none", "moved on", "closed", "another base", "another repository", "gone"])
def test_no_open_pull_request_no_comment(player, pulls):
    player.host.pulls, player.host.artifacts = pulls, {70: [artifact(11)]}
    noted = player.run(event(), {11: report("1 value changes.")})
    assert player.host.written == [] and "No open pull request" in noted[0]


def test_a_repository_that_is_gone(player):
    noted = player.run(event(repository=None))
    assert player.host.asked == [] and "is gone" in noted[0]


@pytest.mark.parametrize("artifacts", [[], [artifact(11, name="site-preview")], [artifact(11, expired=True)]], ids=["none", "another", "expired"])
def test_no_report_no_comment_and_the_old_one_stays(player, artifacts):
    play(player, "3 values change.", commit=OLD)
    player.host.pulls, player.host.artifacts[71] = [pull()], artifacts
    noted = player.run(event(run=71))
    assert "no report" in noted[0] and len(player.host.written) == 1
    assert "at aaaaaaaaaa" in bodies(player)[0], "a comment names the commit it is about"


def test_a_huge_artifact_is_not_fetched(player):
    player.host.pulls, player.host.artifacts = [pull()], {70: [artifact(11, size=5_000_000_000)]}
    player.run(event())  # fetching it would fail: no files are given
    assert "too large to be shown" in bodies(player)[0] and "runs/70" in bodies(player)[0]


def test_a_small_artifact_that_unpacks_to_much_is_not_read(player):
    body, = play(player, b"x\n" * 1_500_000)
    assert "too large to be shown" in body and len(body) < 1_000


def test_a_long_report_is_cut_at_the_end_of_a_line(player):
    body, = play(player, "".join(f"| Crop {n} | 15.5 °C | 18 °C |\n" for n in range(20_000)))
    assert 50_000 < len(body) < 65_536
    cut = body.split("\n\nCut here")[0]
    assert cut.endswith("| 18 °C |") and "kept with the run" in body


def test_one_endless_line_is_cut_between_letters(player):
    body, = play(player, "🌱" * 50_000)
    assert len(body.encode("utf-16-le")) // 2 < 65_536 and "\ufffd" not in body.split("Cut here")[0][:-3]


def test_a_report_of_hostile_length_takes_no_time(player):
    """Nothing in the cleaning takes time that grows faster than the text: a run of it ends within the minute it is given."""
    for text in ("\n" * 1_900_000, "`" * 1_900_000, "&" * 1_900_000, "]" * 1_900_000, "www." * 400_000, " " * 1_900_000):
        assert len(play(player, text)[0]) < 65_536


def test_a_repeated_run_s_last_report_counts(player):
    player.host.pulls, player.host.artifacts = [pull()], {70: [artifact(11), artifact(13), artifact(12)]}
    player.run(event(), {11: report("first"), 13: report("third"), 12: report("second")})
    assert "third" in bodies(player)[0]


def test_several_runs_in_the_wrong_order_leave_the_newest_report(player):
    player.host.pulls = [pull(commit=NEW)]
    player.host.artifacts = {70: [artifact(11)], 71: [artifact(12)]}
    player.run(event(commit=NEW, run=71), {12: report("newer")})
    noted = player.run(event(commit=OLD, run=70), {11: report("older")})
    body, = bodies(player)
    assert "newer" in body and "No open pull request" in noted[0]


def test_someone_else_s_comment_with_the_marker_is_left_alone(player):
    theirs = {"id": 1, "user": {"login": "hazel", "type": "User"}, "body": f"{MARKER} mine now"}
    other_bot = {"id": 2, "user": {"login": "other[bot]", "type": "Bot"}, "body": MARKER}
    quoted = {"id": 3, "user": BOT, "body": f"> {MARKER}"}
    player.host.comments[5] = [dict(theirs), dict(other_bot), dict(quoted)]
    assert len(play(player)) == 4 and player.host.comments[5][:3] == [theirs, other_bot, quoted]


def test_the_comment_is_found_behind_many_others(player):
    player.host.comments[5] = [{"id": n, "user": {"login": "hazel", "type": "User"}, "body": "a word"} for n in range(250)]
    play(player)
    play(player, "5 values change.")
    assert len(bodies(player)) == 251 and "5 values" in bodies(player)[-1]


def test_a_report_that_is_no_plain_file(player):
    player.host.pulls, player.host.artifacts = [pull()], {70: [artifact(11)]}
    outside = player.folder / "outside.txt"
    outside.write_text("kept apart")
    (player.folder / "report").mkdir()
    (player.folder / "report" / "changes.md").symlink_to(outside)
    player.run(event(), {11: {"other.md": b"1 value changes."}})
    assert "kept no report that can be read" in bodies(player)[0] and "kept apart" not in bodies(player)[0]


def test_lines_end_as_they_should(player):
    assert "\n\none\ntwo\nthree" in play(player, "one\r\ntwo\rthree")[0]


def test_bytes_that_are_no_text(player):
    body, = play(player, b"1 value changes.\xff\xfe\x00\x1b[31m\n")
    assert "1 value changes." in body and "\x00" not in body and "\x1b" not in body


def test_a_refusal_by_the_host_fails_the_run(player):
    player.host.refuse_writing = True
    with pytest.raises(RuntimeError, match="403 Resource not accessible"):
        play(player)


HOSTILE = [
    ("@wrenfield/keepers and @hazel", r"@[A-Za-z0-9]"),
    ("&commat;hazel &#x40;hazel &#0064;hazel &#46;hazel", r"&(#\d|#x|commat)"),
    ("&#64;hazel &#64;&#8203;hazel &#35;12", r"&#|@[A-Za-z0-9]|#\d"),
    ("@\u200bhazel @\u2060hazel", r"@[A-Za-z0-9]"),
    ("<script>alert(1)</script><img src=x onerror=alert(1)><details><b>", r"<(?!!-- germination)"),
    ("[here](https://bad.example) [x]: https://bad.example ![p](https://bad.example/p.png)", r"\]|://(?!host)"),
    ("\\[here\\](https://bad.example) \\\\](https://bad.example)", r"\]|://(?!host)"),
    ("https://bad.example http://bad.example ftp://bad.example www.bad.example", r"://(?!host)|www\.\w"),
    ("closes #12, wrenfield/reference#13, GH-14", r"#\d|GH-\d"),
    ("```mermaid\ngraph TD\n```\n> ```mermaid\n~~~ html\n<b>\n~~~", r"```|~~~"),
    ("\u202egnorw\u202c z\u200bero \u2066isolated\u2069 so\u00adft \U000e0041tag", "[\u200b\u202a-\u202e\u2066-\u2069\u00ad\U000e0041]"),
    ("<!-- germination reference: report of changes -->", r"<!--"),
    ("\\&#42; \\\\&#42; \\\\] \\<", r"\\&"),
]


@pytest.mark.parametrize("text, forbidden", HOSTILE)
def test_hostile_text_becomes_plain_text(player, text, forbidden):
    body, = play(player, f"1 value changes.\n\n{text}\n")
    head, rest = body.split("\n\n", 1)
    assert head.startswith(MARKER) and "[run](https://host.example/runs/70)" in head
    assert not re.search(forbidden, rest), rest
    for word in re.findall(r"[a-z]{5,}", text):
        if word not in ("commat", "gnorw", "mermaid"):
            assert word in rest, "nothing but the danger is taken away"


@pytest.mark.parametrize("words", [hostile for hostile, _ in HOSTILE if "\n" not in hostile] + ["Best range, low end: 15.5 → 18 °C (60 → 64 °F)", "a*b_c`d|e~f$g!h\"i'j\\k{l}"])
def test_words_that_the_report_made_safe_are_shown_as_they_are(player, words):
    """What `changes` writes so that Markdown shows it is not made safe twice: read as the host reads it, it is the same text."""
    body, = play(player, markdown_escaped(words))
    shown = html.unescape(body.split("\n\n", 1)[1])
    hidden = re.compile("[\u00ad\u200b-\u200f\u202a-\u202e\u2060-\u2069\U000e0000-\U000e007f]")
    assert hidden.sub("", shown) == hidden.sub("", words)


# What the cleaning does, line by line, and which of the hostile texts gets through without it.
SAFEGUARDS = [(r"[\u0000", 10), ("&(?!", 1), ("/</g", 4), (r"\\?\]", 5), ("`{3,}", 9), ("~{3,}", 9), ("/@/g", 0), ("(?<!&)#", 8), ("GH-(?=", 8), (r":\/\/", 7), ("www", 7), (r"\\+(?=&)", 12)]


@pytest.mark.parametrize("safeguard, hostile", SAFEGUARDS)
def test_each_safeguard_matters(player, safeguard, hostile):
    """Without it the hostile text gets through, so the test above would fail."""
    step = player.steps[2]["with"]
    line, = (line for line in step["script"].splitlines() if f".replace(/{safeguard.removeprefix('/')}" in line or f".replace(/\\b{safeguard}" in line)
    step["script"] = step["script"].replace(line, ";" if line.endswith(";") else "")
    text, forbidden = HOSTILE[hostile]
    body, = play(player, f"1 value changes.\n\n{text}\n")
    assert re.search(forbidden, body.split("\n\n", 1)[1])


def test_every_safeguard_is_tried(root):
    script = workflows(root)["comment.yml"].jobs["comment"]["steps"][2]["with"]["script"]
    assert script.count(".replace(") == len(SAFEGUARDS) + 2, "all but those for the ends of lines and for what the report made safe"
