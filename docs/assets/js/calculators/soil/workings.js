// How the dates are worked out: [term, text] pairs.

import { differenceText } from "../temperature.js";
import { THERMOMETER, measuredDepth, wayOf } from "./answer.js";

const KINDS = {
  months: ["Soil from monthly averages", "One yearly wave through the twelve months (least squares at the middle of each), damped and late by the depth: swing × e^(−z/d), d = √(2D/ω), with D = 0.5 mm² a second, so d = 2.2 m for the year (Hillel 1982; Kusuda & Achenbach 1965). The mean of the soil is taken to be that of the air. At sowing depth this is a loss of 1 or 2 % and a day’s delay."],
  days: ["Soil from daily air", "The day’s mean, (low + high)/2, goes into an exponential mean with a time of 3 days: today counts 28 %, the days before the rest, each e^(−1/3) of the one after it. Of 2, 3 and 5 days, 3 fitted best at the station, on the same springs that tested it."],
  average: ["Soil from years of daily air", "The day’s mean, (low + high)/2, goes into an exponential mean with a time of 3 days (today counts 28 %); what falls on the same date in different years is averaged. The doubt is that of monthly averages, since one year lies as far from the average."],
  readings: ["Soil from your readings", "The mean of the day’s readings, smoothed over three days."],
};

/** For the fold under the answer. */
export function workings({ values: { series, unit, depth, hold } }, { station, facts: { readings } }) {
  const way = wayOf(series.kind);
  const own = way === null ? null : station[way];
  const key = own && measuredDepth(depth, own);
  const twice = `Two readings a day: ${readings.source}: half of low and high lay ${differenceText(readings.value, unit)} above the day’s mean at 5 cm.`;
  return [
    own === null ? [KINDS.readings[0], `${KINDS.readings[1]} ${twice}`] : KINDS[series.kind],
    ["Holding", `Soil holds a temperature from the first of ${hold} days in a row at or above it, until the last day before ${hold} in a row below it. Shorter spells change nothing. The same with the crop’s maximum, or the warm end of its best range, the other way round.`],
    ["Ranges of dates", own === null ? `The curve moved up and down by ${differenceText(THERMOMETER, unit)}.`
      : `The curve moved up and down by what held ${Math.round(100 * station.share)} % of the measured days at ${key} mm at ${station.name}, season by season (counted from the warmest day, straight lines between)${way === "months" && series.harmonic ? `, in proportion to the swing of your year: ${differenceText(series.harmonic.amplitude, unit)} to either side of its mean against ${differenceText(station.swing, unit)} there, so that days of spring stay days of spring (our own choice; never less than half or more than one and a half times)` : ""}. There, in spring, measured minus estimated lay between ${signed(own.bands[key][3][0], unit)} and ${signed(own.bands[key][3][1], unit)}. The soil is warmer than the estimate on the whole, most of all in winter; the curve is not corrected for it, the ranges are.`],
    ["Under a cover", "The curve moved up by the published gain, least to most, over the whole year. The gains were found on bare soil in spring, so an autumn date made of them is a guess."],
    ["What it leaves out", "Frost, rain, shade, slope and the kind of soil; one station in Kansas stands for every place. Nothing is said of how long seed takes to come up."],
  ];
}

function signed(celsius, unit) {
  const text = differenceText(Math.abs(celsius), unit);
  return celsius < 0 ? `−${text}` : `+${text}`;
}
