"""A file of lots and their tests: read with care, judged lot by lot, given back as table, CSV and sheet.

Knows nothing of the model: the caller makes the Catalogue. Twins of the modules: docs/assets/js/lots/.
"""

from .catalogue import Catalogue, catalogue_of, data_of
from .columns import COLUMNS, RESULT_COLUMNS, VERDICTS
from .judge import Result, judge_lots
from .read import Reading, read_lots

__all__ = ["COLUMNS", "RESULT_COLUMNS", "VERDICTS", "Catalogue", "Reading", "Result", "catalogue_of", "data_of", "judge_lots", "read_lots"]
