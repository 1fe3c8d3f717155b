"""Seed life in years, five printed lists of four origins, as typed from them.

IOWA      James Romer, Life Expectancy of Vegetable Seeds, Iowa State University Extension, Horticulture and Home Pest News,
          2 April 1999; adapted from Knott's Handbook for Vegetable Growers, 4th edition, 1997. Whole table read in a copy of
          the page, 41 kinds.
MADISON   M. Christoffel, vegetable seed shelf life, Madison Area Technical College, before about 2005. Second hand: read in a
          forum's quotation that names the page, 35 kinds.
FLORIDA   chart taken from a University of Florida publication whose title is not named. Second hand: read on the copying page,
          31 kinds. Same origin as MADISON, two figures differ.
OREGON    Jim Myers, How long do garden seeds last?, Oregon State University Extension, 2003 and later: least life without
          special care. Read in two copies down to spinach; the last four kinds second hand. 28 rows.
WATTS     Ralph L. Watts, Vegetable Gardening, Orange Judd, 1912 (year from memory), section 151: longest life for satisfactory
          germination. Whole table read, 28 kinds.
"""

from __future__ import annotations

from .printed import table

IOWA = """
Asparagus            asparagus                    3
Bean                 bean-snap                    3
Beet                 beet                         4
Broccoli             broccoli                     3
Brussels sprouts     brussels-sprouts             4
Cabbage              cabbage                      4
Carrot               carrot                       3
Celeriac             celeriac                     3
Cauliflower          cauliflower                  4
Celery               celery                       3
Chard, Swiss         chard                        4
Chicory              chicory                      4
Chinese cabbage      cabbage-chinese              3
Collards             collards                     5
Corn, sweet          corn-sweet                   2
Cucumber             cucumber                     5
Eggplant             eggplant                     4
Endive               endive                       5
Fennel               fennel                       4
Kale                 kale                         4
Kohlrabi             kohlrabi                     3
Leek                 leek                         2
Lettuce              lettuce                      6
Muskmelon            muskmelon                    5
Mustard              mustard-greens               4
New Zealand spinach  spinach-new-zealand          3
Okra                 okra                         2
Onion                onion                        1
Parsley              parsley                      1
Parsnip              parsnip                      1
Pea                  pea                          3
Pepper               pepper-sweet;pepper-hot      2
Pumpkin              pumpkin                      4
Radish               radish                       5
Rutabaga             rutabaga                     4
Salsify              salsify                      1
Spinach              spinach                      3
Squash               squash-summer;squash-winter  4
Tomato               tomato                       4
Turnip               turnip                       4
Watermelon           watermelon                   4
"""
MADISON = """
Leek              leek                         1
Onion             onion                        1
Parsnip           parsnip                      1
Corn              corn-sweet                   2
Okra              okra                         2
Parsley           parsley                      2
Asparagus         asparagus                    3
Bean              bean-snap                    3
Carrot            carrot                       3
Pea               pea                          3
Beet              beet                         4
Brussels sprouts  brussels-sprouts             4
Mustard           mustard-greens               4
Pepper            pepper-sweet;pepper-hot      4
Pumpkin           pumpkin                      4
Tomato            tomato                       4
Broccoli          broccoli                     5
Cabbage           cabbage                      5
Cauliflower       cauliflower                  5
Celery            celery                       5
Chinese cabbage   cabbage-chinese              5
Collard           collards                     5
Cucumber          cucumber                     5
Eggplant          eggplant                     5
Endive            endive                       5
Kale              kale                         5
Kohlrabi          kohlrabi                     5
Lettuce           lettuce                      5
Muskmelon         muskmelon                    5
Radish            radish                       5
Rutabaga          rutabaga                     5
Spinach           spinach                      5
Squash            squash-summer;squash-winter  5
Turnip            turnip                       5
Watermelon        watermelon                   5
"""
FLORIDA = """
Asparagus        asparagus                3
Bean             bean-snap                3
Beet             beet                     4
Broccoli         broccoli                 5
Brussels sprout  brussels-sprouts         5
Cabbage          cabbage                  5
Carrot           carrot                   3
Cauliflower      cauliflower              5
Celery           celery                   5
Chinese Cabbage  cabbage-chinese          5
Collard          collards                 5
Corn, sweet      corn-sweet               1
Cress, water     cress-water              5
Cucumber         cucumber                 5
Eggplant         eggplant                 5
Kale             kale                     5
Leek             leek                     1
Lettuce          lettuce                  5
Muskmelon        muskmelon                5
Mustard          mustard-greens           4
Okra             okra                     2
Onion            onion                    1
Parsley          parsley                  2
Parsnip          parsnip                  1
Pea              pea                      3
Pepper           pepper-sweet;pepper-hot  4
Pumpkin          pumpkin                  4
Radish           radish                   5
Rutabaga         rutabaga                 5
Spinach          spinach                  5
Tomato           tomato                   4
"""
OREGON = """
Bush and pole beans  bean-snap                    2
Beets                beet                         2
Broccoli             broccoli                     3-5
Brussels sprouts     brussels-sprouts             3-5
Cabbage              cabbage                      3-5
Cauliflower          cauliflower                  3-5
Kohlrabi             kohlrabi                     3-5
Carrots              carrot                       3
Collard              collards                     3-5
Kale                 kale                         3-5
Sweet corn           corn-sweet                   1
Cucumbers            cucumber                     3
Leeks                leek                         2-3
Onions               onion                        2-3
Lettuce              lettuce                      3
Melons               muskmelon                    3
Oriental greens      pak-choi                     3
Parsley              parsley                      2
Parsnips             parsnip                      1
Peas                 pea                          2
Peppers              pepper-sweet;pepper-hot      2
Radishes             radish                       4
Rutabagas            rutabaga                     3
Spinach              spinach                      1
Squashes             squash-summer;squash-winter  3-4
Swiss chard          chard                        2
Tomatoes             tomato                       3
Turnips              turnip                       4
"""
WATTS = """
Artichoke    artichoke                    2
Asparagus    asparagus                    2
Bean         bean-snap                    3
Beet         beet                         4
Cabbage      cabbage                      3
Carrot       carrot                       1
Cauliflower  cauliflower                  4
Celery       celery                       2
Cucumber     cucumber                     5
Eggplant     eggplant                     5
Endive       endive                       2
Kale         kale                         2
Kohlrabi     kohlrabi                     3
Leek         leek                         3
Lettuce      lettuce                      4
Muskmelon    muskmelon                    5
Okra         okra                         4
Onion        onion                        1
Parsley      parsley                      1
Parsnip      parsnip                      1
Pea          pea                          3
Pepper       pepper-sweet;pepper-hot      3
Radish       radish                       2
Salsify      salsify                      2
Squash       squash-summer;squash-winter  3
Tomato       tomato                       5
Turnip       turnip                       4
Watermelon   watermelon                   5
"""

COUNTS = {
    "iowa-state-1999": 41, "madison-tech-christoffel": 35, "florida-uf-copy": 31, "oregon-state-myers": 28, "watts-vegetable-gardening": 28,
}
TABLES = {
    source: table(text, "crop_as_printed", "crop_id", "years")
    for source, text in zip(COUNTS, (IOWA, MADISON, FLORIDA, OREGON, WATTS), strict=True)
}
FAMILIES = {
    "iowa-state-1999": "knott", "madison-tech-christoffel": "usda-old", "florida-uf-copy": "usda-old", "oregon-state-myers": "oregon", "watts-vegetable-gardening": "watts",
}
# Six prints of the table in Knott's handbook: equal wherever they could be compared.
KNOTT_PRINTS = (
    "iowa-state-1999", "nebraska-unl-2018", "virginia-tech-426-316", "purdue-lerner-2009", "colorado-state-7-221", "knotts-web-copy-2013",
)
