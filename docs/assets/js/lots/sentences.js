// The sentence that gives the reason for a verdict, and what has to be known besides.
// Twin of build_tools/lots/sentences.py.

import { REPEAT, TEST, TEST_DUE } from "./columns.js";
import { chanceInWords, grouped, listed, percentInWords } from "../words.js";

/** "36 of 50, 72 % (58–83 %)" */
export function countText(k, n, low, high) {
  return `${grouped(k)} of ${grouped(n)}, ${percentInWords(k, n)} (${low}–${high} %)`;
}

/** One plain sentence with count, interval and chance; further ones only where something is amiss. */
export function sentence(lot, verdict, lineText, count = null, nextTest = "", earlier = "") {
  const leftOut = lot.marked ? " A row of this lot was left out: see the problems." : "";
  if (verdict === TEST) return `No test of this lot in the file.${leftOut}`;
  const last = lot.tests[lot.tests.length - 1];
  const reaches = `the line of ${lineText} % with a chance of ${chanceInWords(count.chance)}`;
  let said;
  if (verdict === REPEAT) {
    const parts = last.replicates.map(([seeds, normal]) => `${grouped(normal)} of ${grouped(seeds)}`);
    said = `The replicates, ${listed(parts)}, differ by more than chance; together ${count.text}.`;
  } else if (verdict === TEST_DUE) {
    said = `${count.text} on ${last.tested}: reached ${reaches}; the next test was due on ${nextTest}.`;
  } else {
    said = `${count.text}: reaches ${reaches}.`;
  }
  if (earlier === "differs") {
    const before = lot.tests[lot.tests.length - 2];
    said += ` The test before, ${grouped(before.normal)} of ${grouped(before.seeds)} on ${before.tested}, differs by more than chance.`;
  }
  const total = last.hard + last.fresh;
  if (total > 0) {
    const still = [[last.hard, "hard"], [last.fresh, "fresh"]].filter(([number]) => number > 0)
      .map(([number, name]) => `${grouped(number)} ${name}`);
    said += ` Not counted: ${listed(still)} ${total === 1 ? "seed" : "seeds"}, which may still be alive.`;
  }
  return said + leftOut;
}
