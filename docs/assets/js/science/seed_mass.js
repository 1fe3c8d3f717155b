// Seeds and their mass; pure live seed.
// Twin of build_tools/science/seed_mass.py.

export const GRAMS_PER_OUNCE = 28.349523125;
export const GRAMS_PER_POUND = 453.59237;

/** Share of a bulk that is pure seed able to grow: purity times germination, fractions in 0..1. */
export function pureLiveSeed(purity, germination) {
  for (const [name, value] of [["purity", purity], ["germination", germination]]) {
    if (!(value >= 0 && value <= 1)) {
      throw new RangeError(`${name} must lie between 0 and 1, got ${value}`);
    }
  }
  return purity * germination;
}

/** Bulk that holds `live` (grams, pounds, seeds) of pure live seed. */
export function bulkNeeded(live, purity, germination) {
  const share = pureLiveSeed(purity, germination);
  if (share === 0) throw new RangeError("a bulk without live seed has no such amount");
  return live / share;
}

/** Mass of so many seeds in grams. */
export function gramsOfSeeds(seeds, seedsPerGram) {
  if (!(seedsPerGram > 0)) {
    throw new RangeError(`seeds per gram must be above 0, got ${seedsPerGram}`);
  }
  return seeds / seedsPerGram;
}

/** Avoirdupois ounces of a mass in grams. */
export function ounces(grams) {
  return grams / GRAMS_PER_OUNCE;
}

/** Seeds per gram of a counted and weighed sample. */
export function seedsPerGramOfSample(seeds, grams) {
  if (!(seeds > 0) || !(grams > 0)) {
    throw new RangeError(`need seeds and grams above 0, got ${seeds} and ${grams}`);
  }
  return seeds / grams;
}
