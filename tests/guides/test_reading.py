"""What `reading` counts, and the two formulas by hand. How easy a guide is, is reported and never asserted."""

import pytest

from build_tools.commands import reading
from build_tools.commands.__main__ import main
from build_tools.commands.reading import Measure, measured, syllables, texts_of


@pytest.mark.parametrize(("word", "count"), [
    ("seed", 1), ("water", 2), ("open", 2), ("idea", 3), ("germination", 4), ("refrigerator", 5), ("away", 2), ("soaked", 1), ("roots", 1), ("seedling", 2), ("towel’s", 2), ("don’t", 1), ("row-cover", 3), ("colour", 2),
    ("25", 1), ("0.5", 1), ("C", 1), ("thermodormancy", 5),
])  # fmt: skip
def test_syllables(word, count):
    assert abs(syllables(word) - count) <= (1 if word == "thermodormancy" else 0)


def test_words_and_sentences():
    m = measured(["Keep it warm. “Is it wet?” Look every day.", "a list item without a stop"])
    assert (m.words, m.sentences, m.longest) == (15, 4, 6)
    assert measured([]).words == 0 and measured(["…"]) == Measure(0, 0, 0, 0)


def test_the_formulas_by_hand():
    """100 words in 5 sentences with 150 syllables: 206.835 − 1.015·20 − 84.6·1.5; 0.39·20 + 11.8·1.5 − 15.59."""
    m = Measure(words=100, sentences=5, longest=30, syllables=150)
    assert m.ease == pytest.approx(59.635) and m.grade == pytest.approx(9.91)


def test_only_what_is_read_as_sentences_counts():
    html = '<h2 id="a">Head</h2><p>Soak <a class="value" href="x"><span class="t"><span class="tc">20 °C</span><span class="tb"> (</span><span class="tf">68 °F</span><span class="tb">)</span></span></a> warm.<small class="from">A; B</small></p>'
    html += "<ul><li>One<br>two <b>three</b></li></ul><div><table><tr><td>Cell</td></tr></table></div><p></p>"
    assert texts_of(html) == ["Soak 20 °C warm.", "One two three"]


def test_the_command_reports_every_guide_and_asserts_nothing(reference, capsys):
    assert main(["reading"]) == 0
    rows = capsys.readouterr().out.split("\n")
    assert [row.split()[0] for row in rows[1 : len(reference.guides) + 2]] == [*reference.guides, "all"]
    assert "Flesch 1948" in rows[len(reference.guides) + 2]
    assert main(["reading", "warmth"]) == 0
    out = capsys.readouterr().out
    assert "\nwarmth " in out and "\nall " not in out
    assert main(["reading", "warmht"]) == 2 and 'Did you mean "warmth"?' in capsys.readouterr().err


def test_it_is_set_up_with_the_tests():
    from build_tools.set_up import NEEDS_TESTS

    assert "reading" in NEEDS_TESTS and reading.main.__doc__
