/* °C, °F or both: one switch in the header, remembered on this device. */
const KEY = "unit";
const CHOICES = [["both", "both"], ["c", "°C"], ["f", "°F"]];

/** The remembered choice, "both" when there is none or storage is off. */
export function rememberedUnit() {
  try {
    const unit = localStorage.getItem(KEY);
    return CHOICES.some(([value]) => value === unit) ? unit : "both";
  } catch {
    return "both";
  }
}

function remember(unit) {
  try {
    localStorage.setItem(KEY, unit);
  } catch {
    /* storage is off: the choice holds for this page only */
  }
}

/** Put the switch into the page's header; on a phone, where the header is full, above the page's heading. */
export function mountUnitSwitch(document) {
  document.documentElement.dataset.unit = rememberedUnit();
  const narrow = document.defaultView.matchMedia("(max-width: 45em)").matches;
  const place = (narrow && document.querySelector(".unit-place")) || document.querySelector(".md-header__inner");
  if (!place) return;
  const set = document.createElement("fieldset");
  set.className = "unit-switch";
  const legend = document.createElement("legend");
  legend.textContent = "Temperatures in";
  set.append(legend);
  for (const [value, text] of CHOICES) {
    const label = document.createElement("label");
    const input = document.createElement("input");
    input.type = "radio";
    input.name = "unit";
    input.value = value;
    input.checked = value === rememberedUnit();
    input.addEventListener("change", () => {
      document.documentElement.dataset.unit = value;
      remember(value);
    });
    label.append(input, text);
    set.append(label);
  }
  place.append(set);
}
