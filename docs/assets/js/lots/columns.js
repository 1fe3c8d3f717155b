// The columns of the file, of the results, and the verdicts.
// Twin of build_tools/lots/columns.py, where the columns are described.

export const LONGEST_LOT = 60; // characters
export const MOST_SEEDS = 100000; // in one row
export const STORAGES = ["cool-dry", "cold-dry", "warm"];

export const NAMES = ["lot", "crop", "variety", "harvested", "storage", "tested", "seeds", "normal",
  "abnormal", "hard", "fresh", "dead", "note"];
export const HEADINGS_NEEDED = ["lot", "crop", "tested", "seeds", "normal"];
export const COUNTS = ["seeds", "normal", "abnormal", "hard", "fresh", "dead"];

// What people call the columns, so that a missing one can be found under another heading.
export const OTHER_WORDS = new Map(Object.entries({
  accession: "lot", batch: "lot", number: "lot", kind: "crop", species: "crop", vegetable: "crop", name: "crop",
  cultivar: "variety", harvest: "harvested", year: "harvested", store: "storage", stored: "storage", place: "storage",
  date: "tested", test: "tested", counted: "tested", set: "seeds", sown: "seeds", seed: "seeds", total: "seeds",
  seedlings: "normal", germinated: "normal", sprouted: "normal", came: "normal", remarks: "note", comment: "note", notes: "note",
}));

export const RESULT_COLUMNS = ["lot", "crop", "variety", "harvested", "storage", "tests", "tested",
  "seeds", "normal", "percent", "low", "high", "line", "chance", "replicates", "earlier", "verdict",
  "next_test", "words"];

export const GOOD_CHANCE = 0.95;
export const EVEN_CHANCE = 0.50;
export const POOR_CHANCE = 0.05;

export const LEND = "lend";
export const LEND_MARKED = "lend marked";
export const HOLD = "hold";
export const DO_NOT_LEND = "do not lend unmarked";
export const REPEAT = "repeat the test";
export const TEST = "test";
export const TEST_DUE = "test due";

/** What each verdict means, in the order of need for action. */
export const VERDICTS = new Map([
  [DO_NOT_LEND, "The lot falls short of the lending line (a chance of 5 % or less to reach it). Grow it out, mark it or let it go."],
  [HOLD, "The lot may fall short (a chance of 5 to 50 %). Keep it back and test more seeds."],
  [REPEAT, "The replicates differ by more than chance. Look for a cause and test again."],
  [TEST, "No test of this lot is in the file."],
  [TEST_DUE, "The last test was good enough, but its next test is overdue."],
  [LEND_MARKED, "Lend it with its percentage on the packet (a chance of 50 to 95 % to reach the line). More seeds would settle it."],
  [LEND, "The lot reaches the lending line (a chance of 95 % or more)."],
]);
export const FINE = [LEND, LEND_MARKED];
