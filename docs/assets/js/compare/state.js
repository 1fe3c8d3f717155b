// The choice of a page in the address fragment, "#compare=1&at=15&sort=minimum": it can be shared, and survives a reload.

const START = "compare=1";
const PAUSE = 250; // ms: browsers stop taking addresses that change with every move of a finger
let waiting = 0;

/** The choice that a fragment holds, null when it is none of ours. */
export function readState(hash) {
  const parts = hash.replace(/^#/, "").split("&");
  if (parts[0] !== START) return null;
  const found = {};
  for (const part of parts.slice(1)) {
    const [name, value = ""] = part.split("=");
    try {
      found[name] = decodeURIComponent(value).slice(0, 80);
    } catch {
      found[name] = ""; // a cut link
    }
  }
  return found;
}

/** The fragment of a choice; empty values are left out. */
export function fragmentOf(state) {
  const told = Object.entries(state).filter(([, value]) => value !== "" && value !== null && value !== undefined);
  return `#${[START, ...told.map(([name, value]) => `${name}=${encodeURIComponent(value)}`)].join("&")}`;
}

/** Put the choice into the address when the reader pauses. */
export function keepState(state) {
  window.clearTimeout(waiting);
  waiting = window.setTimeout(() => window.history.replaceState(null, "", fragmentOf(state)), PAUSE);
}
