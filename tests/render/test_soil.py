"""Soil by date on a small data tree: without a record of air and soil there is no error, and so there are no dates."""

import re
import shutil

from build_tools.model import build_reference
from build_tools.read import read_tree
from build_tools.render import render
from build_tools.render.calculators import soil
from tests.rules.trees import copy_sound


def test_without_a_record_it_says_that_no_error_was_measured(tmp_path, root):
    copy_sound(tmp_path)
    shutil.copytree(root / "schema", tmp_path / "schema")
    reference = build_reference(read_tree(tmp_path / "data"))
    assert soil.station_of(reference) is None
    page = render(reference, tmp_path).pages["calculators/soil.md"].body()
    assert "No error was measured" in page and "With a thermometer" in page
    assert "<form" not in page and "<script" not in page
    assert not re.search(r"\d+ (January|April|May|October)", page), "no date without its range"


def test_with_a_record_it_has_the_form(reference, root):
    page = render(reference, root).pages["calculators/soil.md"].body()
    assert "No error was measured" not in page and "<form" in page
