// One entry: the crop, two stores, a test. What lies outside the limits of the equation is refused with the reason.

import { equilibriumHumidity, equilibriumMoisture } from "../../science/viability.js";
import { readDecimal } from "../fields.js";
import { temperatureText } from "../format.js";
import { level, oneOf, readName, readPercent, readPositive, readSeedlings, readSeeds, reader } from "../reading.js";
import { TEMPERATURE_UNITS, inUnit, preferredUnit, readTemperature } from "../temperature.js";

const STORE_FIELDS = ["name", "temp", "kind", "know", "humidity", "room", "moisture"];
export const FIELDS = ["crop", "unit", "oil", "set", ...[1, 2].flatMap((i) => STORE_FIELDS.map((name) => `${name}${i}`)),
  "seeds", "normal", "years", "line", "confidence"];
export const MOST_YEARS = 50; // further than anybody has followed seed in such stores
const WARMEST = 40; // °C; no store of living seed is warmer
const COLDEST_TYPED = -60;
// What is left to whoever knows no moisture, in a cold or a damp store.
const RULES_ALONE = "With no crop chosen the two stores are compared by a rule of thumb, by their temperatures alone.";

/** The entry a reader finds first. */
export function example(crop, data, unit = preferredUnit()) {
  return {
    example: true, crop: crop || data.example_crop, unit, oil: "", set: "1",
    name1: "Shed", temp1: inUnit(15, unit), kind1: "open", know1: "humidity", humidity1: "60", room1: inUnit(20, unit), moisture1: "",
    name2: "Jar in the refrigerator", temp2: inUnit(5, unit), kind2: "jar", know2: "humidity", humidity2: "35", room2: inUnit(20, unit), moisture2: "",
    seeds: "10", normal: "8", years: "1", line: String(data.lending_line_percent), confidence: "90",
  };
}

/** Index of the chosen set of constants; the first where the crop has none of that number. */
export function chosenSet(entry, sets) {
  const index = Number(entry.set) - 1;
  return sets[index] === undefined ? 0 : index;
}

/** {values, messages}. Temperatures °C, moisture % of fresh weight (null when it can't be worked out), shares fractions. */
export function readEntry(entry, data) {
  const { note, done, messages } = reader();
  const crop = data.crops[entry.crop] ?? null;
  const sets = crop?.sets ?? [];
  const unit = oneOf(entry.unit, TEMPERATURE_UNITS);
  const typedOil = note("oil", readOil(entry.oil));
  const oil = typedOil ?? crop?.oil?.percent ?? null;
  const about = { crop, unit, oil: messages.has("oil") ? null : oil, equation: sets.length > 0, limits: data.limits };
  const stores = [1, 2].map((i) => readStore(entry, i, about, note, messages));
  if (about.equation && oil === null && !messages.has("oil") && stores.some((store) => store.know === "humidity")) {
    messages.set("oil", `No oil content is recorded for ${crop.name}, and humidity can’t be turned into moisture without it. Type it, or choose the moisture of the seed in both stores.`);
  }
  return done({
    example: entry.example, cropId: entry.crop, crop, unit, oil, ownOil: typedOil !== null, stores, sets, set: chosenSet(entry, sets),
    ...(about.equation ? readTest(entry, note) : {}),
    confidence: level(entry.confidence, "90"),
  });
}

function readOil(text) {
  return readDecimal(text.replace(/\s*%$/, ""), {
    empty: null,
    check: (value, seen) => (value >= 0 && value <= 70 ? null : `${seen} % can’t be the oil of seed. Type 0 to 70 % of its dry weight, or leave it empty.`),
  });
}

function readTest(entry, note) {
  const n = note("seeds", readSeeds(entry.seeds));
  const k = note("normal", readSeedlings(entry.normal, n));
  return {
    n, k,
    years: note("years", readPositive(entry.years, { most: MOST_YEARS, unit: "years", empty: "Nothing typed. Type after how many years you want to know, for example 2." })),
    line: note("line", readPercent(entry.line, { above: 0, most: 98, empty: "Nothing typed. Type the percentage a lot must reach to be lent." })),
  };
}

function readStore(entry, i, about, note, messages) {
  const kind = oneOf(entry[`kind${i}`], ["open", "jar"]);
  const know = oneOf(entry[`know${i}`], ["humidity", "moisture"]);
  const store = {
    name: note(`name${i}`, readName(entry[`name${i}`], `Store ${i}`)), kind, know, humidity: null, air: null, moisture: null,
    celsius: note(`temp${i}`, readStoreTemperature(entry[`temp${i}`], about, "the temperature of a store")),
  };
  if (know === "moisture") return { ...store, moisture: note(`moisture${i}`, readMoisture(entry[`moisture${i}`], about)) };
  const airField = kind === "jar" ? `room${i}` : `temp${i}`;
  store.air = kind === "jar" ? note(airField, readStoreTemperature(entry[airField], about, "the temperature of the room where it was closed")) : store.celsius;
  store.humidity = note(`humidity${i}`, readHumidity(entry[`humidity${i}`], about));
  if (about.oil === null || about.limits === null || store.air === null || store.humidity === null) return store;
  const air = outsideForSeed(store.air, about);
  if (air !== null) messages.set(airField, air);
  else {
    store.moisture = equilibriumMoisture(store.humidity, store.air, about.oil / 100);
    const wrong = about.equation ? moistureProblem(store, about) : null;
    if (wrong !== null) messages.set(`humidity${i}`, wrong);
  }
  return store;
}

