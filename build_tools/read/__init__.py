"""Reading: files in, values that remember file, line and column out. No rules of meaning here."""

from .csv_file import Table, read_csv
from .tree import DataTree, SourceFolder, of_tree, read_tree
from .yaml_file import Document, read_yaml

__all__ = ["DataTree", "SourceFolder", "Document", "Table", "of_tree", "read_tree", "read_yaml", "read_csv"]
