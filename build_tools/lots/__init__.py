"""A file of lots and their tests: read with care, judged lot by lot, given back as table, CSV and sheet.

Knows nothing of the model: the caller makes the Catalogue. Twins of the modules: docs/assets/js/lots/.
"""

from typing import TYPE_CHECKING

from .catalogue import Catalogue, catalogue_of, data_of
from .columns import COLUMNS, RESULT_COLUMNS, VERDICTS
from .read import Reading, read_lots

if TYPE_CHECKING:
    from .judge import Result, judge_lots

__all__ = ["COLUMNS", "RESULT_COLUMNS", "VERDICTS", "Catalogue", "Reading", "Result", "catalogue_of", "data_of", "judge_lots", "read_lots"]


def __getattr__(name: str):
    """Judging needs scipy, which takes longer to load than the check of all data: it is loaded when first wanted."""
    if name in ("Result", "judge_lots"):
        from . import judge

        return getattr(judge, name)
    raise AttributeError(name)
