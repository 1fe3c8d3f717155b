/* The theme opens its menu and search on a narrow screen by labels, which no key reaches and nothing names: here they become buttons. */

// A button in the place of the label, with its picture.
function asButton(label, name, toggle) {
  const button = label.ownerDocument.createElement("button");
  button.type = "button";
  button.className = `${label.className} header-${name.toLowerCase()}`;
  button.setAttribute("aria-label", name);
  button.append(...label.childNodes);
  const told = () => button.setAttribute("aria-expanded", String(toggle.checked));
  told();
  toggle.addEventListener("change", told);
  button.addEventListener("click", () => toggle.click());
  label.replaceWith(button);
  return button;
}

/** Menu and search: reached and opened by keys; the menu is closed by Escape and when the focus leaves it. */
export function mountMenu(document) {
  const of = (name) => [document.querySelector(`label.md-header__button[for=${name}]`), document.getElementById(name)];
  const [searchLabel, searchToggle] = of("__search");
  if (searchLabel && searchToggle) {
    const search = asButton(searchLabel, "Search", searchToggle);
    searchToggle.addEventListener("change", () => {
      if (!search.checkVisibility()) return; // where it is wide the field itself is there
      if (searchToggle.checked) document.querySelector("input.md-search__input")?.focus();
      else search.focus();
    });
  }
  const [menuLabel, toggle] = of("__drawer");
  const drawer = document.querySelector(".md-sidebar--primary");
  if (!menuLabel || !toggle || !drawer) return;
  const menu = asButton(menuLabel, "Menu", toggle);
  const close = () => {
    if (toggle.checked) toggle.click();
  };
  toggle.addEventListener("change", () => {
    if (toggle.checked) drawer.querySelector("a.md-nav__link")?.focus();
    else if (menu.checkVisibility()) menu.focus();
  });
  document.addEventListener("keydown", (event) => event.key === "Escape" && close());
  drawer.addEventListener("focusout", (event) => {
    if (event.relatedTarget !== null && !drawer.contains(event.relatedTarget)) close();
  });
}
