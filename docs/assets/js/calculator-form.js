// The form of the calculator: showing an entry, taking the typed texts back, marking messages.

import {
  COUNTS, MOST_REPLICATES, OPTIONAL_COUNTS, SINGLE_FIELDS, emptyReplicate,
} from "./calculator-entry.js";

/**
 * Binds the form element. `onChange(entry)` is called after every change by the reader.
 * Returns {show(entry), mark(messages), hint(field, text)}.
 */
export function bindForm(form, onChange) {
  const holder = form.querySelector(".replicates");
  const template = form.querySelector(".replicate-template");
  const addButton = form.querySelector(".add-replicate");
  const example = form.querySelector(".calculator-example");
  let fixedCrop = "";
  let current = null;

  const single = (name) => form.elements.namedItem(name);
  const groups = () => [...holder.querySelectorAll(".replicate")];
  const countInput = (group, name) => group.querySelector(`[data-count="${name}"] input`);

  function build(replicate, i) {
    const group = template.content.firstElementChild.cloneNode(true);
    for (const name of COUNTS) {
      const field = group.querySelector(`[data-count="${name}"]`);
      const input = field.querySelector("input");
      const message = field.querySelector(".field-message");
      input.value = replicate[name];
      input.dataset.name = name;
      input.id = `calculator-${i}-${name}`;
      message.id = `calculator-${i}-${name}-message`;
      field.querySelector("label").htmlFor = input.id;
      input.setAttribute("aria-describedby", message.id);
    }
    const other = group.querySelector(".other-counts");
    other.open = OPTIONAL_COUNTS.some((name) => replicate[name] !== "");
    group.querySelector("legend").textContent = `Replicate ${i + 1}`;
    const remove = group.querySelector(".remove-replicate");
    remove.textContent = `Remove replicate ${i + 1}`;
    remove.addEventListener("click", () => removeReplicate(i));
    return group;
  }

  function show(entry) {
    current = entry;
    fixedCrop = entry.crop;
    for (const name of SINGLE_FIELDS) {
      const element = single(name);
      if (!element) continue; // on a crop's own page there is no crop to choose
      const before = element.value;
      element.value = entry[name];
      if (element.tagName === "SELECT" && element.selectedIndex < 0) element.value = before;
    }
    holder.replaceChildren(...entry.replicates.map(build));
    settle();
  }

  // What depends on the number of replicates and on the example mark.
  function settle() {
    const count = groups().length;
    form.classList.toggle("single", count === 1);
    for (const button of holder.querySelectorAll(".remove-replicate")) button.hidden = count === 1;
    addButton.disabled = count >= MOST_REPLICATES;
    example.hidden = !current.example;
  }

  function take() {
    const entry = { example: current.example, replicates: groups().map((group) => (
      Object.fromEntries(COUNTS.map((name) => [name, countInput(group, name).value])))) };
    for (const name of SINGLE_FIELDS) entry[name] = single(name)?.value ?? fixedCrop;
    return entry;
  }

  function changed(event) {
    const entry = take();
    if (event?.target.dataset?.name) entry.example = false;
    current = entry;
    settle();
    onChange(entry);
  }

  function addReplicate() {
    const entry = take();
    entry.replicates.push(emptyReplicate(entry.replicates.at(-1).seeds));
    entry.example = false;
    show(entry);
    onChange(entry);
    const added = groups().at(-1);
    (countInput(added, "seeds").value === "" ? countInput(added, "seeds")
      : countInput(added, "normal")).focus();
  }

  function removeReplicate(i) {
    const entry = take();
    entry.replicates.splice(i, 1);
    entry.example = false;
    show(entry);
    onChange(entry);
    countInput(groups()[Math.min(i, groups().length - 1)], "seeds").focus();
  }

  /** Put each message beside its field; fields without one are cleared. */
  function mark(messages) {
    groups().forEach((group, i) => {
      for (const name of COUNTS) {
        const text = messages.get(`${i}.${name}`) ?? "";
        markField(group.querySelector(`[data-count="${name}"]`), text);
        if (text && OPTIONAL_COUNTS.includes(name)) group.querySelector(".other-counts").open = true;
      }
    });
    for (const field of form.querySelectorAll("[data-field]")) {
      if (!field.querySelector(".field-message")) continue;
      const text = messages.get(field.dataset.field) ?? "";
      markField(field, text);
      const folded = field.closest("details");
      if (text && folded) folded.open = true;
    }
  }

  function markField(field, text) {
    const input = field.querySelector("input");
    const message = field.querySelector(".field-message");
    if (message.textContent !== text) message.textContent = text;
    field.classList.toggle("wrong", text !== "");
    if (text) input.setAttribute("aria-invalid", "true");
    else input.removeAttribute("aria-invalid");
  }

  function hint(name, text) {
    form.querySelector(`[data-field="${name}"] .field-hint`).textContent = text;
  }

  form.addEventListener("input", changed);
  form.addEventListener("submit", (event) => event.preventDefault());
  addButton.addEventListener("click", addReplicate);
  return { show, mark, hint };
}
