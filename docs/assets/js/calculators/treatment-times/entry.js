// One entry: the treatment, the seed and its crop, the start, and amounts where the treatment has some.

import { quoted } from "../../words.js";
import { grouped, readDecimal } from "../fields.js";
import { oneOf, readDate, readPercent, readPositive, readSeeds, reader } from "../reading.js";
import { preferredUnit } from "../temperature.js";
import { mixedStrength } from "../../science/dilution.js";
import { moment, nextQuarter, parts } from "./clock.js";
import { MEASURES, plain, strengthText } from "./measures.js";
import { bestFor, refusal, waysFor } from "./plan.js";

export const FIELDS = ["treatment", "crop", "seed", "way", "date", "time", "weeks", "seeds", "unit",
  "give", "stock", "measures", "spoons", "cups", "strength", "volume", "volumeunit"];
const TIME = /^(\d{1,2})(?:\s*[:.,h]\s*(\d{2}))?\s*(am|pm)?$/i;
const TIME_ALONE = /^(\d{1,2})(\d{2})$/;
const [LEAST_ML, MOST_ML] = [10, 5000]; // less cannot be measured in a kitchen, more is no cup of seed
const WEAKEST = 0.5; // % of a bottle; none weaker is sold for the household (from memory)
const [FIRST_YEAR, LAST_YEAR] = [2000, 2200];

/** The entry a reader finds first. */
export function example(crop, data) {
  const { date, minutes } = nextQuarter();
  const amounts = Object.assign({}, ...Object.values(data.treatments).map((treatment) => treatment.amounts));
  return {
    example: true, treatment: "", crop: crop || data.exampleCrop, seed: "raw", way: "", date,
    time: `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`,
    weeks: "", seeds: "100", unit: preferredUnit(), give: "spoons", stock: String(amounts.bottle?.strongest_percent ?? ""), measures: "us",
    spoons: String(amounts.spoons?.tablespoons ?? ""), cups: String(amounts.spoons?.cups ?? ""), strength: String(amounts.strength?.usual_percent ?? ""),
    volume: "250", volumeunit: "ml",
  };
}

/** What the entry's choices lead to: {id, treatment, ways, way, no}; `no` is why there is no recipe, or null. */
export function chosen(entry, data) {
  const id = Object.hasOwn(data.treatments, entry.treatment) ? entry.treatment : bestFor(entry.crop, data);
  const seed = oneOf(entry.seed, Object.keys(data.seeds));
  const no = refusal(id, { crop: entry.crop, seed }, data);
  const treatment = id === null ? null : data.treatments[id];
  const ways = no === null ? waysFor(treatment, entry.crop, data) : [];
  return { id, treatment, seed, ways, way: ways.find((way) => way.id === entry.way) ?? ways[0] ?? null, no };
}

/** {values, messages}; fields that the chosen treatment does not use are not read. */
export function readEntry(entry, data) {
  const { note, done } = reader();
  const choice = chosen(entry, data);
  const amounts = choice.no === null ? choice.treatment.amounts : {};
  const date = note("date", readDay(entry.date));
  const minutes = note("time", readTime(entry.time));
  return done({
    ...choice,
    example: entry.example,
    crop: entry.crop,
    unit: oneOf(entry.unit, ["c", "f"]),
    start: date === null || minutes === null ? null : moment(date, minutes),
    weeks: choice.treatment?.ownWeeks && choice.no === null ? note("weeks", readPositive(entry.weeks, { most: 40, unit: "weeks", empty: null })) : null,
    seeds: amounts.water ? note("seeds", readSeeds(entry.seeds, 10000)) : null,
    bottle: amounts.bottle ? readBottle(entry, amounts, note) : null,
    salt: amounts.salt ? { ml: readVolume(entry, note, MEASURES.us) } : null,
  });
}

function readDay(text) {
  const read = readDate(text);
  // 31 February is read by some browsers as a day of March.
  if (read.message !== null || (read.value !== null && parts(moment(read.value, 0)).date !== read.value)) return { value: null, message: "This is not a whole date. Choose day, month and year." };
  if (read.value === null) return { value: null, message: "Nothing chosen. Choose the day on which you start." };
  const year = Number(read.value.slice(0, 4));
  return year >= FIRST_YEAR && year <= LAST_YEAR ? read : { value: null, message: `The year ${year} can’t be meant. Choose one from ${FIRST_YEAR} to ${LAST_YEAR}.` };
}

