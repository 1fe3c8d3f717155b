/* The theme opens its menu and search on a narrow screen by labels, which no key reaches and nothing names: here they become buttons. */

function asButton(label, name, toggle) {
  label.setAttribute("role", "button");
  label.setAttribute("aria-label", name);
  label.tabIndex = 0;
  const told = () => label.setAttribute("aria-expanded", String(toggle.checked));
  told();
  toggle.addEventListener("change", told);
  label.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" && event.key !== " ") return;
    event.preventDefault();
    toggle.click();
  });
}

/** Menu and search: reached and opened by keys; the menu is closed by Escape and when the focus leaves it. */
export function mountMenu(document) {
  const of = (name) => [document.querySelector(`label.md-header__button[for=${name}]`), document.getElementById(name)];
  const [search, searchToggle] = of("__search");
  if (search && searchToggle) {
    asButton(search, "Search", searchToggle);
    searchToggle.addEventListener("change", () => {
      if (!search.checkVisibility()) return; // where it is wide the field itself is there
      if (searchToggle.checked) document.querySelector("input.md-search__input")?.focus();
      else search.focus();
    });
  }
  const [menu, toggle] = of("__drawer");
  const drawer = document.querySelector(".md-sidebar--primary");
  if (!menu || !toggle || !drawer) return;
  asButton(menu, "Menu", toggle);
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
