"""The command `posters`: files written whole, words understood or refused with a remedy."""

import io
import os

import pdfplumber
import pytest

from build_tools.commands.__main__ import main
from build_tools.render.choose import choose_crops
from tests.sheets.boxes import POINTS


def run(capsys, *words):
    status = main(["posters", *map(str, words)])
    said = capsys.readouterr()
    return status, said.out, said.err


def test_chosen_crops_on_a_chosen_paper(tmp_path, capsys):
    status, out, _ = run(capsys, "--size", "A3", "--units", "F", "--crops", "tomato,pepper", "--out", tmp_path)
    assert status == 0
    assert {p.name for p in tmp_path.iterdir()} == {f"{name}-A3-F.pdf" for name in ("bands", "days", "seed-life", "steps", "towel-test")}
    with pdfplumber.open(tmp_path / "bands-A3-F.pdf") as pdf:
        text = pdf.pages[0].extract_text()
        assert [pdf.pages[0].width, pdf.pages[0].height] == pytest.approx([297 * POINTS, 420 * POINTS], abs=0.1)
    assert all(name in text for name in ("Tomato", "Hot pepper", "Sweet pepper", "60–85")) and "Lettuce" not in text and "15.5" not in text
    assert "Tomato, Hot pepper, Sweet pepper" in out and "the same for every crop" in out


def test_several_papers_and_posters(tmp_path, capsys):
    status, out, _ = run(capsys, "--size", "a4, 24×36", "--poster", "bands,seed-life", "--orientation", "landscape", "--out", tmp_path / "new" / "folder")
    assert status == 0 and "4 posters of all crops" in out
    assert {p.name for p in (tmp_path / "new" / "folder").iterdir()} == {f"{name}-{paper}-landscape-both.pdf" for name in ("bands", "seed-life") for paper in ("A4", "24x36")}


@pytest.mark.parametrize("words, said", [
    (["--crops", "tomatto"], 'No crop is called "tomatto". Did you mean "tomato"?'),
    (["--crops", " , "], "--crops names no crop"),
    (["--size", "B5"], "--size B5: there is no such paper. Known: A2, A3, A4, Letter, Tabloid, 24x36."),
    (["--poster", "band"], "--poster band: there is no such poster. Known: bands, days"),
    (["--poster", "days", "--orientation", "landscape"], "the poster days is made in portrait only"),
])
def test_a_word_that_is_not_understood(tmp_path, capsys, words, said):
    status, out, err = run(capsys, *words, "--out", tmp_path / "posters")
    assert status == 2 and said in err and "No poster was written." in err and out == ""
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_cannot_be_written(tmp_path, capsys):
    blocked = tmp_path / "file"
    blocked.write_text("not a folder")
    status, _, err = run(capsys, "--poster", "steps", "--size", "A4", "--out", blocked)
    assert status == 1 and "Choose another folder with --out" in err and blocked.read_text() == "not a folder"


def test_a_poster_is_replaced_whole(tmp_path, capsys):
    old = tmp_path / "steps-A4-both.pdf"
    old.write_bytes(b"old")
    assert run(capsys, "--poster", "steps", "--size", "A4", "--out", tmp_path)[0] == 0
    assert old.read_bytes().startswith(b"%PDF-") and os.listdir(tmp_path) == [old.name]
    with pdfplumber.open(io.BytesIO(old.read_bytes())) as pdf:
        assert "From packet to seedling" in pdf.pages[0].extract_text()


@pytest.mark.parametrize("words, crops", [
    (["tomato"], ["tomato"]), (["Aubergine"], ["eggplant"]), (["PEPPER"], ["pepper-hot", "pepper-sweet"]), (["pepper", "hot pepper"], ["pepper-hot", "pepper-sweet"]),
    (["new zealand spinach"], ["spinach-new-zealand"]), (["lettuce", "", "tomato "], ["lettuce", "tomato"]),
])
def test_crops_are_found_by_the_words_people_use(reference, words, crops):
    assert choose_crops(reference, words) == crops
