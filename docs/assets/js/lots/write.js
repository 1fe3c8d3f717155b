// Results and problems as text: CSV, problems, the summary.
// Twin of build_tools/lots/write.py.

import { csvCell } from "../csv.js";
import { FINE, RESULT_COLUMNS, VERDICTS } from "./columns.js";
import { FILE, ROW } from "./read.js";
import { counted, grouped } from "../words.js";

/** The results as lines of CSV, header first, each ending in a line feed. */
export function* csvLines(results) {
  yield `${RESULT_COLUMNS.join(",")}\n`;
  for (const result of results) yield `${RESULT_COLUMNS.map((name) => csvCell(result[name])).join(",")}\n`;
}

/** What was seen and what to do. */
export function problemWords({ level, message, hint }) {
  return `${level === "note" ? "Note: " : ""}${message} ${hint}`.trim();
}

/** "lots.csv:12 seeds: what was seen. What to do." */
export function problemLine(problem) {
  const column = [FILE, ROW].includes(problem.rule) ? "" : ` ${problem.rule}`;
  return `${problem.file}:${problem.line}${column}: ${problemWords(problem)}`;
}

/** How many lots have each verdict, in the order of need for action. */
export function tally(results) {
  const counts = Object.fromEntries([...VERDICTS.keys()].map((verdict) => [verdict, 0]));
  for (const result of results) counts[result.verdict] += 1;
  return counts;
}

/** "43 lots read; 12 need a look; 2 rows were left out." */
export function summary(leftOut, verdicts) {
  const lots = Object.values(verdicts).reduce((total, count) => total + count, 0);
  const look = lots - FINE.reduce((total, verdict) => total + verdicts[verdict], 0);
  const needing = look === 0 ? "none needs" : look === 1 ? "1 needs" : `${grouped(look)} need`;
  const left = leftOut === 0 ? "" : `; ${counted(leftOut, "row")} ${leftOut === 1 ? "was" : "were"} left out`;
  return `${counted(lots, "lot")} read; ${needing} a look${left}.`;
}

/** "Hold: 3; lend: 12.": those that occur. */
export function verdictsText(verdicts) {
  const text = Object.entries(verdicts).filter(([, count]) => count > 0)
    .map(([verdict, count]) => `${verdict}: ${grouped(count)}`).join("; ");
  return `${text.slice(0, 1).toUpperCase()}${text.slice(1)}.`;
}
