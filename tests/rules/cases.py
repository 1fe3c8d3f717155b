"""One bad example for each rule: an edit of the good tree, and where the rule must point.

(rule, file, what stands there, what the edit puts there, line the problem names). An empty "what stands there" appends;
a file that does not exist is created.
"""

CASES = [
    # Reading
    ("yaml-syntax", "crops/alpha.yml", "kind: vegetable", "kind: [vegetable", 10),
    ("yaml-word", "crops/alpha.yml", "kind: vegetable", "kind: no", 9),
    ("yaml-empty", "crops/alpha.yml", "kind: vegetable", "kind:", 9),
    ("yaml-date", "sources/table-one/source.yml", 'year: "1999"', "year: 1999-01-01", 4),
    ("yaml-number", "crops/alpha.yml", "{value: 24,", "{value: 2.4e1,", 15),
    ("yaml-anchor", "crops/alpha.yml", "kind: vegetable", "kind: &k vegetable", 9),
    ("yaml-tag", "crops/alpha.yml", "kind: vegetable", "kind: !!str vegetable", 9),
    ("yaml-key", "crops/alpha.yml", "kind: vegetable", "[kind]: vegetable", 9),
    ("duplicate-key", "crops/alpha.yml", "kind: vegetable", "kind: vegetable\nkind: herb", 10),
    ("nested-too-deep", "crops/alpha.yml", "[from memory]", "[[[[[[[[[[[[from memory]]]]]]]]]]]]", 8),
    ("file-too-large", "crops/alpha.yml", "", "# " + "x" * 100_001, 1),
    ("not-utf8", "crops/alpha.yml", "first bean", b"first b\xe9an", 5),
    ("hidden-character", "crops/alpha.yml", "first bean", "first\u202e bean", 5),
    ("csv-header", "sources/table-two/life.csv", "years_min,years_max", "years_min,years_min", 1),
    ("csv-shape", "sources/table-two/life.csv", "Alpha,alpha,3,3,3", "Alpha,alpha,3,3", 2),
    ("unknown-file", "crops/notes.txt", "", "my notes", 1),
    ("missing-file", "library.yml", None, None, 1),
    ("symlink", "crops/gamma.yml", "symlink", "alpha.yml", 1),
    ("unreadable", "sources/hollow/notes.csv", "", "a,b\n1,2\n", 1),
    # Shape
    ("unknown-key", "crops/alpha.yml", "optimum_c:", "optimun_c:", 15),
    ("missing-key", "crops/alpha.yml", "kind: vegetable\n", "", 2),
    ("not-allowed", "crops/alpha.yml", "kind: vegetable", "kind: vegtable", 9),
    ("wrong-type", "crops/alpha.yml", "{value: 24,", '{value: "24",', 15),
    ("wrong-form", "crops/alpha.yml", "sources: [table-one, table-two]", "sources: [Table One]", 12),
    ("wrong-size", "crops/alpha.yml", "sources: [table-one, table-two]", "sources: []", 12),
    ("unknown-column", "sources/table-two/life.csv", "years_as_printed", "years_as_prnted", 1),
    ("missing-column", "sources/table-two/life.csv", "years_min", "storage", 1),
    ("wrong-cell", "sources/table-two/life.csv", "Alpha,alpha,3,3,3", "Alpha,alpha,3,three,3", 2),
    # Meaning
    ("id-is-name", "crops/alpha.yml", "id: alpha", "id: alfa", 2),
    ("temperature-order", "crops/alpha.yml", "optimum_c: {value: 24,", "optimum_c: {value: 31,", 14),
    ("half-degree", "crops/alpha.yml", "optimum_c: {value: 24,", "optimum_c: {value: 23.9,", 15),
    ("range-order", "crops/alpha.yml", "low: 13, high: 25", "low: 25, high: 13", 18),
    ("plausible", "crops/alpha.yml", "maximum_c: {value: 35,", "maximum_c: {value: 95,", 16),
    ("unknown-source", "crops/alpha.yml", "seed_life_years: {value: 3, sources: [table-two]}", "seed_life_years: {value: 3, sources: [table-tow]}", 17),
    ("unused-source", "sources/lonely/source.yml", "", 'id: lonely\ntitle: "T"\npublisher: "P"\nyear: "1"\ncopy_read: "c"\nverified: "v"\nevidence: advice\nfamily: lonely\n', 1),
    ("citation-without-row", "crops/beta.yml", "seed_life_years: {value: 4, sources: [table-two]}", "seed_life_years: {value: 4, sources: [lists-gamma]}", 12),
    ("unknown-treatment", "crops/alpha.yml", "treatment: soak", "treatment: soaking", 20),
    ("unused-treatment", "treatments/chill.yml", "", 'id: chill\nname: "Chilling"\nwhat: "Moist and cold."\nsteps: []\nevidence:\n  - {grade: trial, text: "None yet.", sources: [table-two]}\ncautions: []\n', 1),
    ("unknown-crop-id", "sources/table-two/life.csv", "Beta,beta", "Beta,betta", 3),
    ("kind-without-page", "other-kinds.yml", "", 'delta: {name: "Delta", why: "none"}\n', 2),
    ("too-little-evidence", "sources/table-two/life.csv", "Beta,beta,3-5,3,5\n", "Beta,,3-5,3,5\n", 1),
    ("name-taken", "crops/beta.yml", '"Beta leaf"', '"Alpha Bean"', 3),
    ("unknown-table", "sources/table-one/source.yml", "file: bands.csv", "file: band.csv", 10),
    ("doubt-matches", "sources/table-one/days.csv", "Beta,beta,60,20,10,7,5,4,NG,9,-,", "Beta,beta,60,20,10,7,5,4,NG,8,-,", 17),
    ("band-order", "sources/table-one/bands.csv", "Alpha,alpha,50,60,85,75,95,", "Alpha,alpha,50,60,85,90,95,", 2),
    ("days-fall", "sources/table-one/days.csv", "Alpha,alpha,NG,NG,30,20,10,6,6,8,-,", "Alpha,alpha,NG,NG,30,40,10,6,6,8,-,", 2),
    ("departs-without-reason", "crops/alpha.yml", "minimum_c: {value: 10,", "minimum_c: {value: 4,", 12),
    ("departs-not-needed", "crops/alpha.yml", "minimum_c: {value: 10, sources: [table-one, table-two]}", 'minimum_c: {value: 10, sources: [table-one, table-two], departs: "Because we like it so."}', 12),
]
