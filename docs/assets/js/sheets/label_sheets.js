// Sheets of labels, by their measures. Twin of build_tools/render/sheets/label_sheets.py; the listed ones come with the page.

const [LEAST_WIDTH, LEAST_HEIGHT] = [30, 15];
const EDGE = 5;
const INSIDE = 2.2;

/** Upper left corner of a label of the sheet, row by row. */
export function place(sheet, index) {
  const [row, column] = [Math.floor(index / sheet.columns), index % sheet.columns];
  return [sheet.left + column * (sheet.width + sheet.gap_x), sheet.top + row * (sheet.height + sheet.gap_y)];
}

/** mm kept free inside each label: [left and right, above and below]. */
export const inside = (sheet) => [Math.max(INSIDE, EDGE - sheet.left), Math.max(INSIDE, EDGE - sheet.top)];

/** Why the labels can't be printed on their paper of `sides` mm; "" when they can. */
export function doesNotFit(sheet, sides) {
  const short = (value) => String(Number(value.toFixed(2)));
  if (sheet.width < LEAST_WIDTH || sheet.height < LEAST_HEIGHT) return `A label of ${short(sheet.width)} × ${short(sheet.height)} mm is too small for a name and a percentage with its range: ${LEAST_WIDTH} × ${LEAST_HEIGHT} mm is the least.`;
  for (const [words, needed, there] of [
    ["across", sheet.left + sheet.columns * sheet.width + (sheet.columns - 1) * sheet.gap_x, sides[0]],
    ["down", sheet.top + sheet.rows * sheet.height + (sheet.rows - 1) * sheet.gap_y, sides[1]],
  ]) {
    if (needed > there + 0.05) return `The labels need ${needed.toFixed(1)} mm ${words}, ${(needed - there).toFixed(1)} mm more than ${sheet.paper} has. Check the measures.`;
  }
  return "";
}
