// The parts of the answer in sentences: stores, rules of thumb, published years, what it rests on, cautions.

import { HARRINGTON_COLDEST_C, HARRINGTON_DAMPEST, HARRINGTON_DRIEST, HARRINGTON_HOTTEST_C } from "../../science/viability.js";
import { temperatureText } from "../format.js";
import { differenceText, temperatureRange } from "../temperature.js";
import { moistureText } from "./words.js";

const HOT = 35; // °C; hotter than a store is likely to be
const fahrenheit = (celsius) => Math.round((celsius * 9) / 5 + 32);
const whole = (fraction) => Math.round(fraction * 100);

/** What is stored, for a sentence. */
export function lotName({ crop }) {
  return crop === null ? "seed" : crop.name;
}

/** What is taken of each store, and what is wrong with it. */
export function storeTexts({ values }, { rules, sealed_source: sealedSource }) {
  const { crop, unit } = values;
  return values.stores.flatMap((store) => {
    const at = temperatureText(store.celsius, unit);
    const jar = store.kind === "jar";
    const air = store.humidity === null ? "as you typed" : jar ? `in balance with air of ${temperatureText(store.air, unit)} and ${whole(store.humidity)} % when it was closed in, and kept` : `in balance with ${whole(store.humidity)} % humidity`;
    const words = [`${store.name}: ${jar ? "closed jar" : "open"}, ${at}; moisture ${moistureText(store.moisture)}, ${air}.`];
    if (jar && store.moisture !== null && crop !== null && crop.sealed !== null && store.moisture > crop.sealed) {
      words.push(`${store.name}: damper than the ${crop.sealed} % up to which ${crop.name} may be sealed under ${sealedSource}. Dry it further before you close it.`);
    }
    if (!jar && store.humidity !== null && rules !== null) {
      const sum = fahrenheit(store.celsius) + whole(store.humidity);
      words.push(`${store.name}: ${fahrenheit(store.celsius)} °F and ${whole(store.humidity)} % make ${sum}, ${sum > rules.sum ? "above" : "within"} the ${rules.sum} of the rule of thumb (${rules.sum_source}; of the air, not for a closed jar).`);
    }
    if (store.celsius >= HOT) words.push(`${store.name}: ${at} is hot for a store. Check the number and the unit.`);
    return words;
  });
}

/** Harrington's rules, with source and limits. */
export function thumbTexts({ thumb, values }, { rules }) {
  if (thumb === null) return ["None is recorded."];
  const { unit } = values;
  const limits = `${HARRINGTON_DRIEST}–${HARRINGTON_DAMPEST} % moisture (both ranges from memory)`;
  const words = [`Harrington’s: life doubles for each ${differenceText(thumb.step, unit)} cooler and for each ${rules.points} % less moisture (${rules.source}), usually said of ${temperatureRange(HARRINGTON_COLDEST_C, HARRINGTON_HOTTEST_C, unit)} and ${limits}. For all crops alike, without a range.`];
  if (thumb.moisture === null) {
    words.push(thumb.known ? `A moisture here lies outside ${HARRINGTON_DRIEST}–${HARRINGTON_DAMPEST} %, so only the temperature is counted.` : "The moisture is not known in both stores, so only the temperature is counted: type an oil content, or the moisture of the seed.");
  }
  return words;
}

/** Published years by family of tables. */
export function published({ values }, { families }) {
  const { crop } = values;
  if (crop === null) return ["Choose a crop to see its published years."];
  if (crop.years.length === 0) return [`No table of years names ${crop.name}.`];
  const told = crop.years.map(([label, low, high, counts]) => `${families[label]} ${low === high ? low : `${low}–${high}`}${counts ? "" : " (not counted)"}`);
  return [
    `Years, by family of tables: ${told.join("; ")}.`,
    "They mean seed kept cool and dry, and seldom say how many still come up (common practice, no source): hold the ratio against them, not the years of the equation.",
  ];
}

/** Where the constants come from, and what is doubtful in them. */
export function restsOn({ values, lives }, data) {
  const { crop, oil, ownOil, stores } = values;
  const words = lives.map(({ set }, i) => {
    const marks = [set.single ? "one storage temperature was tested: its temperature constants are universal ones" : "", set.doubt ? `doubtful: ${set.doubt}` : "", set.note.startsWith("read") ? set.note : ""].filter(Boolean);
    return `Set ${i + 1}: ${set.name}${marks.length > 0 ? `; ${marks.join("; ")}` : ""}${/[.]$/.test(marks.at(-1) ?? "") ? "" : "."}`;
  });
  for (const from of new Set(lives.map(({ set }) => set.from))) {
    const which = lives.flatMap(({ set }, i) => (set.from === from && lives.length > 1 ? [i + 1] : []));
    words.push(`${which.length === 0 ? "" : `Set ${which.join(", ")}: `}${data.set_sources[from]}.`);
  }
  if (crop !== null && crop.sets.length === 0) {
    words.push(crop.doubtful.length === 0 ? `No constants are published for ${crop.name}, so neither percentages nor years are worked out.` : `A set is printed for ${crop.name} (${crop.doubtful[0].name}) but not used: ${crop.doubtful[0].doubt}`);
  }
  if (crop === null) words.push("Choose a crop: for some the constants of the viability equation are published.");
  if (oil !== null && stores.some((store) => store.humidity !== null)) {
    words.push(`Oil content ${oil} % of dry seed, ${ownOil ? "as you typed" : crop.oil.how}: only for moisture from humidity. Where both moistures come from humidity the ratio hardly depends on it.`);
  }
  return words;
}

/** What may do harm here. */
export function cautions({ values }, { rules }) {
  const words = [];
  if (values.stores.some((store) => store.kind === "jar")) words.push("Damp seed in a closed jar moulds and dies: dry it first (common practice, no source).");
  if (rules !== null && values.stores.some((store) => store.moisture !== null && store.moisture >= rules.ice)) words.push(`Seed of ${rules.ice} % moisture or more forms ice: never freeze it so (${rules.source}).`);
  words.push(
    "Blue or pink indicating silica gel may hold cobalt chloride, which is harmful: read its label, keep it away from children and from seed that is eaten (from memory).",
    "Treated seed is not food: keep its warning on the jar (common practice, no source).",
  );
  return words;
}

