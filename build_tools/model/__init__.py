"""The model: one frozen, typed Reference. Computed fields appear here and nowhere earlier."""

from .build import build_reference, load
from .reference import Crop, Reference, Source

__all__ = ["Crop", "Reference", "Source", "build_reference", "load"]
