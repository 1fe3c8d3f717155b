"""Progress: silent when quick, a count when slow."""

from build_tools import progress


def test_short_work_is_silent_and_long_work_says_how_far(monkeypatch, capsys):
    now = [0.0]
    monkeypatch.setattr(progress.time, "monotonic", lambda: now[0])
    counter = progress.Progress()
    counter.start("pages")
    for _ in range(3):
        counter.step(10)
    assert capsys.readouterr().err == ""
    now[0] = 6.0
    counter.step(3000)
    assert capsys.readouterr().err == "  4 of 3,000 pages …\n"