/** A time of day as minutes since midnight: 14:30, 14.30, 1430, 2:30 pm. */
export function readTime(text) {
  const typed = text.trim();
  if (typed === "") return { value: null, message: "Nothing typed. Type the hour and minutes at which you start, for example 14:30." };
  const found = TIME.exec(typed) ?? TIME_ALONE.exec(typed);
  if (found === null) return { value: null, message: `${quoted(typed)} is not a time of day. Type hours and minutes, for example 14:30; midnight is 0:00.` };
  const [, hourText, minuteText = "0", half = ""] = found;
  let hour = Number(hourText);
  const minute = Number(minuteText);
  if (half !== "" && (hour < 1 || hour > 12)) return { value: null, message: `${quoted(typed)} is not a time of day: with am or pm the hours are 1 to 12.` };
  if (half !== "") hour = (hour % 12) + (half.toLowerCase() === "pm" ? 12 : 0);
  if (hour > 23 || minute > 59) return { value: null, message: `${quoted(typed)} is not a time of day. Hours are 0 to 23, minutes 00 to 59: for example 14:30; midnight is 0:00.` };
  return { value: hour * 60 + minute, message: null };
}

// A bottle above the limit is no slip of the typing: it gets an answer of its own, without amounts.
function readBottle(entry, amounts, note) {
  const limit = amounts.bottle.strongest_percent;
  const percent = (name, what, empty) => {
    const fraction = note(name, readPercent(entry[name], { above: 0, most: 100, what, empty }));
    return fraction === null ? null : Math.round(fraction * 1e10) / 1e8;
  };
  const stock = percent("stock", "Type the strength on the bottle,", `Nothing typed. Type the strength that is printed on the bottle, for example ${limit}.`);
  const measures = MEASURES[oneOf(entry.measures, Object.keys(MEASURES))];
  const give = oneOf(entry.give, ["spoons", "wanted"]);
  // 0.35 may stand for 35 %: a slip that would hide a strong bottle.
  if (stock !== null && stock < WEAKEST) {
    note("stock", { value: null, message: `${plain(stock)} % can’t be used here. Type the figure on the label in per cent: ${limit}, not 0.0${limit}, and ${WEAKEST} or more. A bottle of 35 % is not 0.35.` });
  }
  if (stock !== null && stock > limit) return { stock, tooStrong: true, measures, give };
  if (give === "spoons") return { stock, measures, give, tooStrong: false, ...readSpoons(entry, amounts, stock, measures, note) };
  const most = amounts.strength.most_percent;
  const wanted = percent("strength", "Type a strength", `Nothing typed. Type the strength you want, for example ${amounts.strength.usual_percent}.`);
  if (wanted !== null && wanted > most) note("strength", { value: null, message: `${strengthText(wanted)} is stronger than this page works out. ${amounts.strength.text} Type ${most} or less.` });
  else if (wanted !== null && stock !== null && wanted > stock) note("strength", { value: null, message: `A bottle of ${strengthText(stock)} can’t give ${strengthText(wanted)}. Type ${strengthText(stock).replace(" %", "")} or less.` });
  return { stock, measures, give, tooStrong: false, wanted, ml: readVolume(entry, note, measures) };
}

function readSpoons(entry, amounts, stock, measures, note) {
  const count = (name, most, what) => note(name, readPositive(entry[name], { most, unit: what, empty: `Nothing typed. Type how many ${what}, for example ${name === "spoons" ? amounts.spoons.tablespoons : amounts.spoons.cups}.` }));
  const [spoons, cups] = [count("spoons", 32, "tablespoons"), count("cups", 16, "cups")];
  if (stock !== null && spoons !== null && cups !== null) {
    const mixed = mixedStrength(stock, spoons * measures.tbsp, cups * measures.cup);
    if (mixed > amounts.strength.most_percent) {
      note("spoons", { value: null, message: `That would be ${strengthText(mixed)}, stronger than this page works out. ${amounts.strength.text} Type fewer spoons or more water.` });
    }
  }
  return { spoons, cups };
}

function readVolume(entry, note, measures) {
  const unit = oneOf(entry.volumeunit, ["ml", "tbsp", "cup"]);
  const each = { ml: 1, tbsp: measures.tbsp, cup: measures.cup }[unit];
  const [least, most] = [LEAST_ML / each, MOST_ML / each].map((value) => Math.round(value * 100) / 100);
  const name = { ml: "mL", tbsp: "tablespoons", cup: "cups" }[unit];
  const read = readDecimal(entry.volume, {
    empty: `Nothing typed. Type how much you want to mix, for example ${unit === "ml" ? 250 : unit === "cup" ? 1 : 16} ${name}.`,
    check: (value, seen) => (value * each >= LEAST_ML - 1e-6 && value * each <= MOST_ML + 1e-6 ? null
      : `${seen} ${name} can’t be used here. Type ${least} to ${grouped(most)} ${name}.`),
  });
  const value = note("volume", read);
  return value === null ? null : value * each;
}
