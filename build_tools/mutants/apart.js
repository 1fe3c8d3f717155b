// Worst absolute difference of two JSON-like values; Infinity where the kinds differ.
const apart = (a, b) => {
  if (typeof a === "number" && typeof b === "number") {
    const d = Math.abs(a - b);
    return Number.isNaN(d) ? Infinity : d;
  }
  if (a !== null && b !== null && typeof a === "object" && typeof b === "object") {
    const keys = Object.keys(a);
    if (keys.length !== Object.keys(b).length) return Infinity;
    return Math.max(0, ...keys.map((k) => (k in b ? apart(a[k], b[k]) : Infinity)));
  }
  return a === b ? 0 : Infinity;
};
