// Modules as functions (exported, use), one of them exchangeable, and the cases that each must give. See twins_half.py.
const factories = {}, base = {}, cases = {};
let made = base;
const link = (names, changed) => {
  made = { ...base };
  for (const name of names) {
    const exported = {};
    (changed && name === names[0] ? changed : factories[name])(exported, (used) => made[used]);
    made[name] = exported;
  }
};
const start = (name, factory) => {
  factories[name] = factory;
  link([name]);
  Object.assign(base, made);
};
const keep = (name, text) => { cases[name] = JSON.parse(text); };
// The first case that fails, or nothing; of the rows `most` at most, from all over the list.
const check = (name, most) => {
  const { rows, refused, constants, tables } = cases[name];
  const twin = made[name];
  for (const [constant, value] of Object.entries(constants)) if (constant in twin && twin[constant] !== value) return constant;
  for (const [use, given, says] of refused) {
    let said = "";
    try { twin[use](...given); } catch (error) { said = error instanceof RangeError ? error.message : ""; }
    if (said === "" || !said.includes(says)) return `${use}(${JSON.stringify(given)}) not refused: ${said}`;
  }
  const step = Math.max(1, rows.length / most);
  for (let at = 0; at < rows.length; at += step) {
    const [use, given, want, tolerance] = rows[Math.floor(at)];
    const got = twin[use](...given.map((v) => (typeof v === "string" && v in tables ? tables[v] : v)));
    if (!(apart(got, want) <= tolerance)) return `${use}(${JSON.stringify(given)}) gave ${JSON.stringify(got)}`;
  }
  return "";
};
