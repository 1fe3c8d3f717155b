// Tests that another page of this site leaves for the page of labels: in this tab only, and taken once.

const NAME = "labels-tests";

/** Leave a text; throws when the browser has no room for it. */
export const handOver = (text) => sessionStorage.setItem(NAME, text);

/** What was left, null when nothing was or storage is off. */
export function takeOver() {
  try {
    const handed = sessionStorage.getItem(NAME);
    sessionStorage.removeItem(NAME);
    return handed;
  } catch {
    return null;
  }
}
