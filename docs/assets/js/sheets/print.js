// Printing sheets from the browser, each on a page of its own size with nothing else.

import { element } from "../calculators/element.js";

/** Print the SVG pages in `holder` on paper of `width` × `height` mm; they are moved, not copied, since hatchings go by id. */
export async function printPages(holder, width, height) {
  await document.fonts.ready;
  const box = element("div", "sheets-to-print", ...holder.querySelectorAll(".sheet-page"));
  const paper = new CSSStyleSheet();
  paper.replaceSync(`@page { size: ${width}mm ${height}mm; margin: 0; }`);
  const after = () => {
    window.removeEventListener("afterprint", after);
    document.adoptedStyleSheets = document.adoptedStyleSheets.filter((sheet) => sheet !== paper);
    document.documentElement.classList.remove("printing-sheets");
    holder.append(...box.childNodes);
    box.remove();
  };
  document.body.append(box);
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, paper];
  document.documentElement.classList.add("printing-sheets");
  window.addEventListener("afterprint", after);
  window.print();
}
