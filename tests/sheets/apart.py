"""How far two JSON-like values lie apart, for the browser: the worst difference of numbers, Infinity where they differ in kind."""

APART = """
  const apart = (a, b) => {
    if (typeof a === "number" && typeof b === "number") return Number.isNaN(a - b) ? Infinity : Math.abs(a - b);
    if (a !== null && b !== null && typeof a === "object" && typeof b === "object") {
      const keys = Object.keys(a);
      if (keys.length !== Object.keys(b).length) return Infinity;
      return Math.max(0, ...keys.map((key) => (key in b ? apart(a[key], b[key]) : Infinity)));
    }
    return a === b ? 0 : Infinity;
  };
"""
