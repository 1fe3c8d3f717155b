// The answer: the list with clock times, amounts, cautions, picture, and what is known.

import { element, list as bullets, numbers, parts, pictureSlot } from "../element.js";
import { amountRows, jarWords, mixSentence, strengthNotes } from "./amount_words.js";
import { dayText, weekday } from "./clock.js";
import { inOneUnit } from "./one_unit.js";
import { timeline } from "./picture.js";
import { clockNotes, headline, jarLine, lower, stepWords, trust } from "./words.js";

/** What mountCalculator shows of an answer. */
export function show(answer, data, level) {
  const { values, crop, no } = answer;
  const { treatment } = values;
  const cautions = cautionsOf(answer, data);
  const title = `${treatment?.name ?? "Before sowing"}${crop === null ? "" : `, ${crop.name}`}`;
  const common = { title, headline: headline(answer, data), trust: trust(answer, data) };
  const known = parts(level, [knownFor(answer, data), tried(answer, data)].filter(Boolean));
  if (no !== null) {
    return {
      ...common, line: `${common.headline} ${common.trust}`,
      rest: [no.from.length > 0 ? fromLine(no.from, data) : sourceOfTrust(answer, data), cautions, known],
      workings: [["Why there is no recipe", WHY_NOT[no.kind]], ["What is shown instead", "The cautions of the treatment, what its sources found, and the advice for the crop, each with its source. For another treatment or crop choose it above."]],
    };
  }
  const { amounts } = treatment;
  const mix = mixSentence(answer.amount, amounts);
  const jar = jarLine(answer, jarWords(answer.amount, amounts));
  const steps = timeList(answer, mix, data);
  const notes = [...clockNotes(answer), ...wayNotes(answer, data)];
  const rows = amountRows(answer.amount, amounts);
  const ends = answer.list.some((one) => one.end !== null);
  return {
    ...common, line: jar,
    rest: [
      sourceOfTrust(answer, data),
      treatment.dangerous ? cautions : null,
      steps,
      notes.length > 0 ? bullets(notes) : null,
      element("p", "packet-line", jar),
      rows.length > 0 ? numbers(rows) : null,
      ends ? pictureSlot((width) => timeline(answer, width)) : null,
      treatment.dangerous ? null : cautions,
      parts(level, [
        answer.amount?.stock === undefined ? null : ["How sure the strength is", bullets(strengthNotes(answer.amount, amounts).map((text) => inOneUnit(text, values.unit)))],
        knownFor(answer, data), tried(answer, data),
      ].filter(Boolean)),
    ],
    workings: workings(answer, data),
  };
}

const WHY_NOT = {
  nothing: "No treatment among the plain ones (soaking, rinsing, chilling, nicking, sprouting) has evidence or advice for this crop, so none is proposed.",
  reason: "The reference gives no times or amounts for this treatment, for the reason above.",
  seed: "The state of the seed rules the treatment out, whatever the crop.",
  crop: "Trials or advice for this crop speak against it; that comes before any general recipe.",
  "no-times": "Times are not carried over from other crops where the treatment is one for certain crops only.",
  bottle: "Amounts are worked out for weak bottles alone. For stronger ones nothing is worked out, whatever is wanted.",
};

function timeList(answer, mix, data) {
  const start = answer.values.start;
  const items = answer.list.map((one, i) => {
    const words = stepWords(one, answer, i === 0 ? mix : null);
    return element("li", "", element("strong", "", `${words.when}: `), words.text,
      words.looks ? ` ${words.looks}` : null, " ", from(words.from, data));
  });
  return element("div", "", element("p", "time-day", `Start on ${weekday(start)} ${dayText(start, true)}, by the clock on your wall:`), element("ol", "time-list", ...items));
}

function wayNotes({ values: { way, unit, treatment }, list }, data) {
  const notes = way.way.note ? [inOneUnit(way.way.note, unit)] : [];
  if (way.bath) {
    if (way.bath.note) notes.push(`The table notes: ${way.bath.note}.`);
    if (way.bath.warming === null) notes.push("This table prints no warming before the bath.");
    notes.push(`Temperature and minutes are those of one table (${data.sources[way.bath.source]}): do not mix tables.`);
  }
  if (list.some((one) => one.open)) notes.push("No last count of an official test is recorded for it, so the list has no end: seed that has done nothing in three weeks is not likely to (common practice, no source).");
  if (treatment.ownWeeks) notes.push("Packets and plants differ: what is printed on the packet goes before a general list.");
  return notes;
}

