// What the address says is to be corrected. Anybody can write an address: what is odd is left out and said, never put into a link.

import { quoted } from "../words.js";

const UNSEEN = /[\x00-\x1f\x7f-\x9f\u00ad\u061c\u180e\u200b-\u200f\u2028-\u202f\u2060-\u2069\ufeff]/gu;
const WANTED = {
  crop: { most: 40, form: /^[a-z0-9]+(-[a-z0-9]+)*$/, is: "the id of a crop" },
  quantity: { most: 40, form: /^[a-z]+([_-][a-z]+)*$/, is: "the name of a value" },
  shown: { most: 300, form: null, is: "a short text" },
  source: { most: 300, form: null, is: "a short text" },
  file: { most: 150, form: /^data\/[a-z0-9/._-]+$/, is: "a file of the data" },
  line: { most: 6, form: /^[1-9][0-9]*$/, is: "the number of a line" },
};

// A path that stays inside data/: no empty step, none of dots alone.
const staysInside = (path) => path.split("/").every((step) => step !== "" && !/^\.+$/.test(step)) && !path.includes("..");

function fault(key, text) {
  const { most, form, is } = WANTED[key];
  if (text.length > most) return `is too long to be ${is}`;
  if (form !== null && !form.test(text)) return `is not ${is}`;
  if (key === "file" && !staysInside(text)) return `is not ${is}`;
  return null;
}

/** {given, odd}: the usable parts of an address' search, "" where there is none; a sentence for each that is not usable. */
export function readParameters(search) {
  const parameters = new URLSearchParams(search);
  const given = {};
  const odd = [];
  for (const key of Object.keys(WANTED)) {
    const texts = parameters.getAll(key);
    const text = (texts[0] ?? "").trim();
    given[key] = "";
    if (text === "") continue;
    const wrong = texts.length > 1 ? "is given more than once" : fault(key, text);
    if (wrong === null) given[key] = text.replace(UNSEEN, " ").trim();
    else odd.push(`The address of this page says ${key} ${quoted(text)}, which ${wrong}. It is left out.`);
  }
  if ((given.file === "") !== (given.line === "")) given.line = "";
  return { given, odd };
}
