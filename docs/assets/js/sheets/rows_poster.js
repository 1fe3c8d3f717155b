// Posters with a row for each crop, in columns. Twin of build_tools/render/sheets/rows_poster.py.

import { NAME, grid, place } from "./columns.js";
import { foot, head, key, smallPrint, sourcesOf } from "./frame.js";
import { group, line, lines, polygon, rect, text } from "./marks.js";

const AXIS = 10;
export const TICK = 5.4;
const HATCHES = { cold: "rising", hot: "falling" };
const MOST_COLUMNS = { portrait: 2, landscape: 3 };

/** The units in which something is said: "both" or one of them. */
export const unitsOf = (units) => (units === "both" ? ["c", "f"] : [units.toLowerCase()]);

/** A crop's name, in the middle of its row, in one line or two. */
export function nameMarks(type, words, x, y, row, most) {
  const [parts, size] = type.name(words, row * NAME, 600, most);
  const leading = size * 1.04;
  const first = y + row / 2 + 0.33 * size - (leading * (parts.length - 1)) / 2;
  return lines(x, first, size, leading, parts, { weight: 600 });
}

// What lies between minimum and maximum without a best range is an empty frame.
function partRect(part, x, y, width, height) {
  if (part === "between") return rect(x, y, width, height, "paper", { edge: "line", edge_width: 0.4 });
  return rect(x, y, width, height, part, { hatch: HATCHES[part] ?? "" });
}

function numbers(type, said, units, x, y, row, width) {
  const at = (size, share, words, ink = "ink") => text(x + width / 2, y + row / 2 + share * size, size, words, { anchor: "middle", ink });
  if (units !== "both") {
    const words = said[units.toLowerCase()];
    return [at(type.oneLine(words, row * 0.62, 400, width), 0.33, words)];
  }
  const size = Math.min(...["c", "f"].map((u) => type.oneLine(said[u] === "–" ? "–" : `${said[u]} °${u.toUpperCase()}`, row * 0.44, 400, width)));
  if (said.c === "–") return [at(size, 0.33, "–")];
  return [at(size, -0.12, `${said.c} °C`), at(size, 0.86, `${said.f} °F`, "soft")];
}

const between = (x0, width, y) => line(x0, y, x0 + width, y, 0.2, "rule");

/** Rows of the poster of temperature bands. */
export class Bands {
  about = "band";
  title = "How warm must the soil be?";
  lead = "Soil temperature at sowing depth for each crop: the least at which seed can come up, the range in which it does best, the most it bears. The diamond is the optimum, where they come fastest.";
  kind = "Reference values judged from published tables; “–” means that none was found.";
  noneFound = "No published soil temperature";

  constructor(data, units) {
    this.data = data;
    this.units = units;
    this.scale = data.scale;
  }

  key() {
    return ["cold", "slow", "best", "fading", "hot"].map((part) => ({ words: this.scale.words[part], fill: part, hatch: HATCHES[part] ?? "" }));
  }

  shares(width) {
    let x = 0;
    return [[0.335, 0.015], [0.305, 0.01], [0.09, 0.01], [0.135, 0.01], [0.09, 0]].map(([share, gap]) => {
      const found = [x, width * share];
      x += width * (share + gap);
      return found;
    });
  }

  x(celsius, start, width) {
    const { low, high } = this.scale;
    return start + (width * (Math.min(Math.max(celsius, low), high) - low)) / (high - low);
  }

  axes(x0, width, top, bottom) {
    const places = this.shares(width);
    const [start, across] = [x0 + places[1][0], places[1][1]];
    const [above, below] = this.units === "both" ? ["c", "f"] : [this.units.toLowerCase(), this.units.toLowerCase()];
    const marks = [];
    for (const [unit, y] of [[above, top - 2.5], [below, bottom + TICK]]) {
      marks.push(text(start - 1, y, TICK, `°${unit.toUpperCase()}`, { anchor: "end", ink: "soft" }));
      for (const [celsius, words] of this.scale.ticks[unit]) marks.push(text(this.x(celsius, start, across), y, TICK, words, { anchor: "middle", ink: "soft" }));
    }
    for (const [celsius] of this.scale.ticks[above]) {
      const at = this.x(celsius, start, across);
      marks.push(line(at, top, at, bottom, 0.2, "rule"));
    }
    ["least", "best", "most"].forEach((words, i) => {
      const [at, wide] = places[i + 2];
      marks.push(text(x0 + at + wide / 2, top - 2.5, TICK, words, { anchor: "middle", ink: "soft" }));
    });
    return marks;
  }

  row(type, crop, x0, y, width, row) {
    const [band, places] = [crop.band, this.shares(width)];
    const [start, across] = [x0 + places[1][0], places[1][1]];
    const marks = [nameMarks(type, crop.name, x0, y, row, places[0][1])];
    for (const [part, low, high] of band.parts) {
      const [left, right] = [this.x(low, start, across), this.x(high, start, across)];
      marks.push(partRect(part, left, y + row * 0.17, right - left, row * 0.66));
    }
    if (band.optimum !== null) {
      const at = this.x(band.optimum, start, across);
      const diamond = (size, fill) => polygon([[at, y + row / 2 - size * 1.5], [at + size, y + row / 2], [at, y + row / 2 + size * 1.5], [at - size, y + row / 2]], fill);
      marks.push(diamond(row * 0.2, "paper"), diamond(row * 0.2 * 0.7, "ink"));
    }
    band.said.forEach((said, i) => marks.push(...numbers(type, said, this.units, x0 + places[i + 2][0], y, row, places[i + 2][1])));
    marks.push(between(x0, width, y + row));
    return group(this.alt(crop), marks);
  }

