// Strengths and volumes as they are said: spoons with quarters, millilitres as far as a spoon is exact.

import { METRIC_CUP_ML, METRIC_TABLESPOON_ML, US_CUP_ML, US_TABLESPOON_ML } from "../../science/dilution.js";

export const MEASURES = {
  us: { cup: US_CUP_ML, tbsp: US_TABLESPOON_ML, name: "US" },
  metric: { cup: METRIC_CUP_ML, tbsp: METRIC_TABLESPOON_ML, name: "metric" },
};
const QUARTERS = ["", "¼", "½", "¾"];
const SHARES = ["", "", "half", "one third", "one quarter", "one fifth", "one sixth", "one seventh", "one eighth", "one ninth", "one tenth"];

/** 29.57 as "29.6 mL", 236.6 as "237 mL". */
export function mlText(ml) {
  return `${trimmed(ml, ml < 100 ? 1 : 0)} mL`;
}

/** A strength in percent with two digits that mean something: "0.33 %", "0.038 %", "1.5 %". */
export function strengthText(percent) {
  const digits = Math.max(0, 1 - Math.floor(Math.log10(percent) + 1e-12));
  return `${trimmed(percent, Math.min(digits, 6))} %`;
}

/** "0.30–0.35 %"; one figure where both read the same. */
export function strengthRangeText([low, high]) {
  const [first, last] = [strengthText(low), strengthText(high)];
  return first === last ? last : `${first.replace(" %", "")}–${last}`;
}

/** A number typed, without needless zeros: 2, 0.5. */
export function plain(number) {
  return String(Math.round(number * 1000) / 1000);
}

/** "2 tablespoons", "¾ tablespoon", "6¾ tablespoons"; other fractions in figures. */
export function spoonText(number, unit) {
  const quarters = number * 4;
  const whole = Math.floor(number + 1e-9);
  const text = Math.abs(quarters - Math.round(quarters)) < 1e-9
    ? `${whole === 0 && Math.round(quarters) % 4 !== 0 ? "" : whole}${QUARTERS[Math.round(quarters) % 4]}` : plain(number);
  return `${text} ${unit}${number > 1 ? "s" : ""}`;
}

/** 9 as "one ninth of the bottle’s strength". */
export function shareText(times) {
  const whole = Math.round(times);
  if (Math.abs(times - whole) < 1e-6 && SHARES[whole]) return `${SHARES[whole]} of the bottle’s strength`;
  return `${trimmed(times, times < 20 ? 1 : 0)} times weaker than the bottle`;
}

function trimmed(value, digits) {
  const text = value.toFixed(digits);
  return digits > 0 ? text.replace(/\.?0+$/, "") : text;
}
