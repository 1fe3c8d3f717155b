// The entry kept in the address fragment, "#count=1&r=10,8&day=7": it works without a server,
// never leaves the device by itself, and cannot be taken for a heading because of its "=".

import { COUNTS, MOST_REPLICATES, SINGLE_FIELDS, emptyReplicate } from "./calculator-entry.js";

const START = "count=1";
const LONGEST = 200; // of one field; a longer one is no slip of the finger

// Also what encodeURIComponent leaves, since brackets at the end of a link get lost in messages.
function encode(text) {
  return encodeURIComponent(text)
    .replace(/[!'()*~]/g, (c) => `%${c.charCodeAt(0).toString(16).toUpperCase()}`);
}

function decode(text) {
  try {
    return decodeURIComponent(text).slice(0, LONGEST);
  } catch {
    return text.slice(0, LONGEST); // a cut link: show what is there
  }
}

/** The fragment of an entry, with its "#"; everything typed is in it, right or wrong. */
export function toFragment(entry) {
  const parts = [START];
  if (entry.example) parts.push("example=1");
  for (const replicate of entry.replicates) {
    parts.push(`r=${COUNTS.map((name) => encode(replicate[name])).join(",").replace(/,+$/, "")}`);
  }
  for (const name of SINGLE_FIELDS) parts.push(`${name}=${encode(entry[name])}`);
  return `#${parts.join("&")}`;
}

/** The entry of a fragment over the given one; null when the fragment is none of ours. */
export function fromFragment(fragment, fallback) {
  const parts = fragment.replace(/^#/, "").split("&");
  if (parts[0] !== START) return null;
  const entry = { ...fallback, example: false, replicates: [] };
  for (const part of parts.slice(1)) {
    const cut = part.indexOf("=");
    const name = part.slice(0, cut);
    const value = part.slice(cut + 1);
    if (name === "r" && entry.replicates.length < MOST_REPLICATES) {
      const texts = value.split(",").map(decode);
      const replicate = emptyReplicate();
      COUNTS.forEach((count, i) => { replicate[count] = texts[i] ?? ""; });
      entry.replicates.push(replicate);
    } else if (name === "example") {
      entry.example = value === "1";
    } else if (SINGLE_FIELDS.includes(name)) {
      entry[name] = decode(value);
    }
  }
  if (entry.replicates.length === 0) entry.replicates = fallback.replicates;
  return entry;
}
