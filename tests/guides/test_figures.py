"""Numbers found in printed words, and whether a figure is one of them."""

import pytest

from build_tools.check.figure_rules import numbers_in, stands_in


@pytest.mark.parametrize(("printed", "numbers"), [
    ("96(23)", [96, 23]), ("22-25 / 12-15", [22, 25, 12, 15]), ("1/4", [0.25]), ("1 1/2-2", [1.5, 2]), ("75/65 F", [75, 65]), ("1,200 seeds", [1200]), ("two days, half", [2, 0.5]), ("-18 +/- 3 C", [18, 3, -18]),
    ("1/0 and 3.5/4", [1, 0, 0.875]), ("none", []),
])  # fmt: skip
def test_numbers_in_printed_words(printed, numbers):
    assert numbers_in(printed) == numbers


@pytest.mark.parametrize(("value", "unit", "printed", "stands"), [
    (24, "°C", "75 F", True), (23, "°C", "75 F", False), (-18, "°C", "0 F", True), (-18, "°C", "-18 C", True), (18.5, "°C", "65-70 F", True), (2.8, "°C more", "5 F cooler", True), (5, "°C more", "5 C", True), (3.5, "°C more", "5 F", False),
    (13, "mm", "1/2", True), (38, "mm", "1-1/2 in", False), (38, "mm", "1 1/2 in", True), (5, "cm", "2 in", True), (5, "mL", "1 teaspoon", True), (15, "mL", "1 tablespoon", True), (237, "mL", "1 cup", True), (240, "mL", "1 liter", False),
    (14, "days", "2 weeks", True), (15, "days", "2 weeks", False), (2, "times", "twice", True), (40, "%", "about 40 percent", True), (41, "%", "40", False),
])  # fmt: skip
def test_a_figure_stands_in_the_words(value, unit, printed, stands):
    assert stands_in(value, unit, printed) is stands