  alt(crop) {
    const parts = ["least", "best", "most"].map((words, i) => [words, crop.band.said[i]]).filter(([, said]) => said.c !== "–")
      .map(([words, said]) => `${words} ${unitsOf(this.units).map((u) => `${said[u]} °${u.toUpperCase()}`).join(" or ")}`);
    return `${crop.name}: ${parts.join(", ")}`;
  }
}

/** Rows of the poster of seed life. */
export class Life {
  about = "life";
  title = "How long does seed keep?";
  lead = "Years that most seed stays good when it is kept cool, dry and dark: a block for each year. The thin line spans what independent sources print. Test older seed before you throw it away, and before you rely on it.";
  kind = "Reference values judged from published tables.";
  noneFound = "No published seed life";

  constructor(data) {
    this.data = data;
  }

  key() {
    return [];
  }

  shares(width) {
    return [[0, width * 0.36], [width * 0.38, width * 0.43], [width * 0.83, width * 0.17]];
  }

  year(value, start, width) {
    return start + (width * value) / this.data.most_years;
  }

  axes(x0, width, top, bottom) {
    const [at, across] = this.shares(width)[1];
    const marks = [];
    for (let year = 1; year <= this.data.most_years; year += 1) {
      const x = this.year(year, x0 + at, across);
      for (const y of [top - 2.5, bottom + TICK]) marks.push(text(x, y, TICK, `${year}`, { anchor: "middle", ink: "soft" }));
      marks.push(line(x, top, x, bottom, 0.2, "rule"));
    }
    return marks;
  }

  row(type, crop, x0, y, width, row) {
    const [life, places] = [crop.life, this.shares(width)];
    const [start, across] = [x0 + places[1][0], places[1][1]];
    const marks = [nameMarks(type, crop.name, x0, y, row, places[0][1])];
    for (let year = 0; year < life.high; year += 1) {
      const until = Math.min(year + 1, life.high);
      const [left, right] = [this.year(year, start, across), this.year(until, start, across)];
      marks.push(rect(left + 0.5, y + row * 0.2, right - left - 1, row * 0.42, until <= life.low ? "best" : "slow", { edge: "best", edge_width: 0.4 }));
    }
    if (life.span !== null) {
      const ends = life.span.map((value) => this.year(value, start, across));
      marks.push(line(ends[0], y + row * 0.8, ends[1], y + row * 0.8, 0.7, "ink"));
      marks.push(...ends.map((x) => line(x, y + row * 0.72, x, y + row * 0.88, 0.7, "ink")));
    }
    const size = type.oneLine(life.text, row * 0.62, 400, places[2][1]);
    marks.push(text(x0 + width, y + row / 2 + 0.33 * size, size, life.text, { anchor: "end" }));
    marks.push(between(x0, width, y + row));
    return group(this.alt(crop), marks);
  }

  alt(crop) {
    const span = crop.life.span;
    return `${crop.name}: ${crop.life.text}${span === null ? "" : `; sources ${span[0]} to ${span[1]}`}`;
  }
}

/** The pages of a poster with a row a crop. */
export function rowsPages(type, sheet, orientation, poster, crops) {
  const rows = crops.filter((crop) => crop[poster.about] !== null);
  const { library } = poster.data;
  const small = smallPrint(library, poster.kind, sourcesOf(rows.map((crop) => crop[poster.about])), poster.noneFound, crops.filter((crop) => crop[poster.about] === null).map((crop) => crop.name));
  const [feet, bottom] = foot(type, sheet, library, small);
  const [, under] = head(type, sheet, poster.title, poster.lead, 1, 1);
  const [keys, y] = poster.key().length > 0 ? key(type, sheet, under, poster.key()) : [[], under];
  const top = y + AXIS;
  const cells = grid(sheet, Math.max(1, rows.length), bottom - AXIS - top, MOST_COLUMNS[orientation]);
  const onPage = cells.columns * cells.rows;
  return Array.from({ length: cells.pages }, (_, page) => {
    const [heads] = head(type, sheet, poster.title, poster.lead, page + 1, cells.pages);
    const shown = rows.slice(page * onPage, (page + 1) * onPage);
    const body = [];
    for (let first = 0; first < shown.length; first += cells.rows) {
      const [x] = place(cells, first, top);
      body.push(...poster.axes(x, cells.width, top, top + cells.row * Math.min(cells.rows, shown.length - first)));
    }
    shown.forEach((crop, index) => body.push(poster.row(type, crop, ...place(cells, index, top), cells.width, cells.row)));
    return [...heads, ...keys, ...body, ...feet];
  });
}
