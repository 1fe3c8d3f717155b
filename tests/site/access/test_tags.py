"""What is offered to print can be read aloud: each PDF of the site has a language, a shown title and tags; figures say what they show; no text stands outside the tags."""

from __future__ import annotations

from collections import Counter

import pdfplumber
import pytest
from pdfminer.pdftypes import PDFObjRef, resolve1
from pdfminer.utils import decode_text

from build_tools.commands.__main__ import main


@pytest.fixture(scope="module")
def files(built):
    """Every PDF that the site offers."""
    return sorted((built / "downloads").rglob("*.pdf"))


def elements(node, level=0):
    """The structure tree in reading order: (level, type, other text)."""
    node = resolve1(node)
    for one in node if isinstance(node, list) else [node]:
        one = resolve1(one) if isinstance(one, PDFObjRef) else one
        if not isinstance(one, dict) or "S" not in one:
            continue
        yield level, one["S"].name, decode_text(one["Alt"]) if "Alt" in one else ""
        if "K" in one:
            yield from elements(one["K"], level + 1)


def test_every_pdf_is_tagged_and_titled(files):
    titles = Counter()
    for path in files:
        with pdfplumber.open(path) as pdf:
            catalog = pdf.doc.catalog
            assert resolve1(catalog["MarkInfo"])["Marked"] is True and catalog["Lang"] == b"en", path
            assert resolve1(catalog["ViewerPreferences"])["DisplayDocTitle"] is True, path
            titles[pdf.metadata["Title"], path.parent.name] += 1
            tags = list(elements(resolve1(catalog["StructTreeRoot"])["K"]))
            assert tags[0][1] == "Document", path
            headings = [int(kind[1]) for _, kind, _ in tags if kind[0] == "H" and kind[1:].isdigit()]
            assert headings and headings[0] == 1 and all(after <= before + 1 for before, after in zip(headings, headings[1:])), (path, headings[:5])
            figures = [alt for _, kind, alt in tags if kind == "Figure"]
            assert all(len(alt) > 5 for alt in figures), (path, figures[:3])
            assert path.name.startswith(("cards", "towel")) or figures, path
            assert {kind for _, kind, _ in tags} <= {"Document", "H1", "H2", "H3", "P", "Span", "Figure", "L", "LI", "LBody", "Lbl", "Link", "Div", "Sect", "NonStruct", "Table", "TR", "TH", "TD"}, path
    assert len(files) > 30 and all(title for title, _ in titles)


def test_no_letter_stands_outside_the_tags(files):
    seen = 0
    for path in (path for path in files if "A4" in path.name or "A6" in path.name):  # the same marks on every paper
        with pdfplumber.open(path) as pdf:
            outside = [char["text"] for char in pdf.pages[0].chars if char.get("mcid") is None and char.get("tag") != "Artifact"]
            seen += len(pdf.pages[0].chars)
        assert outside == [], (path, "".join(outside)[:80])
    assert seen > 5_000


def test_a_sheet_of_labels_is_tagged_too(root, tmp_path):
    main(["labels", str(root / "data/demo/lots.csv"), "--out", str(tmp_path)])
    with pdfplumber.open(next(tmp_path.glob("*.pdf"))) as pdf:
        assert resolve1(pdf.doc.catalog["MarkInfo"])["Marked"] is True and pdf.doc.catalog["Lang"] == b"en"
        figures = [alt for _, kind, alt in elements(resolve1(pdf.doc.catalog["StructTreeRoot"])["K"]) if kind == "Figure"]
    assert len(figures) > 5 and all("lot " in alt for alt in figures)
