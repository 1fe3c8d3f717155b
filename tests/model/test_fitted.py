"""Curves are those of scipy.interpolate.PchipInterpolator, kept or not."""

import subprocess
import sys

import numpy as np
import pytest
from scipy.interpolate import PchipInterpolator

from build_tools import kept
from build_tools.fitted import KIND, pchip
from build_tools.science.emergence import smooth_curve

X, Y = [0, 5, 10.5, 20, 25], [43, 31, 31, 8.25, 9]


@pytest.fixture
def keeping(tmp_path):
    kept.keep_in(tmp_path)
    yield tmp_path
    kept.keep_in(None)


def test_pieces_and_values_are_those_of_scipy():
    curve = PchipInterpolator(X, Y, extrapolate=False)
    assert np.array_equal(np.array(pchip(X, Y)).T, curve.c)
    asked = np.linspace(-1, 26, 271)
    np.testing.assert_allclose([smooth_curve(X, Y)(x) for x in asked], curve(asked), rtol=1e-13)
    assert smooth_curve(X, Y)(25) == 9 and smooth_curve(X, Y)(0) == 43


def test_what_was_kept_is_what_was_worked_out(keeping):
    first = pchip(X, Y)
    (file,) = (keeping / KIND).iterdir()
    assert pchip(X, Y) == first
    content = file.read_bytes()
    file.write_bytes(content[:-3])  # cut short
    assert pchip(X, Y) == first and file.read_bytes() == content
    pchip(X, [*Y[:-1], 9.5])
    assert len(list((keeping / KIND).iterdir())) == 2


def test_known_points_need_no_scipy(keeping, root):
    pchip(X, Y)
    code = f"import sys; from pathlib import Path; from build_tools import kept; from build_tools.fitted import pchip; kept.keep_in(Path({str(keeping)!r})); pchip({X}, {Y}); print('scipy.interpolate' in sys.modules); pchip([0, 1], [0, 1]); print('scipy.interpolate' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], cwd=root, capture_output=True, text=True, check=True).stdout.split() == ["False", "True"]


def test_temperatures_out_of_order_are_refused(keeping):
    with pytest.raises(ValueError, match="strictly increasing"):
        pchip([10, 5], [1, 2])
