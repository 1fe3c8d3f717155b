"""Helping people who add to the data: skeletons of new files, tables walked in, values that the published families would give."""
