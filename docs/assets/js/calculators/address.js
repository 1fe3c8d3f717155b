// An entry kept in the address fragment, "#count=1&r=10,8&day=7": it works without a server,
// never leaves the device by itself, and cannot be taken for a heading because of its "=".

const LONGEST = 200; // of one field; a longer one is no slip of the finger
const LONGEST_LINES = 20000; // of a field of many lines; more makes addresses that programs cut

// Also what encodeURIComponent leaves, since brackets at the end of a link get lost in messages.
function encode(text) {
  return encodeURIComponent(text)
    .replace(/[!'()*~]/g, (c) => `%${c.charCodeAt(0).toString(16).toUpperCase()}`);
}

function decode(text, most = LONGEST) {
  try {
    return decodeURIComponent(text).slice(0, most);
  } catch {
    return text.slice(0, most); // a cut link: show what is there
  }
}

/**
 * The fragment of an entry, with its "#"; everything typed is in it, right or wrong.
 * `shape` is {name, fields, columns}: the calculator's name and those of its fields and columns. Lines too long
 * for an address are left out.
 */
export function toFragment(entry, { name, fields, columns }) {
  const parts = [`${name}=1`];
  if (entry.example) parts.push("example=1");
  for (const row of entry.rows) {
    parts.push(`r=${columns.map((column) => encode(row[column])).join(",").replace(/,+$/, "")}`);
  }
  for (const field of fields) {
    if (entry[field].length <= LONGEST_LINES) parts.push(`${field}=${encode(entry[field])}`);
  }
  return `#${parts.join("&")}`;
}

/** The entry of a fragment over the given one, `lines` naming the fields of many lines; null when the fragment is none of this calculator's. */
export function fromFragment(fragment, fallback, { name, fields, lines = [], columns, mostRows }) {
  const parts = fragment.replace(/^#/, "").split("&");
  if (parts[0] !== `${name}=1`) return null;
  const entry = { ...fallback, example: false, rows: [] };
  for (const part of parts.slice(1)) {
    const cut = part.indexOf("=");
    const key = part.slice(0, cut);
    const value = part.slice(cut + 1);
    if (key === "r" && entry.rows.length < mostRows) {
      const texts = value.split(",").map((text) => decode(text));
      entry.rows.push(Object.fromEntries(columns.map((column, i) => [column, texts[i] ?? ""])));
    } else if (key === "example") {
      entry.example = value === "1";
    } else if (fields.includes(key)) {
      entry[key] = decode(value, lines.includes(key) ? LONGEST_LINES : LONGEST);
    }
  }
  if (entry.rows.length === 0) entry.rows = fallback.rows;
  return entry;
}
