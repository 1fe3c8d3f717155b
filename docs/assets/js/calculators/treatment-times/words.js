// The answer in sentences.

import { listed } from "../../words.js";
import { temperatureRange } from "../temperature.js";
import { temperatureText } from "../format.js";
import { clockText, dayText, weekday, whenText, windowText } from "./clock.js";
import { strengthText } from "./measures.js";
import { exactText, inOneUnit } from "./one_unit.js";
import { refusal } from "./plan.js";

const OF_A_PLACE = /^(Brussels|China|Chinese|Dahlberg|Douglas|German|Joe|Missouri|New|Siberian)\b/; // or a person keeps its capital
/** A name within a sentence. */
export const lower = (text) => (OF_A_PLACE.test(text) ? text : text.charAt(0).toLowerCase() + text.slice(1));
const upper = (text) => text.charAt(0).toUpperCase() + text.slice(1);

/** "8–12 hours", "up to 7 days" */
export function spanText({ low, high, unit, inAll }) {
  const amount = low === null ? `up to ${high}` : low === high ? String(high) : `${low}–${high}`;
  return `${amount} ${high === 1 ? unit.slice(0, -1) : unit}${inAll ? " in all" : ""}`;
}

/** How warm a step is: " (water at 20–30 °C)"; empty where nothing is printed. */
export function warmth(step, { bath, unit }) {
  if (step.table) return exactText(bath[step.table], unit);
  if (!step.at) return "";
  const [low, high] = step.at;
  return high === null ? `${temperatureText(low, unit)} or warmer` : temperatureRange(low, high, unit);
}

/** Latest and earliest of the last step; null when it has no known time. */
export function finish({ list, values }) {
  const last = list.at(-1);
  if (last.begin === null) return null;
  const before = list.at(-2);
  if (before?.span?.low === null) return `${last.wholeDays ? windowText([last.begin[1], last.begin[1]], values.start, true) : whenText(last.begin[1], values.start)} at the latest`;
  return windowText(last.begin, values.start, last.wholeDays);
}

export function headline(answer, data) {
  const { values, crop, list, no } = answer;
  const what = values.treatment === null ? "" : lower(values.treatment.name);
  const seed = crop === null ? lower(otherKind(answer)).replace(/^(?=.)/, ", ") : `, ${lower(crop.name)}`;
  if (no !== null) {
    if (no.kind === "nothing") return crop === null ? "Choose a treatment first." : `Nothing is needed before sowing ${lower(crop.name)}.`;
    if (no.kind === "bottle") return `A bottle of ${values.bottle.stock} % is not diluted here.`;
    if (no.kind === "seed") return `${upper(what)}: not for seed that is ${data.seeds[values.seed]}.`;
    if (no.kind === "crop") return `${upper(what)}: not for ${lower(crop.name)}.`;
    if (no.kind === "no-times" && crop === null) return `${upper(what)}: choose the crop first.`;
    if (no.kind === "no-times") return `${upper(what)}: no published ${values.id === "hot-water" ? "table" : "times"} for ${lower(crop.name)}.`;
    return `${upper(what)}: no recipe is given here.`;
  }
  const end = finish(answer);
  const strength = answer.amount?.stock === undefined ? "" : ` ${strengthText(answer.amount.strength)},`;
  const begin = `${upper(what)}${seed}:${strength} start ${weekday(values.start)} ${clockText(values.start)}`;
  return end === null ? `${begin}, ${list.at(-1).step.label}, whenever that is.` : `${begin}, ${list.at(-1).step.label} ${end}.`;
}

// Kinds that have no page here are named by their way: "Lavender: 6 to 10 weeks".
function otherKind({ values: { way } }) {
  return way !== null && (way.way.crops.length > 0 || way.way.withoutCrop) ? way.way.name.split(":")[0] : "";
}

