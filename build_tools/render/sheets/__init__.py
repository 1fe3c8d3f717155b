"""Things to print: posters, cards, labels and record sheets.

A layout (rows in, marks out) knows papers and type; `typeset.py` turns marks into PDF, `docs/assets/js/sheets/draw.js` turns the
same marks into SVG. All measures are millimetres on the sheet's design size, which `paper.py` scales to the paper.
"""
