// Texts of the reference name temperatures as "5–10 °C (41–50 °F)" or, as their sources print them, in °C alone.
// On this page one unit is shown.

const BOTH = /(\d[\d.,–]*) °([CF]) \((\d[\d.,–]*) °(?!\2)[CF]\)/g;
const ALONE = /(?:(\d+(?:\.\d+)?)( or | and | to |–))?(\d+(?:\.\d+)?) °C/g;

const EXACT_FROM = 45; // °C of a hot bath, where half a degree counts

function fahrenheit(text) {
  const scale = Number(text) >= EXACT_FROM ? 10 : 1;
  return String(Math.round(((Number(text) * 9) / 5 + 32) * scale) / scale);
}

/** The text with its temperatures in the unit, "c" or "f". */
export function inOneUnit(text, unit) {
  const wanted = unit === "f" ? "F" : "C";
  const alone = (part) => (unit !== "f" ? part
    : part.replace(ALONE, (all, low, join, high) => `${low === undefined ? "" : fahrenheit(low) + join}${fahrenheit(high)} °F`));
  let shown = "";
  let from = 0;
  // A pair keeps the figure its source gives, so that a difference in it is not taken for a temperature.
  for (const found of text.matchAll(BOTH)) {
    const [pair, first, firstUnit, second] = found;
    shown += `${alone(text.slice(from, found.index))}${firstUnit === wanted ? first : second} °${wanted}`;
    from = found.index + pair.length;
  }
  return shown + alone(text.slice(from));
}

/** An exact bath, {c, f}, as its source prints it or to a tenth. */
export function exactText({ c, f }, unit) {
  return unit === "f" ? `${f} °F` : `${c} °C`;
}
