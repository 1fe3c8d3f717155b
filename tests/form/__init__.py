"""The form of data files."""
