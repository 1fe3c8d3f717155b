// What a calculator says to those who do not see it change.

import { element } from "./element.js";

const PAUSE = 800; // ms without a change before something is said: not at every key
const STAYS = 10000; // ms; afterwards nobody should find the sentence a second time when reading through the page

/**
 * A place after `output` that screen readers follow. Returns say(text): the text is told once the reader pauses; not the first one,
 * which the page opens with, nor one that was told last.
 */
export function announcer(output) {
  const place = element("p", "unseen calculator-status");
  place.setAttribute("role", "status");
  output.after(place);
  let told = null;
  let timer = 0;
  let clearing = 0;
  return (text) => {
    window.clearTimeout(timer);
    if (told === null) told = text;
    if (text === told) return;
    timer = window.setTimeout(() => {
      told = text;
      place.textContent = text;
      window.clearTimeout(clearing);
      clearing = window.setTimeout(() => place.replaceChildren(), STAYS);
    }, PAUSE);
  };
}
