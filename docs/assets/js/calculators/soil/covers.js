// What is published of covers, each alone and named: warming of the soil, earliness, and warmth of the air.

import { element, list, table } from "../element.js";
import { differenceText } from "../temperature.js";
import { underCovers } from "./answer.js";
import { cellText, shortEnd, shortStart } from "./words.js";

/** "4.4–7.8 °C", "up to 2.8 °C" or "5 °C or more": a difference. */
export function gainText([least, most], unit) {
  if (most === null) return `${differenceText(least, unit)} or more`;
  if (least === 0) return `up to ${differenceText(most, unit)}`;
  const [low, high] = [differenceText(least, unit), differenceText(most, unit)];
  return low === high ? low : `${low.split(" ")[0]}–${high}`;
}

/** "4.4–7.8 °C warmer (what was measured; source; remark)" */
export function publishedText(cover, unit) {
  const more = [cover.measure, cover.source, cover.note].filter((part) => part !== "").join("; ");
  return `${gainText(cover.gain, unit)} warmer (${more})`;
}

// The rule of the trade moves the soonest day of the start, and that alone: "up to" may be nothing.
function tradeText(found, days) {
  const spring = found?.windows.find(({ by, starts }) => by === "warmed" && starts[0] !== null);
  if (!spring) return found === null ? "not published" : "no start to move";
  const [earliest, latest] = spring.starts;
  return `${shortStart({ ...spring, starts: [(earliest - days + 365) % 365, latest] })} until ${shortEnd(spring)}`;
}

/** Nodes for the part "Under a cover". */
export function coverNodes(answer, data) {
  const { chosen, values, values: { unit } } = answer;
  const { full } = values.series;
  const rows = [
    ["No cover", "", cellText(chosen.minimum, full), cellText(chosen.best, full)],
    ...underCovers(answer, data.covers.soil).map(({ cover, minimum, best }) => [cover.cover, publishedText(cover, unit), cellText(minimum, full), cellText(best, full)]),
    ["Rule of the trade", `up to ${data.earlier.value} days earlier (common practice, no source)`, tradeText(chosen.minimum, data.earlier.value), tradeText(chosen.best, data.earlier.value)],
  ];
  const holder = table(`${chosen.crop.name} under a cover`, ["Cover", "What is published", "Minimum held", "Best range held"], rows);
  const earlier = data.covers.earlier.filter(({ crop }) => crop === "" || crop.split(";").includes(chosen.id));
  const air = data.covers.air.filter(({ crop, measure }) => crop === "" && /frost|night/.test(measure));
  return [
    element("p", "", "Each row stands alone: they come from different places and are not to be added together."),
    holder,
    element("div", "screen-only", list([
      ...earlier.map(({ cover, detail, source, note }) => `Also published, in time rather than warmth: ${cover}, ${detail} (${[source, note].filter((part) => part !== "").join("; ")}).`),
      `No figure for soil under a row cover, tunnel or frame was found. What is published for them is the air on cold nights: ${air.map(({ cover, gain, source }) => `${cover} ${gainText(gain, unit)} (${source})`).join("; ")}.`,
      "Soil under clear plastic in sun can pass the crop’s maximum: where that is published, the dates above already end there.",
    ])),
  ];
}

/** Several nodes as one. */
export function together(nodes) {
  return element("div", "", ...nodes);
}
