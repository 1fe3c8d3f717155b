"""What differs between two versions of the data, in readers' words; and releases made from such a comparison."""

from .compare import compare_versions
from .report import Change, Report, Touched
from .versions import CannotCompare, opened

__all__ = ["CannotCompare", "Change", "Report", "Touched", "compare_versions", "opened"]
