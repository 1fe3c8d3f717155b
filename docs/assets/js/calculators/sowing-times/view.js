// The calendar on the page: what comes next, the timeline, crop by crop, by date, what to know.

import { dateRange, dateText } from "../../date_words.js";
import { element, pictureSlot, table, verdict } from "../element.js";
import { named } from "./events.js";
import { key, timeline } from "./picture.js";
import { afterSowing, headline, sentenceCase, taskText, trust, workings, worthKnowing } from "./words.js";

const MOST_IN_PICTURE = 12; // lots
const MISSING = "not published here";
const UP = "../../"; // from calculators/sowing-times/ to the site's top

/** What mountCalculator shows of an answer; `level` is that of its headings. */
export function show(answer, data, level) {
  const { values, season, next } = answer;
  return {
    title: `Sowing calendar, ${values.place}, ${season.last.slice(0, 4)}${values.invented ? " (invented example)" : ""}`,
    headline: headline(answer),
    trust: trust(answer),
    line: next.length > 0 ? next.map((task) => taskText(task, answer)).join("\n") : headline(answer),
    rest: below(answer, level),
    workings: workings(answer),
  };
}

function* below(answer, level) {
  const { tasks } = answer;
  const heading = (text) => element(`h${level}`, "answer-heading", text);
  yield missed(answer);
  yield frosted(answer);
  if (tasks.length > 0) {
    yield heading("The season at a glance");
    for (const [i, lots] of pieces(answer.lots).entries()) {
      yield element("div", "timeline-holder", pictureSlot((width) => timeline(answer, lots, width)), i === 0 ? key(answer) : null);
    }
  }
  yield heading("Crop by crop");
  yield byCrop(answer);
  if (tasks.length > 0) {
    yield heading("Task by task");
    yield byDate(answer);
  }
  yield element("p", "after-look", "Nothing came up? ", link("calculators/tray/", "Look at the tray"), " for the reasons one by one, or ", link("calculator/", "count a test"), " of what is left in the packet.");
  const notes = worthKnowing(answer);
  if (notes.length > 0) {
    yield heading("Worth knowing");
    yield knowledge(notes);
  }
}

// Pictures that fit a sheet of paper and keep their months in sight.
function pieces(lots) {
  const count = Math.ceil(lots.length / MOST_IN_PICTURE);
  const size = Math.ceil(lots.length / count);
  return Array.from({ length: count }, (_, i) => lots.slice(i * size, (i + 1) * size));
}

function knowledge(notes) {
  return element("ul", "", ...notes.map(([name, told]) => element("li", "", element("b", "", `${name}. `), told.join(" "))));
}

function link(address, text) {
  const made = element("a", "", text);
  made.href = UP + address;
  return made;
}

// Windows of this season that have gone by, and the way to the next.
function missed({ missed: gone, sowings, season, over }) {
  if (over === 0) return null;
  const year = Number(season.last.slice(0, 4)) + 1;
  const what = gone > 0 ? `${gone} of ${sowings} windows for sowing and planting out are already past in the season of ${year - 1}.`
    : `Some days of the season of ${year - 1} are already past; no window for sowing or planting out is missed.`;
  const button = element("button", "other-year", `Show the season of ${year}`);
  button.type = "button";
  button.dataset.year = String(year);
  const told = verdict({ good: gone > 0 ? false : null, text: what }, "", "Late");
  told.append(" ", button);
  return told;
}

function frosted({ late, season }) {
  if (late.length === 0) return null;
  const names = [...new Set(late.map(({ lot }) => named(lot)))].join(", ");
  return verdict({ good: false, text: `The average first frost, ${dateText(season.first)}, comes before the window ends for ${names}. Check both frost dates.` }, "", "Frost");
}

function byCrop(answer) {
  const head = ["Crop", "Start a test", "Sow indoors", "Plant out", "Sow outdoors"];
  const cell = (window, ...lines) => element("td", "", element("b", "", window ? dateRange(window, "short") : MISSING), ...lines.flatMap((text) => [" ", element("small", "", text)]));
  const rows = answer.lots.map((lot) => {
    const { plan, entry } = lot;
    const first = element("th", "", link(`crops/${lot.crop}/`, entry.name), lot.lot ? ` (${lot.lot})` : null);
    first.scope = "row";
    return element("tr", "", first, testCell(lot),
      cell(plan["sow-indoors"], ...(plan["sow-indoors"] ? afterSowing(lot, "indoors", answer) : [])),
      cell(plan["plant-out"], ...(entry.frost ? [`Frost: ${entry.frost}.`] : ["Frost class not known here."])),
      cell(plan["sow-outdoors"], ...(plan["sow-outdoors"] ? afterSowing(lot, "outdoors", answer) : [])));
  });
  const holder = table(`Windows at ${answer.values.place}, first and last day included`, head, []);
  holder.classList.add("crop-windows");
  holder.querySelector("tbody").replaceChildren(...rows);
  return holder;
}

function testCell({ plan, tested, entry }) {
  if (plan.test) {
    return element("td", "", element("b", "", dateRange(plan.test, "short")), " ",
      element("small", "", `${tested ? `Last test: ${dateText(tested, "short")}. ` : ""}It takes ${entry.test_days} days.`));
  }
  return element("td", "", tested ? `Tested ${dateText(tested, "short")}` : "No sowing to count back from");
}

function byDate({ tasks, data, values }) {
  const rows = tasks.map((task) => [dateText(task.first, "short"), dateText(task.last, "short"), named(task.lot),
    `${sentenceCase(data.tasks[task.task])}${task.last < values.today ? " (past)" : task.first <= values.today ? " (now)" : ""}`]);
  const holder = table("First and last day of each task; give-up days are counted from the first and last day of sowing", ["From", "To", "Crop", "Task"], rows);
  holder.classList.add("task-list");
  return holder;
}
