// Showing drawn sheets a few marks at a time: letters are slow to lay out.

import { TYPEFACE } from "./draw.js";

const AT_A_TIME = 30; // marks

/** The sheets' typeface, asked for before anything is set in it: else all of it would be laid out twice. Without it, what there is will do. */
export function typefaceReady() {
  return Promise.all([400, 600].map((weight) => document.fonts.load(`${weight} 12px "${TYPEFACE}"`))).catch(() => []);
}

/** Steps that put `drawn`, sheets as drawPage() gives them, into `preview` in the place of what is there. */
export function* hangUp(preview, drawn) {
  const marks = drawn.map((sheet) => [...sheet.children]);
  for (const sheet of drawn) sheet.replaceChildren();
  preview.replaceChildren(...drawn);
  for (const [i, sheet] of drawn.entries()) {
    while (marks[i].length > 0) {
      sheet.append(...marks[i].splice(0, AT_A_TIME));
      yield;
    }
  }
}
