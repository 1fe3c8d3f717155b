// Diluting a solution: how much of the bottle, and what a recipe in spoons gives.
// Twin of build_tools/science/dilution.py, where the method and the sources of the units are given.

export const US_CUP_ML = 236.5882365;
export const US_TABLESPOON_ML = 14.78676478125;
export const METRIC_CUP_ML = 250;
export const METRIC_TABLESPOON_ML = 15;

/** Volume of a bottle of `stock` % in `total` of `wanted` %. */
export function stockNeeded(stock, wanted, total) {
  checkAbove({ stock, wanted, total });
  checkWeaker(stock, wanted);
  return total * (wanted / stock);
}

/** Percent after so much of the bottle is added to so much water. */
export function mixedStrength(stock, stockVolume, waterVolume) {
  checkAbove({ stock, stockVolume });
  checkNotBelow({ waterVolume });
  return stock * (stockVolume / (stockVolume + waterVolume));
}

/** Percent after so much of the bottle is filled up with water to `total`. */
export function toppedUpStrength(stock, stockVolume, total) {
  checkAbove({ stock, stockVolume, total });
  if (stockVolume > total) throw new RangeError(`${stockVolume} does not fit into ${total}`);
  return stock * (stockVolume / total);
}

/** How many times weaker the mixture is than the bottle: 9 for "one ninth". */
export function timesWeaker(stockVolume, waterVolume) {
  checkAbove({ stockVolume });
  checkNotBelow({ waterVolume });
  return (stockVolume + waterVolume) / stockVolume;
}

/** Parts of water for one part of the bottle. */
export function waterParts(stock, wanted) {
  checkAbove({ stock, wanted });
  checkWeaker(stock, wanted);
  return stock / wanted - 1;
}

/** [lowest, highest] percent when the bottle's share is measured up to `slip` too little or too much. */
export function strengthRange(stock, stockVolume, total, slip) {
  checkAbove({ stock, stockVolume, total });
  if (!(slip >= 0 && slip <= stockVolume && stockVolume <= total)) {
    throw new RangeError(`impossible slip ${slip} of ${stockVolume} in ${total}`);
  }
  return [stock * ((stockVolume - slip) / total), stock * (Math.min(total, stockVolume + slip) / total)];
}

/** A volume in spoons or cups of `unit`, to the nearest `parts`-th, halves upward. */
export function nearestPart(volume, unit, parts) {
  checkNotBelow({ volume });
  checkAbove({ unit });
  if (!Number.isInteger(parts) || parts < 1) throw new RangeError(`parts must be a whole number from 1, got ${parts}`);
  return Math.floor((volume / unit) * parts + 0.5) / parts;
}

/** Grams of a salt for a solution of `percent` g in 100 mL. */
export function gramsFor(percent, millilitres) {
  checkAbove({ percent, millilitres });
  return (percent * millilitres) / 100;
}

function checkWeaker(stock, wanted) {
  if (wanted > stock) throw new RangeError(`${stock} % cannot be diluted to ${wanted} %`);
}

function checkAbove(values) {
  for (const [name, value] of Object.entries(values)) {
    if (!(value > 0 && Number.isFinite(value))) throw new RangeError(`${name} must be above 0, got ${value}`);
  }
}

function checkNotBelow(values) {
  for (const [name, value] of Object.entries(values)) {
    if (!(value >= 0 && Number.isFinite(value))) throw new RangeError(`${name} must not be below 0, got ${value}`);
  }
}
