// Rows in columns: how many columns, how high a row, how many pages. Twin of build_tools/render/sheets/columns.py.

import { MARGIN } from "./frame.js";

export const GAP = 12;
export const LEAST_ROW = 10.35;
export const NAME = 0.86;
const [EASY_ROW, MOST_ROW] = [13, 44];

/** {columns, width, rows, row, pages} of `count` rows in `height` mm. */
export function grid(sheet, count, height, mostColumns) {
  let columns = 1;
  while (columns < mostColumns && height / Math.ceil(count / columns) < EASY_ROW) columns += 1;
  let rows = Math.ceil(count / columns);
  let pages = 1;
  if (height / rows < LEAST_ROW) {
    const fitting = Math.floor(height / LEAST_ROW);
    pages = Math.ceil(count / (columns * fitting));
    rows = Math.ceil(count / (columns * pages));
  }
  const width = (sheet.width - 2 * MARGIN - GAP * (columns - 1)) / columns;
  return { columns, width, rows, row: Math.min(height / rows, MOST_ROW), pages };
}

/** [x, y] of a row on its page, filled column by column. */
export function place(cells, indexOnPage, top) {
  const column = Math.floor(indexOnPage / cells.rows);
  return [MARGIN + column * (cells.width + GAP), top + (indexOnPage % cells.rows) * cells.row];
}
