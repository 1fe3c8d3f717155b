// One entry: what the test is for, and how sure it has to be.

import { readWhole } from "../fields.js";
import { level, oneOf, readPercent, reader } from "../reading.js";

export const FIELDS = ["goal", "expected", "within", "confidence", "good", "bad", "away", "passed", "most"];
const RISKS = ["10", "1", "5", "20"];

/** The entry a reader finds first; the good lot is one ten points above the library's lending line. */
export function example(crop, data) {
  const line = data.lending_line_percent;
  return {
    example: true, goal: "width", expected: "80", within: "10", confidence: "95",
    good: String(Math.min(line + 10, 95)), bad: String(Math.max(line - 10, 5)), away: "10", passed: "10", most: "60",
  };
}

/** {values, messages}; fractions. Fields of the goal that was not chosen are not asked for. */
export function readEntry(entry) {
  return entry.goal === "lots" ? readLots(entry) : readWidth(entry);
}

function readWidth(entry) {
  const { note, done } = reader();
  return done({
    goal: "width",
    expected: note("expected", readPercent(entry.expected, {
      above: 0, most: 99, empty: "Nothing typed. Type about how much you expect to come up, for example 80; 50 if you have no idea.",
    })),
    within: note("within", readPercent(entry.within, {
      above: 0, most: 40, empty: "Nothing typed. Type how many points either way you can live with, for example 10.", what: "Type a half-width",
    })),
    confidence: level(entry.confidence, "95"),
  });
}

function readLots(entry) {
  const { note, done, messages } = reader();
  const good = note("good", readPercent(entry.good, { above: 0, most: 99, empty: "Nothing typed. Type the percentage of a lot you would be glad to lend." }));
  const bad = note("bad", readPercent(entry.bad, { above: 0, most: 99, empty: "Nothing typed. Type the percentage of a lot you must not let pass." }));
  if (good !== null && bad !== null && bad >= good) {
    messages.set("bad", "A bad lot must lie below a good one. Type a smaller percentage here, or a larger one above.");
  } else if (good !== null && bad !== null && good - bad < 0.03) {
    messages.set("bad", "These lots are too alike: telling them apart takes thousands of seeds. Type percentages at least 3 points apart.");
  }
  const most = note("most", readWhole(entry.most, { least: 10, most: 200, empty: "Nothing typed. Type the most seeds you would test, for example 60.", tooMany: "Type at most 200 seeds." }));
  return done({
    goal: "lots", good, bad,
    away: Number(oneOf(entry.away, RISKS)) / 100,
    passed: Number(oneOf(entry.passed, RISKS)) / 100,
    groups: most === null ? null : Math.floor(most / 10),
  });
}