// Frost is a matter of its own: first read widely, so that it can be explained.
function readStoreTemperature(text, about, what) {
  const { unit } = about;
  const empty = "Nothing typed. Type the temperature there, on average.";
  const wide = readTemperature(text, unit, { least: COLDEST_TYPED, most: WARMEST, what, empty });
  if (wide.value === null || wide.value >= 0) {
    return wide.value === null ? readTemperature(text, unit, { least: 0, most: WARMEST, what, empty }) : wide;
  }
  const asOther = readTemperature(text, unit === "f" ? "c" : "f", { least: 0, most: WARMEST, what, empty }).value !== null;
  const other = asOther ? ` If it was read in ${unit === "f" ? "°C" : "°F"}, choose ${unit === "f" ? "°C" : "°F"}.` : "";
  return {
    value: null,
    message: `${temperatureText(wide.value, unit)} is below freezing, and no number is given there: damp seed freezes to death, and for dry seed the equation promises lives that nobody has waited for. Type ${temperatureText(0, unit)} or more, and see “Freezers” below.${other}`,
  };
}

function readHumidity(text, { limits, oil }) {
  const least = oil === null || limits === null ? 0 : limits.humidity[0];
  const most = oil === null || limits === null ? 100 : limits.humidity[1];
  const read = readDecimal(text.replace(/\s*%$/, ""), {
    empty: "Nothing typed. Type the relative humidity in %, for example 50.",
    check: (value, seen) => {
      if (value >= least && value <= most) return null;
      if (value > 0 && value < 1) return `${seen} can’t be used here. Type it in per cent: 50, not 0.5.`;
      if (value > most && value <= 100) return `${seen} % is damper than the ${most} % up to which moisture can be worked out from humidity; seed so damp moulds, and in a jar it dies. Dry it first, or type its moisture. ${RULES_ALONE}`;
      if (value >= 0 && value < least) return `${seen} % is drier than the ${least} % from which moisture can be worked out from humidity. Type ${least} or more, or the moisture of the seed.`;
      return `${seen} % can’t be a relative humidity. Type ${least} to ${most} %.`;
    },
  });
  return { ...read, value: read.value === null ? null : read.value / 100 };
}

function readMoisture(text, about) {
  const { limits, crop } = about;
  const [least, most] = limits === null ? [1, 60] : limits.moisture;
  const upper = Math.min(most, crop?.upper ?? most);
  return readDecimal(text.replace(/\s*%$/, ""), {
    empty: `Nothing typed. Type the moisture in % of fresh weight, ${least} to ${upper}.`,
    check: (value, seen) => {
      if (value >= least && value <= upper) return null;
      if (value > 0 && value < 1) return `${seen} can’t be used here. Type it in per cent: 8, not 0.08.`;
      if (value > upper && value <= most) return `${seen} % is above the ${upper} % up to which sealed ${crop.name} follows the equation; damper seed answers in another way. Dry it first, then type ${upper} % or less.`;
      if (value > most && value < 100) return `${seen} % is above the ${most} % up to which the equation is stated; seed so damp moulds, heats or sprouts, and freezes to death. Dry it first, then type ${most} % or less.`;
      if (value > 0 && value < least) return `${seen} % is below the ${least} % from which the equation is stated. Type ${least} % or more.`;
      return `${seen} % can’t be the moisture of seed. Type ${least} to ${upper} % of fresh weight.`;
    },
  });
}

// The step from humidity to moisture has its own limits of temperature, narrower for oily seed.
function outsideForSeed(celsius, { oil, limits, unit }) {
  const oily = oil >= limits.oily_from;
  const [least, most] = oily ? limits.oily : limits.starchy;
  if (celsius >= least && celsius <= most) return null;
  const span = `${temperatureText(least, unit)} to ${temperatureText(most, unit)}`;
  return `At ${temperatureText(celsius, unit)} moisture can’t be worked out from humidity: for ${oily ? "oily" : "starchy"} seed (here ${oil} % oil) that is stated for ${span}. Choose the moisture of the seed and type it if you know it. ${RULES_ALONE}`;
}

function moistureProblem({ moisture, air, humidity }, { crop, oil, limits, unit }) {
  const [least, most] = limits.moisture;
  const balance = `${crop.name} in balance with air of ${temperatureText(air, unit)} and ${Math.round(humidity * 100)} % humidity holds about ${moisture.toFixed(1)} % moisture`;
  const at = (percent) => equilibriumHumidity(percent, air, oil / 100) * 100;
  if (moisture < least) return `${balance}, below the ${least} % from which the equation is stated. Type ${Math.ceil(at(least))} % or more.`;
  const upper = Math.min(most, crop.upper ?? most);
  return moisture > upper ? `${balance}, above the ${upper} % up to which the equation is stated. Type ${Math.floor(at(upper))} % or less.` : null;
}
