/* The find box of the home page and the filter of the crop index. */

export const plain = (text) => text.toLowerCase().normalize("NFD").replace(/[\u0300-\u036f]/g, "").replace(/[’']/g, "'").trim();
/** Every part of what is wanted stands in the words; a plural also finds the singular. */
export function matches(words, wanted) {
  const found = (part) => [part, part.replace(/s$/, ""), part.replace(/es$/, ""), part.replace(/ies$/, "y")].some((form) => form && words.includes(form));
  return plain(wanted).split(/\s+/).every((part) => part === "" || found(part));
}

/** Home: hide the names that do not match; Enter opens the only or first match. */
export function mountFind(document) {
  const form = document.querySelector("form.find");
  if (!form) return;
  form.hidden = false;
  const input = form.querySelector("input");
  const count = form.querySelector(".find-count");
  const items = [...document.querySelectorAll("li[data-words]")];
  items.forEach((item) => { item.dataset.plain = plain(item.dataset.words); });
  const update = () => {
    let shown = 0;
    for (const item of items) {
      item.hidden = !matches(item.dataset.plain, input.value);
      shown += !item.hidden;
    }
    for (const section of document.querySelectorAll(".crop-list")) section.hidden = !section.querySelector("li:not([hidden])");
    count.textContent = input.value.trim() ? (shown ? `${shown} of ${items.length} crops` : `No crop of that name here. Try another name, or part of one.`) : "";
  };
  input.addEventListener("input", update);
  document.defaultView.addEventListener("pageshow", update);
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const first = items.find((item) => !item.hidden);
    if (first && input.value.trim()) first.querySelector("a").click();
  });
  update();
}

/** Crop index: rows by name, kind, season and the warmth at hand. */
export function mountIndexFilter(document) {
  const form = document.querySelector("form.filter");
  if (!form) return;
  form.hidden = false;
  const field = (id) => form.querySelector(`#filter-${id}`);
  const rows = [...document.querySelectorAll("table.index tbody tr")];
  rows.forEach((row) => { row.dataset.plain = plain(row.dataset.words); });
  const update = () => {
    const typed = field("warmth").value;
    const warmth = typed === "" ? null : field("unit").value === "f" ? (Number(typed) - 32) / 1.8 : Number(typed);
    const fits = (row) => {
      if (warmth === null) return true;
      if (row.dataset.low === "") return false;
      return warmth >= Number(row.dataset.low) - 0.3 && (row.dataset.high === "" || warmth <= Number(row.dataset.high) + 0.3);
    };
    let shown = 0;
    for (const row of rows) {
      row.hidden = !(matches(row.dataset.plain, field("text").value) && (!field("kind").value || row.dataset.kind === field("kind").value) && (!field("season").value || row.dataset.season === field("season").value) && fits(row));
      shown += !row.hidden;
    }
    let words = shown ? `${shown} of ${rows.length} crops` : "No crop fits. Try part of a name, or fewer conditions";
    if (field("warmth").validity.badInput) words = "That is not a number; all temperatures are shown.";
    else if (warmth !== null && (warmth < -5 || warmth > 45)) words += `. ${typed} °${field("unit").value.toUpperCase()} is hardly a soil temperature: is the unit right?`;
    form.querySelector(".filter-count").textContent = words;
  };
  form.addEventListener("input", update);
  form.addEventListener("submit", (event) => event.preventDefault());
  document.defaultView.addEventListener("pageshow", update); // going back brings the typed words with it
  update();
}
