"""Would the tests notice a wrong formula? Each mutant is the science with one small change; a good test fails on it.

Changes are made in memory, in processes of their own: no file is ever touched. `spots.py` finds the places, the same for Python and
JavaScript; `python_half.py` holds mutants of build_tools/science against its tests; `twins_half.py` holds those of the browser twins
against the vectors and published values; `equal.py` reads the list of changes that change nothing; `report.py` says what came out.
"""
