// Days to emergence and percentages between tested temperatures: evaluating curves that the build has fitted.
// Twin of build_tools/science/emergence.py; formulas and sources stand there.

export const RANGE_FACTOR = 1.3;
export const SAME_C = 0.05;

/** The curve {knots, cubics} at x; null outside its knots. */
export function curveAt(curve, x) {
  const { knots, cubics } = curve;
  if (!(x >= knots[0] && x <= knots[knots.length - 1])) return null;
  let index = 0;
  while (index < knots.length - 2 && knots[index + 1] <= x) index += 1;
  const u = x - knots[index];
  const [a, b, c, d] = cubics[index];
  return ((a * u + b) * u + c) * u + d;
}

/** Days at a temperature from the curve through ln(days); null outside the tested temperatures. */
export function daysAt(curve, celsius) {
  const logarithm = curveAt(curve, celsius);
  return logarithm === null ? null : Math.exp(logarithm);
}

/** Percent, 0 to 100, from the curve through percentages; null outside the tested temperatures. */
export function percentAt(curve, celsius) {
  const percent = curveAt(curve, celsius);
  return percent === null ? null : Math.min(100, Math.max(0, percent));
}

/**
 * How a temperature stands to the tested ones: {state, below, above}. `cells` are [°C, state, value] from cold to warm.
 * States: measured, between, none, next to none, among none, doubtful, not tested.
 */
export function testedState(cells, celsius) {
  const at = cells.find((cell) => Math.abs(cell[0] - celsius) < SAME_C);
  if (at !== undefined && at[1] === "doubtful") return { state: "doubtful", below: at[0], above: at[0] };
  const told = cells.filter((cell) => cell[1] === "measured" || cell[1] === "no germination");
  const low = told.filter((cell) => cell[0] < celsius + SAME_C).at(-1) ?? null;
  const high = told.find((cell) => cell[0] > celsius - SAME_C) ?? null;
  const states = [low, high].filter((cell) => cell !== null).map((cell) => cell[1]);
  const all = (state) => states.length > 0 && states.every((found) => found === state);
  let state;
  if (low !== null && high !== null) {
    if (low === high) state = all("measured") ? "measured" : "none";
    else state = all("measured") ? "between" : all("no germination") ? "among none" : "next to none";
  } else {
    state = all("no germination") ? "among none" : "not tested";
  }
  return { state, below: low === null ? null : low[0], above: high === null ? null : high[0] };
}