/** What is known of it for this crop, in a sentence or two. */
export function trust(answer, data) {
  const { values, crop, said, no } = answer;
  const { unit, treatment } = values;
  if (no !== null && no.kind !== "no-times" && no.kind !== "nothing") return inOneUnit(no.text, unit);
  const first = said[0] ? `${data.advice[said[0].advice]} (${data.grades[said[0].grade]}): ${inOneUnit(said[0].text, unit)}` : null;
  if (no?.kind === "nothing") return "No plain treatment is known to help it. What was tried stands below; choose a treatment to see its times.";
  if (no !== null) {
    // A crop that the treatment is refused for is not named as one to choose.
    const allowed = (id) => data.crops[id] === undefined || refusal(values.id, { crop: id, seed: values.seed }, data) === null;
    const named = [...new Set(treatment.ways.flatMap((way) => way.crops))].filter(allowed).map((id) => data.crops[id]?.name ?? data.kinds[id]).filter(Boolean);
    const baths = values.id === "hot-water" ? Object.keys(data.crops).filter((id) => data.crops[id].baths && allowed(id)).map((id) => data.crops[id].name) : [];
    const who = [...named, ...baths].map(lower);
    return `${crop === null ? "Times are printed" : `No source was found that prints times for ${lower(crop.name)}. They are printed`} for ${listed(who)}.${first === null ? "" : ` ${first}`}`;
  }
  const general = inOneUnit(treatment.what, unit);
  if (first === null) return `${crop === null ? "" : `No trial or advice for ${lower(crop.name)} was found; these are the general times. `}${general}`;
  // A dip that trials do not support in general says so even where one crop gained.
  return treatment.amounts.bottle ? `${first} ${general}` : first;
}

/** One step of the list: {when, text, from, looks}. */
export function stepWords(one, answer, mix) {
  const { values, crop } = answer;
  const { step, begin, end, span } = one;
  const { bath } = values.way;
  const when = begin === null ? "When it is ready" : upper(one === answer.list[0] ? windowText(begin, values.start) : beginText(one, answer));
  const warm = warmth(step, { bath, unit: values.unit });
  const best = step.until === "last-count" && crop?.best ? ` The best for ${lower(crop.name)}: ${temperatureRange(...crop.best, values.unit)}.` : "";
  const lasts = span === null ? "" : ` ${upper(spanText(span))}${warm ? ` at ${warm}` : ""}.`;
  return {
    when, from: step.from,
    text: `${mix ? `${mix} ` : ""}${inOneUnit(step.text, values.unit)}${lasts}${best}`,
    looks: one.looks.length === 0 ? "" : `Look on ${listed(one.looks.map((at) => `${weekday(at)} ${dayText(at)}`))}${one.looks.at(-1) + 2 * 1440 * step.look[1] < end[1] ? ", and so on" : ""}.`,
  };
}

function beginText(one, answer) {
  const before = answer.list[answer.list.indexOf(one) - 1];
  if (before.span?.low === null) {
    const by = one.wholeDays ? windowText([one.begin[1], one.begin[1]], answer.values.start, true) : whenText(one.begin[1], answer.values.start);
    return `by ${by} at the latest`;
  }
  return windowText(one.begin, answer.values.start, one.wholeDays);
}

/** Remarks on the clock. */
export function clockNotes({ shift, night, values, list }) {
  const notes = [];
  if (shift !== 0) {
    notes.push(`The clocks are put ${shift > 0 ? "forward" : "back"} by ${Math.abs(shift) === 60 ? "an hour" : `${Math.abs(shift)} minutes`} in this time: from then on a step timed in hours or minutes is due ${shift > 0 ? "that much later" : "that much earlier"} by the clock on the wall than listed.`);
  }
  if (night) notes.push(`${upper(list.at(-1).step.label)} falls into the night (${windowText(list.at(-1).begin, values.start)}). Start at another hour if you would rather sleep.`);
  return notes;
}

/** The line for the jar or bag. */
export function jarLine(answer, jar) {
  const { values, crop, list } = answer;
  const first = list[0];
  const name = crop === null ? otherKind(answer) || "Seed" : crop.name;
  const end = finish(answer);
  const date = `${weekday(values.start, "short")} ${dayText(values.start)}, ${clockText(values.start)}`;
  const strength = jar ? `; ${jar}, not food or drink` : "";
  return `${name}: ${first.step.label} since ${date}; ${list.at(-1).step.label} ${end ?? "when ready"}${strength}`;
}
