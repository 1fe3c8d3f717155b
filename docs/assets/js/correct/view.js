// The parts of the page Correct a value. All that comes from the address or the reader is put in as text.

import { element } from "../calculators/element.js";
import { printedText, valueText } from "./sentences.js";

const sentence = (text) => text.charAt(0).toUpperCase() + text.slice(1);

function fact(name, ...said) {
  return element("div", "", element("dt", "", name), element("dd", "", ...said));
}

function sourceLink(site, id) {
  if (!Object.hasOwn(site.sources, id)) return element("span", "", id);
  const link = element("a", "", site.sources[id]);
  link.href = `../sources/#${encodeURIComponent(id)}`;
  return link;
}

// A printed value may be copied wrongly too: a link to this page for its own line.
function printedLink(site, given, item) {
  const link = element("a", "correct", "correct this", element("span", "of", ` of ${item.as_printed} in ${site.sources[item.source] ?? item.source}`));
  link.href = `?${new URLSearchParams({ crop: given.crop, quantity: given.quantity, file: item.file, line: item.line })}`;
  return link;
}

function separated(nodes) {
  return nodes.flatMap((node, i) => (i === 0 ? [node] : ["; ", node]));
}

/** What is to be corrected, as rows of terms; `crop` is the published data of the crop or null. */
export function showGiven(list, site, given, crop) {
  const rows = [];
  if (given.crop !== "") {
    const link = element("a", "", crop === null ? given.crop : crop.names.common);
    link.href = `../crops/${given.crop}/`;
    rows.push(fact("Crop", crop === null ? given.crop : link));
  }
  if (given.quantity !== "") rows.push(fact("Value", site.quantities[given.quantity] ?? given.quantity));
  if (given.shown !== "") rows.push(fact("Shown", given.shown));
  if (given.source !== "") rows.push(fact("Sources named", ...separated(given.source.split(", ").map((id) => sourceLink(site, id)))));
  if (given.file !== "") rows.push(fact("Kept in", `${given.file}, line ${given.line}`));
  list.replaceChildren(...rows);
  list.hidden = rows.length === 0;
}

/** How the present value stands to what is printed: a sentence and each family, those that do not count last. */
export function showStanding(place, site, given, judged, found, unit) {
  if (judged === null) {
    place.replaceChildren(element("p", "", "No published value is shown here yet. If you know one, say where it is printed."));
    return;
  }
  const printed = (item) => element("span", "", `${item.as_printed} in `, sourceLink(site, item.source), item.in_doubt ? ` (${item.in_doubt === "historical" ? "historical" : `in doubt: ${item.in_doubt}`})` : null, " ", printedLink(site, given, item));
  place.replaceChildren(
    element("p", "", element("strong", "", `Now: ${valueText(judged, unit)}.`), ` ${sentence(site.statuses[judged.status] ?? judged.status)}.`, found === null ? null : ` Printed by the sources that count: ${printedText(found, unit)}.`),
    ...(judged.families.length === 0 ? [] : [element("details", "", element("summary", "", "What each family of sources prints"), element("ul", "",
      ...judged.families.map((family) => element("li", "", ...separated(family.printed.map(printed)), family.counts ? null : " – does not count"))))]),
  );
}
