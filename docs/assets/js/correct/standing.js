// How a value stands to what is printed. Twin of build_tools/check/evidence.py.

const TOLERANCE = { temperature: 0.3, other: 0.75 };
const LEAVES_OPEN = { cover: ["dark", "either"] };

/** A family's place beside a value: inside, below or above; same or differs for words. */
export function stands(value, family, tolerance) {
  if (value.choice !== undefined) {
    return family.choices.some((choice) => value.choice === choice || (LEAVES_OPEN[choice] ?? []).includes(value.choice)) ? "same" : "differs";
  }
  if (value.high < family.low - tolerance) return "below";
  return value.low > family.high + tolerance ? "above" : "inside";
}

/** The families that count: all of them where none does otherwise. */
export function counted(families) {
  const some = families.filter((family) => family.counts);
  return some.length > 0 ? some : families;
}

/** {outside, low, high, choices, families, inside} of a value beside the families of the published data; null where nothing is printed. */
export function compare(value, families) {
  const those = counted(families);
  if (those.length === 0) return null;
  const tolerance = TOLERANCE[families.some((family) => family.printed.some((item) => item.as_printed.includes("°"))) ? "temperature" : "other"];
  const inside = those.filter((family) => ["inside", "same"].includes(stands(value, family, tolerance))).length;
  if (value.choice !== undefined) {
    return { outside: inside === 0, choices: [...new Set(those.flatMap((family) => family.choices))].sort(), families: those.length, inside };
  }
  const low = Math.min(...those.map((family) => family.low));
  const high = Math.max(...those.map((family) => family.high));
  return { outside: value.high < low - tolerance || value.low > high + tolerance, low, high, families: those.length, inside };
}
