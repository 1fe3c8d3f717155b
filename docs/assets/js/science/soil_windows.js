// When the soil holds a temperature: windows in a year whose ends are ranges of days.
// Twin of build_tools/science/soil_windows.py, where every result is described.

/** For each day whether the year holds the threshold then, lasting spells alone counting; null where nothing is known. */
export function holding(year, threshold, holdDays, strict = false) {
  if (!(holdDays >= 1)) throw new RangeError("days to hold must be 1 or more");
  const n = year.length;
  const inside = year.map((value) => (value === null ? null : strict ? value > threshold : value >= threshold));
  const labels = year.map((value) => (value === null ? null : false));
  for (const [start, length] of stretches(inside)) {
    const runs = runsOf(Array.from({ length }, (_, i) => inside[(start + i) % n]));
    const lasting = runs.filter(([, size]) => size >= holdDays);
    if (lasting.length === 0) continue;
    // On a whole ring a short spell at the start goes on from the last lasting one; elsewhere from the first to come.
    let [state] = lasting[length === n ? lasting.length - 1 : 0];
    let at = start;
    for (const [value, size] of runs) {
      if (size >= holdDays) state = value;
      for (let i = 0; i < size; i += 1) {
        labels[at % n] = state;
        at += 1;
      }
    }
  }
  return labels;
}

// [start, length] of the parts of the ring that are known, some of no length; a whole ring starts where a spell begins.
function stretches(inside) {
  const n = inside.length;
  const unknown = [...inside.keys()].filter((i) => inside[i] === null);
  if (unknown.length === 0) {
    return [[Math.max(0, inside.findIndex((value, i) => value !== inside[(i + n - 1) % n])), n]];
  }
  return unknown.map((gap, i) => {
    const following = i + 1 < unknown.length ? unknown[i + 1] : unknown[0] + n;
    return [(gap + 1) % n, following - gap - 1];
  });
}

function runsOf(values) {
  const runs = [];
  for (const value of values) {
    if (runs.length > 0 && runs.at(-1)[0] === value) runs.at(-1)[1] += 1;
    else runs.push([value, 1]);
  }
  return runs;
}

/**
 * {state, why, sure, windows} of soil at least `low` and at most `high` °C (null: no such limit). `held`, a Map for this year, band and number of
 * days alone, keeps what was worked out: crops share their limits.
 */
export function windows(year, band, low, high, holdDays, shortDays, held = new Map()) {
  const n = year.length;
  const known = [...year.keys()].filter((i) => year[i] !== null);
  if (known.length === 0) return { state: "unknown", why: null, sure: false, windows: [] };
  const shifted = (name) => year.map((value, i) => (value === null ? null : value + band[name][i]));
  const once = (key, make) => (held.has(key) ? held : held.set(key, make())).get(key);
  const curves = once("curves", () => ({ best: year, cool: shifted("low"), warm: shifted("high") }));
  const each = (key, label) => once(key, () => Object.fromEntries(Object.entries(curves).map(([name, curve]) => [name, label(curve)])));
  const all = (value) => (curve) => curve.map((day) => (day === null ? null : value));
  const warmEnough = each(`from ${low}`, low === null ? all(true) : (curve) => holding(curve, low, holdDays));
  const tooHot = each(`above ${high}`, high === null ? all(false) : (curve) => holding(curve, high, holdDays, true));
  const fitting = (warm, hot) => year.map((value, i) => (value === null ? null : warmEnough[warm][i] && !tooHot[hot][i]));
  const [sure, possible] = [fitting("cool", "warm"), fitting("warm", "cool")];
  const fits = bridged(fitting("best", "best"), possible, shortDays);
  if (known.every((i) => fits[i])) return { state: "always", why: null, sure: known.every((i) => sure[i]), windows: [] };
  const found = pieces(fits, true).filter(([, length]) => length >= holdDays);
  if (found.length === 0) {
    const hot = known.some((i) => tooHot.best[i]);
    return { state: "never", why: hot ? "hot" : "cold", sure: !known.some((i) => possible[i]), windows: [] };
  }
  return { state: "windows", why: null, sure: false, windows: found.map(([start, length]) => ({
    ...windowAt(start, length, n, year, warmEnough, tooHot),
    brief: length <= shortDays && !Array.from({ length }, (_, i) => sure[(start + i) % n]).includes(true),
  })) };
}

// The labels without doubtful short breaks between windows.
function bridged(fits, possible, shortDays) {
  const n = fits.length;
  const labels = [...fits];
  const days = (start, length) => Array.from({ length }, (_, i) => (start + i) % n);
  for (const [start, length] of pieces(fits, false)) {
    const between = fits[(start + n - 1) % n] === true && fits[(start + length) % n] === true;
    if (length <= shortDays && between && days(start, length).every((i) => possible[i])) {
      for (const i of days(start, length)) labels[i] = true;
    }
  }
  return labels;
}

// [start, length] of the stretches with that label on the ring, by start; it is not the label all round.
function pieces(labels, wanted) {
  const n = labels.length;
  const starts = [...labels.keys()].filter((i) => labels[i] === wanted && labels[(i + n - 1) % n] !== wanted);
  return starts.map((start) => {
    let length = 1;
    while (labels[(start + length) % n] === wanted) length += 1;
    return [start, length];
  });
}

function windowAt(start, length, n, year, warmEnough, tooHot) {
  const end = (start + length - 1) % n;
  const [before, after] = [(start + n - 1) % n, (end + 1) % n];
  const shift = (day, by) => (day === null ? null : (day + by + n) % n);
  let [by, starts, until, ends] = ["edge", [start, start], "edge", [end, end]];
  if (year[before] !== null && !warmEnough.best[before]) {
    by = "warmed";
    starts = [reach(warmEnough.warm, start, -1), within(warmEnough.cool, start, length, 1)];
  } else if (year[before] !== null) {
    by = "cooled";
    starts = [shift(lasts(tooHot, before, -1), 1), shift(reach(tooHot.warm, before, 1), 1)];
  }
  if (year[after] !== null && !warmEnough.best[after]) {
    until = "cold";
    ends = [within(warmEnough.cool, end, length, -1), reach(warmEnough.warm, end, 1)];
  } else if (year[after] !== null) {
    until = "hot";
    ends = [shift(reach(tooHot.warm, after, -1), -1), shift(lasts(tooHot, after, 1), -1)];
  }
  return { start, starts, by, end, ends, until };
}

const stepped = (day, by, n) => (((day + by) % n) + n) % n;

// The last day, walking from `day`, up to which the label is true; null when it is so all round.
function reach(labels, day, step) {
  const n = labels.length;
  for (let i = 0; i < n; i += 1) {
    if (labels[stepped(day, step * (i + 1), n)] !== true) return stepped(day, step * i, n);
  }
  return null;
}

// The first of `length` days, walking from `day`, whose label is true; null when none is.
function within(labels, day, length, step) {
  const n = labels.length;
  for (let i = 0; i < length; i += 1) {
    if (labels[stepped(day, step * i, n)] === true) return stepped(day, step * i, n);
  }
  return null;
}

// Walking from `day` through the hot spell of the estimate: the first day too hot in a cool year as well; null when none is.
function lasts(tooHot, day, step) {
  const n = tooHot.best.length;
  for (let i = 0; i < n; i += 1) {
    const at = stepped(day, step * i, n);
    if (tooHot.best[at] !== true) return null;
    if (tooHot.cool[at] === true) return at;
  }
  return null;
}
