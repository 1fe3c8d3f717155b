// What the lots are judged against: crops by name, the lending line, rules of the trade, published tables.
// Twin of build_tools/lots/catalogue.py; the data is what its `data_of` gives, as JSON.

const MOST_SUGGESTIONS = 6;
// Whitespace as the Python twin has it too; the two languages' own ideas of it differ.
export const WHITE = /[ \t\n\r\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000]+/g;
const PUNCTUATION = /[,;:/()]/g;
const ACCENTS = /[\u0300-\u036f]/g;

/** A name for comparing: small letters, no accents, hyphens as spaces, single spaces. */
export function fold(text) {
  const plain = text.toLowerCase().normalize("NFD").replace(ACCENTS, "")
    .replaceAll("’", "'").replaceAll("-", " ");
  return trimSpaces(plain.replace(WHITE, " "));
}

/** Without spaces (and nothing but spaces) at the ends. */
export function trimSpaces(text) {
  return text.replace(/^ +/, "").replace(/([^ ]) +$/, "$1");
}

function cut(text, ending, instead = "") {
  return text.endsWith(ending) ? text.slice(0, text.length - ending.length) + instead : text;
}

/** Times by which a store lengthens the published life of seed; 1 where it is not known. */
export function storeFactor(storage, practice) {
  return { "cold-dry": practice.cold_store_life_factor, warm: practice.warm_store_life_factor }[storage] ?? 1;
}

/** Everything outside the file that a judgement needs, from plain data. */
export class Catalogue {
  constructor(data) {
    this.data = data;
    this.practice = data.practice;
    this.crops = new Map(Object.entries(data.crops)
      .map(([id, crop]) => [id, { id, name: crop.name, lifeYears: crop.seed_life_years }]));
    this.names = new Map();
    const add = (name, id) => {
      if (!this.names.has(fold(name))) this.names.set(fold(name), id);
    };
    // A crop's own name comes before another crop's second name.
    for (const [id, crop] of Object.entries(data.crops)) [crop.name, id].forEach((name) => add(name, id));
    for (const [id, crop] of Object.entries(data.crops)) crop.names.forEach((name) => add(name, id));
  }

  /** Id of the crop of that name or id, or null; case, accents, hyphens and a plural s are ignored, and "Bean, snap" is snap bean. */
  find(text) {
    const wanted = fold(text);
    const comma = wanted.indexOf(", ");
    const names = comma < 0 ? [wanted] : [wanted, `${wanted.slice(comma + 2)} ${wanted.slice(0, comma)}`];
    for (const name of names) {
      const forms = [name, cut(name, "s"), cut(name, "es"), cut(name, "ies", "y"), `${name}s`];
      for (const form of forms) if (this.names.has(form)) return this.names.get(form);
    }
    return null;
  }

  /** Shown names of the crops that may be meant, nearest first; empty when nothing is near. */
  suggest(text) {
    const wanted = fold(text.replace(PUNCTUATION, " "));
    if (wanted === "" || [...wanted].length > 60) return [];
    const forms = [` ${wanted} `, ` ${cut(wanted, "s")} `];
    const holds = (name) => forms.some((form) => ` ${name} `.includes(form));
    const holding = new Set([...this.names].filter(([name]) => holds(name)).map(([, id]) => id));
    if (holding.size > 0) {
      // Those with the word in their first name before those that have it in another.
      const crops = [...this.crops.values()].filter((crop) => holding.has(crop.id)).map((crop) => crop.name);
      const first = crops.filter((name) => holds(fold(name)));
      return [...first, ...crops.filter((name) => !first.includes(name))].slice(0, MOST_SUGGESTIONS);
    }
    let near = null;
    for (const name of this.names.keys()) {
      if (` ${wanted} `.includes(` ${name} `) && name.length > (near ?? "").length) near = name;
    }
    near ??= nearest(wanted, [...this.names.keys()]);
    return near === null ? [] : [this.crops.get(this.names.get(near)).name];
  }
}

/** The name with the fewest changed letters, if no more than a third of the letters; the first of equals. */
export function nearest(wanted, names) {
  const letters = [...wanted];
  let best = null;
  let fewest = Math.max(1, Math.floor(letters.length / 3)) + 1;
  for (const name of names) {
    const others = [...name];
    if (Math.abs(others.length - letters.length) < fewest) {
      const changes = changed(letters, others, fewest);
      if (changes < fewest) {
        best = name;
        fewest = changes;
      }
    }
  }
  return best;
}

// Letters to add, drop or replace to make b of a (Levenshtein 1966), or `limit` when not fewer.
function changed(a, b, limit) {
  const row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i += 1) {
    let above = row[0];
    row[0] = i;
    for (let j = 1; j <= b.length; j += 1) {
      const next = Math.min(row[j] + 1, row[j - 1] + 1, above + (a[i - 1] === b[j - 1] ? 0 : 1));
      above = row[j];
      row[j] = next;
    }
    if (Math.min(...row) >= limit) return limit;
  }
  return row[b.length];
}
