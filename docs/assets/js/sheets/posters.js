// Posters of crops by name: papers, order, pages of marks. Twin of posters.py and paper.py in build_tools/render/sheets/.

import { daysPages } from "./days_poster.js";
import { Bands, Life, rowsPages } from "./rows_poster.js";
import { Type } from "./type.js";

const DESIGN_SHORT_SIDE = 420; // mm, of A2

/** {width, height} in design mm and the scale to the paper; `sides` are its short and long side in mm. */
export function posterSheet(sides, orientation) {
  const scale = sides[0] / DESIGN_SHORT_SIDE;
  const [short, long] = [DESIGN_SHORT_SIDE, sides[1] / scale];
  return orientation === "portrait" ? { width: short, height: long, scale } : { width: long, height: short, scale };
}

function chosen(data, crops, order) {
  const entries = data.crops.filter((crop) => crops === null || crops.includes(crop.id));
  if (order === "name") return entries;
  const value = (crop) => crop.band?.order[order] ?? null;
  const known = entries.filter((crop) => value(crop) !== null).sort((a, b) => value(a) - value(b));
  return [...known, ...entries.filter((crop) => value(crop) === null)];
}

/** Pages of marks; `crops` null for all. */
export function posterPages(data, poster, sides, orientation, units, crops = null, order = "name") {
  const [type, sheet, entries] = [new Type(data.widths), posterSheet(sides, orientation), chosen(data, crops, order)];
  if (poster === "days") return daysPages(type, sheet, data, units, entries);
  return rowsPages(type, sheet, orientation, poster === "bands" ? new Bands(data, units) : new Life(data), entries);
}
