// Files dropped on a page: on their target they are taken, beside it they do not take the place of the page.

const carriesFile = (event) => [...event.dataTransfer.types].includes("Files");

/** `taken(files)` hears of what was dropped on `target`. */
export function mountDrop(target, taken) {
  for (const kind of ["dragover", "drop"]) {
    window.addEventListener(kind, (event) => {
      if (carriesFile(event)) event.preventDefault();
    });
  }
  target.addEventListener("dragover", () => target.classList.add("over"));
  target.addEventListener("dragleave", () => target.classList.remove("over"));
  target.addEventListener("drop", (event) => {
    target.classList.remove("over");
    taken(event.dataTransfer.files);
  });
}