// Cautions are never folded away.
function cautionsOf({ values }, data) {
  if (values.treatment === null) return null;
  const said = values.treatment.cautions;
  if (said.length === 0) return null;
  return element("div", "take-care", element("p", "", element("strong", "", "Take care.")),
    element("ul", "", ...said.map((one) => element("li", "", inOneUnit(one.text, values.unit), " ", from(one.from, data)))));
}

// What is said of the crop in one entry stands in the first sentences already; only its source is wanted.
function sourceOfTrust({ said }, data) {
  return said.length === 1 ? fromLine(said[0].from, data) : null;
}

function knownFor({ values, crop, said, no }, data) {
  if (crop === null || said.length === 0 || (said.length === 1 && (no === null || no.kind === "no-times"))) return null;
  return [`For ${lower(crop.name)}`, cited(said.map((entry) => ({
    ...entry, text: `${data.advice[entry.advice]}${entry.treatment === values.id ? "" : `, ${data.treatments[entry.treatment].name.toLowerCase()}`} (${data.grades[entry.grade]}). ${inOneUnit(entry.text, values.unit)}`,
  })), data)];
}

function tried({ values, crop }, data) {
  if (values.treatment === null) {
    const all = Object.entries(crop?.said ?? {}).flatMap(([id, entries]) => entries.map((entry) => ({ ...entry, text: `${data.treatments[id].name}: ${data.advice[entry.advice].toLowerCase()} (${data.grades[entry.grade]}). ${inOneUnit(entry.text, values.unit)}` })));
    return ["What was tried", all.length === 0 ? bullets(["Nothing was found."]) : cited(all, data)];
  }
  return ["What was found in general", cited(values.treatment.evidence.map((entry) => ({ ...entry, text: `${upper(data.grades[entry.grade])}: ${inOneUnit(entry.text, values.unit)}` })), data)];
}

const upper = (text) => text.charAt(0).toUpperCase() + text.slice(1);

function cited(entries, data) {
  return element("ul", "", ...entries.map((entry) => element("li", "", entry.text, " ", from(entry.from, data))));
}

function fromLine(ids, data) {
  return element("p", "", "From ", from(ids, data));
}

// Sources, each a link to its entry; "common practice" and "from memory" as they are.
function from(ids, data) {
  const made = element("small", "from");
  ids.forEach((id, i) => {
    if (i > 0) made.append("; ");
    if (["common practice", "from memory"].includes(id)) {
      made.append(element("em", "", id));
      return;
    }
    const link = element("a", "", data.sources[id]);
    link.href = `../../sources/#${id}`;
    made.append(link);
  });
  return made;
}

function workings({ values, amount }, data) {
  const { treatment } = values;
  return [
    ["Times", "Each step begins when the one before it ends: the first time of a window is the sum of the shortest times, the last the sum of the longest. “In all” counts from the start. “Common practice” means that nobody was found to have printed it."],
    ["The clock", "The clock on the wall and plain calendar days; nothing is known here of time zones. A month is a calendar month; a month without such a day ends on its last. Now is rounded up to the next quarter of an hour."],
    ...(amount?.stock === undefined ? [] : [
      ["Strength", "What is dissolved stays the same: strength × volume before = strength × volume after (C1·V1 = C2·V2). Volumes are added, which holds for such weak solutions."],
      ["Spoons and cups", "US: cup 236.588 mL, tablespoon a sixteenth of it, 14.787 mL (NIST Handbook 44). Metric: 250 and 15 mL (common practice). The range of a spoon amount is what an eighth of a spoon too little or too much makes of it, filled up to the same volume."],
      ["Stronger bottles", `Above ${treatment.amounts.bottle.strongest_percent} % nothing is worked out.`],
    ]),
    ...(amount?.kind === "salt" ? [["Strength", "Grams in 100 mL of water (weight by volume), as the official test prints it: 0.2 % is 2 g in a litre."]] : []),
    ["What it leaves out", `Seed lots differ, and water in a warm kitchen works faster than in a cold one. ${values.crop === "" ? "Choose a crop to see what is known of it." : "Treat some and leave some: forty seeds of each show a difference that ten cannot."}`],
    ["Sources", `${[...new Set(values.way.way.steps.flatMap((step) => step.from))].map((id) => data.sources[id] ?? id).join("; ")}.`],
  ];
}
