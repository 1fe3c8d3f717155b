// The table of crops and places: each cell a word, days beneath it; never colour alone.

import { element } from "../element.js";
import { temperatureRange } from "../temperature.js";

const SHORT = { good: "good", cool: "cool", warm: "warm", cold: "cold", hot: "hot", unknown: "–" };

/** A scrollable table, crops down and places across. */
export function matrix({ values, crops, chosen }, words, daysWords) {
  const head = (text, scope, ...more) => {
    const made = element("th", "", text, ...more);
    made.scope = scope;
    return made;
  };
  const cell = (spot) => {
    const word = element("span", "spot-word", SHORT[spot.rating]);
    word.title = words[spot.rating];
    return element("td", `spot spot-${spot.rating}`, word, spot.measured ? element("small", "", daysWords(spot)) : null);
  };
  const holder = element("div", "table-holder", element("table", "answer-table spots-table",
    element("caption", "", "Which place suits which crop, and the days to emergence there"),
    element("thead", "", element("tr", "", head("Crop", "col"), ...values.places.map((place) => head(place.name, "col", element("small", "", temperatureRange(place.low, place.high, values.unit)))))),
    element("tbody", "", ...crops.map(({ crop, spots, id }) => element("tr", id === chosen?.id ? "chosen" : "", head(crop.name, "row"), ...spots.map(cell))))));
  holder.tabIndex = 0;
  holder.setAttribute("role", "group");
  holder.setAttribute("aria-label", "Crops and places, may scroll sideways");
  return holder;
}
