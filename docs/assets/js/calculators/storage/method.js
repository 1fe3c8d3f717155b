// How the answer is worked out: each formula with its name and source, and the numbers of this answer.

import { HARRINGTON_DAMPEST, HARRINGTON_DRIEST } from "../../science/viability.js";
import { differenceText } from "../temperature.js";

const days = (value) => (value >= 100000 ? "more than 100,000" : String(Number(value.toPrecision(3))));

/** [term, text] pairs. */
export function workings({ values, main, thumb }, { limits, rules }) {
  const { stores, unit } = values;
  return [
    ["Viability equation", `Ellis and Roberts (1980): probit of the living share = its probit at the start − days/σ, log₁₀ σ = KE − CW log₁₀ m − CH t − CQ t²; m moisture in % of fresh weight, t in °C, σ the days in which it falls by one probit.${limits === null ? "" : ` Stated for ${limits.celsius[0]} to ${limits.celsius[1]} °C and ${limits.moisture[0]}–${limits.moisture[1]} % moisture (a compilation); here from 0 °C up only.`}`.replace("-", "−")],
    main === null ? null : ["Here", `KE ${main.set.k[0]}, CW ${main.set.k[1]}, CH ${main.set.k[2]}, CQ ${main.set.k[3]} (${main.set.name}). σ: ${stores.map((store, i) => `${store.name} ${days(main.days[i])} days`).join(", ")}.`],
    ["Ratio", "σ of one store over σ of the other. It does not depend on how good the lot was at the start."],
    ["Start from a test", "The living share after k of n follows Beta(k + ½, n − k + ½). Its probit rises with it, so the ends of its range go through the equation exactly, and so does its middle; no random draws. With none or all up the middle is (k + ½)/(n + 1). Germination is taken as the living share: dormant seed must be awake in the test."],
    ["Moisture from humidity", `Cromarty, Ellis and Roberts (1982): 1 − R = exp(−[M (1.1 + T/90)/(1 − D)]²/440), M moisture in % of dry weight, R humidity, D oil content, T in °C; fresh-weight moisture is 100 M/(100 + M).${limits === null ? "" : ` Stated for ${limits.humidity[0]}–${limits.humidity[1]} % humidity and ${limits.starchy[0]}–${limits.starchy[1]} °C for starchy seed, ${limits.oily[0]}–${limits.oily[1]} °C for oily seed; seed of ${limits.oily_from} % oil or more is taken as oily (our line).`} A closed jar keeps the moisture it was closed with.`],
    thumb === null ? null : ["Rules of thumb", `Harrington (${rules.source}): × 2 for each ${differenceText(thumb.step, unit)} cooler (a difference), × 2 for each ${rules.points} % less moisture, the moisture part within ${HARRINGTON_DRIEST}–${HARRINGTON_DAMPEST} % only (from memory).`],
  ].filter(Boolean);
}
