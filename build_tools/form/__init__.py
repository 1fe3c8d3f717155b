"""The one form of a data file: order of keys, numbers, quotes, spaces. `fix` gives a text that form and never changes a value."""

from .csv_form import fix_csv
from .shapes import Shape, shape_of_file, shapes_of
from .yaml_form import CannotFix, fix_yaml

__all__ = ["CannotFix", "Shape", "fix_csv", "fix_yaml", "shape_of_file", "shapes_of"]
