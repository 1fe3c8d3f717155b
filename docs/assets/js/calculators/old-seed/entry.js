// One entry: the lot's age and store, what new seed is expected to do, and a test if there is one.

import { grouped, readDecimal, readWhole } from "../fields.js";
import { todayIso } from "../format.js";
import { level, oneOf, readDate, readPercent, readPositive, reader } from "../reading.js";

export const FIELDS = ["crop", "age", "storage", "life", "fresh", "worth", "seeds", "normal", "date", "line", "confidence"];
const STORES = ["unknown", "cool-dry", "cold-dry", "warm"];
const MOST_SEEDS = 100000;

/** The entry a reader finds first. */
export function example(crop, data) {
  return {
    example: true, crop: crop || data.example_crop, age: "3", storage: "cool-dry", life: "", fresh: String(data.practice.new_seed_percent),
    worth: String(data.practice.expectation_worth_seeds), seeds: "10", normal: "8", date: todayIso(),
    line: String(data.lending_line_percent), confidence: "90",
  };
}

/** {values, messages}; seeds and normal are both null when nothing has been tested yet. */
export function readEntry(entry, data) {
  const { note, done, messages } = reader();
  const life = note("life", readPositive(entry.life, { most: 50, unit: "years", empty: null }));
  const published = data.crops[entry.crop]?.seed_life_years ?? null;
  if (life === null && published === null && !messages.has("life")) {
    messages.set("life", "Nothing typed, and no crop with a recorded life chosen. Choose the crop, or type how many years its seed usually keeps.");
  }
  const end = data.practice.life_end_percent;
  const fresh = note("fresh", readPercent(entry.fresh, {
    above: end, most: 99, what: "Type a percentage for new seed",
    empty: `Nothing typed. Type what new seed is expected to do: the packet’s figure, or ${data.practice.new_seed_percent}.`,
  }));
  const [seeds, normal] = readTest(entry, note, messages);
  return done({
    example: entry.example,
    crop: entry.crop,
    age: note("age", readAge(entry.age)),
    storage: oneOf(entry.storage, STORES),
    life: life ?? published,
    ownLife: life !== null,
    fresh,
    worth: note("worth", readPositive(entry.worth, { most: 20, unit: "seeds", empty: "Nothing typed. Type how many tested seeds the expectation is worth, for example 4." })),
    seeds, normal,
    date: note("date", readDate(entry.date)) ?? todayIso(),
    line: note("line", readPercent(entry.line, { above: 0, most: 98, empty: "Nothing typed. Type the percentage a lot must reach to be lent." })),
    confidence: level(entry.confidence, "90"),
  });
}

function readAge(text) {
  return readDecimal(text, {
    empty: "Nothing typed. Type the age in years since harvest, 0 for this year’s seed; the packet’s year is a good guide.",
    check: (value, seen) => {
      if (value >= 0 && value <= 100) return null;
      return value > 1900 ? `${seen} looks like a year. Type the age in years.` : `${seen} can’t be an age here. Type 0 to 100 years.`;
    },
  });
}

// A test is either wholly there or not there at all.
function readTest(entry, note, messages) {
  const count = (name, least) => note(name, readWhole(entry[name], { least, most: MOST_SEEDS, empty: null, tooMany: `Type at most ${grouped(MOST_SEEDS)}.` }));
  const [seeds, normal] = [count("seeds", 1), count("normal", 0)];
  if (messages.has("seeds") || messages.has("normal")) return [null, null];
  if (seeds === null && normal !== null) messages.set("seeds", "Type how many seeds were set, or leave both empty if nothing has been tested.");
  if (seeds !== null && normal === null) messages.set("normal", "Type how many came up, or leave both empty if nothing has been tested.");
  if (seeds !== null && normal !== null && normal > seeds) {
    messages.set("normal", `${grouped(normal)} seedlings from ${grouped(seeds)} ${seeds === 1 ? "seed" : "seeds"} can’t be. Check both numbers: seedlings may be at most the seeds set.`);
  }
  return [seeds, normal];
}
