// Reads and judges a file away from the page, and keeps the results: the page asks for what it shows.
// In: {kind: "read" | "line" | "find" | "csv" | "problems", …}; out: {kind: "progress" | "done" | "found" | "file" | "failed", …}.

import { Catalogue, fold } from "./catalogue.js";
import { Judge, byNeed } from "./judge.js";
import { readLots } from "./read.js";
import { csvLines, problemLine, problemWords, summary, tally, verdictsText } from "./write.js";

const MOST_PROBLEMS = 200; // sent to the page; the rest is in the file of problems
const EVERY = 2000; // lots between two words on progress

let catalogue = null;
let today = "";
let name = "";
let reading = null;
let judge = null;
let decisions = []; // in the order of the file
let ordered = []; // by need for action

self.addEventListener("message", async ({ data }) => {
  try {
    await tasks[data.kind](data);
  } catch (error) {
    self.postMessage({ kind: "failed", message: String(error?.message ?? error) });
  }
});

const tasks = {
  async read(asked) {
    catalogue = new Catalogue(asked.catalogue);
    ({ today, name } = asked);
    const { size } = asked.file;
    reading = await readLots(asked.file, name, catalogue, today, (bytes, rows) => {
      self.postMessage({ kind: "progress", stage: "read", done: bytes, total: size, rows });
    });
    judgeAll(asked.line);
  },

  line({ line }) {
    if (reading !== null) judgeAll(line);
  },

  find({ id, verdict, text, from, count }) {
    const wanted = fold(text).split(" ").filter((word) => word !== "");
    const fits = (decision) => {
      if (verdict !== "" && decision.verdict !== verdict) return false;
      if (wanted.length === 0) return true;
      const { lot } = decision;
      if (lot.searched === undefined) {
        const crop = catalogue.data.crops[lot.crop]; // found by any of its names
        lot.searched = fold(`${lot.name} ${crop.name} ${crop.names.join(" ")} ${lot.variety}`);
      }
      return wanted.every((word) => lot.searched.includes(word));
    };
    const found = verdict === "" && wanted.length === 0 ? ordered : ordered.filter(fits);
    const rows = found.slice(from, from + count).map((decision) => judge.texts(decision));
    self.postMessage({ kind: "found", id, total: found.length, from, rows });
  },

  csv({ id }) {
    sendFile(id, csvLines(textsOf(decisions)), "text/csv");
  },

  problems({ id }) {
    sendFile(id, reading.problems.map((problem) => `${problemLine(problem)}\n`), "text/plain");
  },
};

function* textsOf(all) {
  for (const decision of all) yield judge.texts(decision);
}

function judgeAll(line) {
  judge = new Judge(catalogue, line, today);
  decisions = [];
  for (const lot of reading.lots.values()) {
    if (decisions.length % EVERY === 0) {
      self.postMessage({ kind: "progress", stage: "judge", done: decisions.length, total: reading.lots.size, rows: reading.rows });
    }
    decisions.push(judge.decide(lot));
  }
  ordered = byNeed(decisions);
  const verdicts = tally(decisions);
  self.postMessage({
    kind: "done", line, today, lots: decisions.length, rows: reading.rows, leftOut: reading.leftOut, verdicts,
    said: summary(reading.leftOut, verdicts), counts: verdictsText(verdicts), problemCount: reading.problems.length,
    problems: reading.problems.slice(0, MOST_PROBLEMS)
      .map((problem) => ({ line: problem.line, column: problem.rule, level: problem.level, words: problemWords(problem) })),
  });
}

// Text in pieces as one file; gathered into fewer, larger parts on the way.
function sendFile(id, pieces, type) {
  const parts = [];
  let part = "";
  for (const piece of pieces) {
    part += piece;
    if (part.length > 1_000_000) {
      parts.push(new Blob([part]));
      part = "";
    }
  }
  parts.push(part);
  self.postMessage({ kind: "file", id, blob: new Blob(parts, { type: `${type};charset=utf-8` }) });
}
