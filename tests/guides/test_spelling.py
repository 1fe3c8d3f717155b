"""Every word of the guides and of what they show is known to a speller, to the names in the data, or to words.txt beside this test."""

import pytest

from .words import LIST, listed, unknown, used, words_in

HOW = "Mend it; or, if it is right (British, or of the trade), run: python -m tests.guides.words"


@pytest.fixture(scope="module")
def not_known():
    return unknown()


def test_every_word_is_known(not_known):
    kept = set(listed())
    assert [f"{place}: {word}. {HOW}" for word, place in not_known.items() if word not in kept] == []


def test_no_word_is_kept_that_nothing_uses(not_known):
    assert [f"{LIST.name}: nothing uses “{word}”, or it is known without. Take it out, or run: python -m tests.guides.words" for word in listed() if word not in not_known] == []


def test_the_list_is_sorted_one_word_a_line():
    assert listed() == sorted(set(listed())) and all(list(words_in(word)) == [word] for word in listed())


def test_a_misspelt_word_is_found():
    from spellchecker import SpellChecker

    assert SpellChecker(distance=1).unknown(["germinaton", "temprature", "seedlng", "seedling", "temperature"]) == {"germinaton", "temprature", "seedlng"}


def test_words_are_taken_from_guides_and_from_what_they_show():
    found = used()
    assert {place.partition(":")[0] for place in found.values()} >= {"docs/guides/warmth.md", "data/glossary.yml", "data/guides.yml", "data/cautions.yml", "data/figures.yml"}
    assert list(words_in("The seed’s coat, isn’t 25 °C or self-sown: naïve")) == ["the", "seed", "coat", "isn't", "or", "self", "sown", "naïve"]
