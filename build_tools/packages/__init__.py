"""The packages that the project stands on: which, why, under which licence; what of them is passed on with the site; known faults in them."""

from .listed import Package, faults, read_list
from .passed_on import Part, parts

__all__ = ["Package", "Part", "faults", "parts", "read_list"]
