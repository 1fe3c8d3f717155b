"""What is no possible input is refused, at its very edge too; the browser's side of the same lists is in test_twins.py."""

from __future__ import annotations

import pytest

from tests.science.refused import REFUSED
from tests.science.refused_edges import REFUSED_EDGES
from tests.science.write_vectors import MODULES


@pytest.mark.parametrize(("module", "function", "arguments"), REFUSED)
def test_refused(module, function, arguments):
    with pytest.raises(ValueError, match="[a-z]"):
        getattr(MODULES[module], function)(*arguments)


@pytest.mark.parametrize(("module", "function", "arguments", "says"), REFUSED_EDGES)
def test_refused_at_the_edge(module, function, arguments, says):
    with pytest.raises(ValueError) as caught:
        getattr(MODULES[module], function)(*arguments)
    assert says in str(caught.value)
