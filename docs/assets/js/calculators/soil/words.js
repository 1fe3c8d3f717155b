// What a window is called and how its ends are said.

import { temperatureRange } from "../temperature.js";
import { temperatureText } from "../format.js";
import { betweenText, dayText, shortRange } from "./days.js";

const NAMES = { "warmed hot": "spring", "cooled cold": "autumn" };
const SHORT_WINDOW = 30; // days; what warms and cools again so soon is no season
const LONG_WINTER = 100; // days; a window between two hot times as long as this holds a winter
export const MOST_TOLD = 4; // windows of one kind that are told

/** Windows of a result that stand for themselves; doubtful ones of a few days only where there are no others. */
export function mainWindows({ windows }) {
  const lasting = windows.filter(({ brief }) => !brief);
  return lasting.length > 0 ? lasting : windows;
}

/** "spring", "autumn" …; empty where the record or the climate does not tell. */
export function seasonName({ by, until, start, end }, seasons) {
  if (!seasons) return "";
  const days = ((end - start + 365) % 365) + 1;
  if (by === "warmed" && until === "cold") return days <= SHORT_WINDOW ? "a warm spell" : "spring to autumn";
  if (by === "cooled" && until === "hot") return days < LONG_WINTER ? "between hot spells" : "autumn to spring";
  return NAMES[`${by} ${until}`] ?? "";
}

const phrase = (name) => ({ spring: "in spring ", autumn: "in autumn ", "a warm spell": "in a warm spell ", "between hot spells": "between hot spells " })[name] ?? "";

/** "13 mm", or the range advised for the crop. */
export function depthText({ depth, depthFrom, crop }) {
  const [least, most] = depthFrom === "crop" ? crop.depth : [depth, depth];
  return `${least === most ? least : `${least}–${most}`} mm`;
}

/** "4.5 °C", and the highest where one is published. */
export function minimumText(crop, unit) {
  return crop.maximum === undefined ? `${temperatureText(crop.minimum, unit)} or more` : temperatureRange(crop.minimum, crop.maximum, unit);
}

/** The start of a window as the middle of a sentence. */
export function fromText({ by, start, starts: [earliest, latest] }) {
  if (by === "edge") return `from ${dayText(start)} or before (no days are given before it)`;
  if (earliest !== null && latest !== null) return `from ${betweenText([earliest, latest])}`;
  if (by === "warmed") {
    if (latest !== null) return `from ${dayText(latest)} at the latest (in a warm year all through the cold months)`;
    return earliest === null ? "in a warm year at any time, in a cold one not at all" : `from ${dayText(earliest)} at the earliest (in a cold year perhaps never)`;
  }
  if (latest !== null) return `from ${dayText(latest)} at the latest (in a cool year it is never too hot)`;
  return earliest === null ? "from no date that can be told" : `from ${dayText(earliest)} at the earliest (in a hot year it may stay too hot)`;
}

/** The end of a window as the middle of a sentence. */
export function untilText({ until, end, ends: [earliest, latest] }) {
  if (until === "edge") return `to ${dayText(end)} or later (no days are given after it)`;
  if (earliest !== null && latest !== null) return `until ${betweenText([earliest, latest])}`;
  if (until === "cold") {
    if (earliest !== null) return `until ${dayText(earliest)} at the earliest (in a warm year all through the cold months)`;
    return latest === null ? "until no date that can be told" : `until ${dayText(latest)} at the latest`;
  }
  if (earliest !== null) return `until ${dayText(earliest)} at the earliest (in a cool year it is never too hot)`;
  return latest === null ? "until no date that can be told" : `until ${dayText(latest)} at the latest`;
}

/** The same for a cell of a table. */
export function shortStart({ by, start, starts: [earliest, latest] }) {
  if (by === "edge") return `${dayText(start, "short")} or before`;
  if (earliest !== null && latest !== null) return shortRange([earliest, latest]);
  if (latest !== null) return `by ${dayText(latest, "short")}`;
  return earliest === null ? "some years" : `${dayText(earliest, "short")} or later`;
}

export function shortEnd({ until, end, ends: [earliest, latest] }) {
  if (until === "edge") return `${dayText(end, "short")} or later`;
  if (earliest !== null && latest !== null) return shortRange([earliest, latest]);
  if (earliest !== null) return `${dayText(earliest, "short")} or later`;
  return latest === null ? "not sure" : `${dayText(latest, "short")} or before`;
}

/** A result of windows() for a cell: "28 Mar–19 Apr until 20 Oct–9 Nov". */
export function cellText(found, full) {
  if (found === null) return "not published";
  if (found.state === "always") return full ? (found.sure ? "all year" : "all year, but not every year") : "on every day of the record";
  if (found.state === "never") {
    const why = found.why === "hot" ? "too hot" : "too cold";
    return found.sure ? `never: ${why}` : `never (${why}); some years for a while`;
  }
  const main = mainWindows(found);
  const told = main.slice(0, MOST_TOLD).map((window) => `${shortStart(window)} until ${shortEnd(window)}`).join("; ");
  return main.length > MOST_TOLD ? `${told}; and more` : told;
}

/** The doubtful spells of a few days that stand beside longer windows, "15–22 Feb" each. */
export function briefSpells(found) {
  if (found === null || found.state !== "windows" || mainWindows(found).length === found.windows.length) return [];
  return found.windows.filter(({ brief }) => brief).map(({ start, end }) => shortRange([start, end]));
}

/** A result of windows() as a sentence's end: "from between 3 and 28 April until between 9 and 30 October". */
export function windowsText(found, { seasons, full }) {
  if (found.state === "always") {
    const whole = full ? "all year" : "on every day of the record";
    return found.sure ? whole : `${whole} by this estimate, but perhaps not in every year`;
  }
  if (found.state === "never") {
    const where = full ? "" : " in the days of the record";
    if (found.sure) return found.why === "hot" ? `at no time${where}: it is always too hot or too cold` : `at no time${where}: it is never warm enough`;
    return `at no time${where} by this estimate; in ${found.why === "hot" ? "a cooler" : "a warmer"} year perhaps for a while`;
  }
  const main = mainWindows(found);
  const several = main.length > 1;
  const told = main.slice(0, MOST_TOLD).map((window) => {
    const name = several ? seasonName(window, seasons) : "";
    return `${phrase(name)}${fromText(window)} ${untilText(window)}`;
  });
  const rest = main.length > MOST_TOLD ? [`in ${main.length - MOST_TOLD} more spells`] : [];
  return [...told, ...rest].join("; ");
}
