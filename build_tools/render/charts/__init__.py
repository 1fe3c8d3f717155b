"""Charts: rows in, inline SVG out. Horizontal places are percentages, so text keeps its size on any screen."""
