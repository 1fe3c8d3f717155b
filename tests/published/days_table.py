"""Days to emergence by soil temperature, as printed: shared by the checks of the table and of the curve through it.

Source: J. F. Harrington and P. A. Minges, Vegetable Seed Germination, California Agricultural Extension mimeographed leaflet,
1954, reprinted in Knott's Handbook for Vegetable Growers (editors D. N. Maynard and G. J. Hochmuth, from memory; Wiley,
1997), and from there as Appendix 4 (unit 1.3, page 44) of Teaching Organic Farming and Gardening (University of California,
Santa Cruz; publisher from memory). Read in a copy of that page; 24 rows, seed half an inch deep.
NG = no germination, - = not tested.
"""

from __future__ import annotations

from .printed import GRID, table

# kind, our ids, days at 32, 41, 50, 59, 68, 77, 86, 95, 104 °F
PRINTED = """
Asparagus    asparagus                NG   NG  53  24  15  10  12  20  28
Bean, lima   bean-lima                -    -   NG  31  18  7   7   NG  -
Bean snap    bean-snap                NG   NG  NG  16  11  8   6   6   NG
Beet         beet                     -    42  17  10  6   5   5   5   -
Cabbage      cabbage                  -    -   15  9   6   5   4   -   -
Carrot       carrot                   NG   51  17  10  7   6   6   9   NG
Cauliflower  cauliflower              -    -   20  10  6   5   5   -   -
Celery       celery                   NG   41  16  12  7   NG  NG  NG  -
Corn, sweet  corn-sweet               NG   NG  22  12  7   4   4   3   NG
Cucumber     cucumber                 NG   NG  NG  13  6   4   3   3   -
Eggplant     eggplant                 -    -   -   -   13  8   5   -   -
Lettuce      lettuce                  49   15  7   4   3   2   3   NG  NG
Muskmelon    muskmelon                -    -   -   -   8   4   3   -   -
Okra         okra                     NG   NG  NG  27  17  13  7   6   7
Onion        onion                    136  31  13  7   5   4   4   13  NG
Parsley      parsley                  -    -   29  17  14  13  12  -   -
Parsnip      parsnip                  172  57  27  19  14  15  32  NG  NG
Pea          pea                      -    36  14  9   8   6   6   -   -
Pepper       pepper-sweet;pepper-hot  NG   NG  NG  25  13  8   8   9   NG
Radish       radish                   NG   29  11  6   4   4   3   -   -
Spinach      spinach                  63   23  12  7   6   5   6   NG  NG
Tomato       tomato                   NG   NG  43  14  8   6   6   9   NG
Turnip       turnip                   NG   NG  5   3   2   1   1   1   3
Watermelon   watermelon               -    NG  -   -   12  5   4   3   -
"""
ROWS = table(PRINTED, "crop_as_printed", "crop_id", *GRID)
CELSIUS = dict(zip(GRID, range(0, 45, 5), strict=True))  # the columns are exact steps of 5 °C


def measured_points(row: dict[str, str]) -> list[tuple[int, int]]:
    """(°C, days) of the cells with a number, from cold to warm."""
    return [(CELSIUS[c], int(row[c])) for c in GRID if row[c].isdigit()]
