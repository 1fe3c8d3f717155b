// The page “Without a network”: what is kept on this device, looking for a newer edition, and clearing.

import { element } from "../calculators/element.js";
import { keep, registration, siteTop } from "./keep.js";

const PREFIX = "germination-reference ";
const page = document.querySelector("article.offline-page");
const known = JSON.parse(document.getElementById("offline-data").textContent); // [{id, store, pattern}]
const part = (name) => page.querySelector(`.offline-${name}`);
const siteAddress = siteTop(document);

const storeOf = (name) => {
  try {
    return window[name];
  } catch {
    return null; // storage is off
  }
};

/** [{item, store, key, value}] of what this site has stored, as listed on the page. */
function storedNow() {
  const found = [];
  for (const name of ["localStorage", "sessionStorage"]) {
    const store = storeOf(name);
    for (let i = 0; i < (store?.length ?? 0); i += 1) {
      const key = store.key(i);
      const item = known.find((one) => one.store === name && new RegExp(one.pattern).test(key));
      if (item) found.push({ item, store, key, value: store.getItem(key) });
    }
  }
  return found;
}

/** What is stored, as a reader knows it; what is long is cut. */
function inWords({ item, value }) {
  if (item.id === "colours") return { "(prefers-color-scheme)": "as the device", "(prefers-color-scheme: light)": "light", "(prefers-color-scheme: dark)": "dark" }[JSON.parse(value).color?.media] ?? value;
  return value.length > 60 ? `${value.slice(0, 60)} …` : value;
}

async function cachesHere() {
  return "caches" in window && siteAddress !== null ? (await window.caches.keys()).filter((name) => name.startsWith(PREFIX)) : [];
}

async function keptHere() {
  let files = 0;
  for (const name of await cachesHere()) {
    const requests = await (await window.caches.open(name)).keys();
    files += requests.filter(({ url }) => url.startsWith(siteAddress)).length;
  }
  return files;
}

async function stateOfKeeping() {
  if (window.location.protocol === "file:") return ["These pages are opened from a folder: nothing more is needed to read them without a network.", false];
  if (siteAddress === null || !navigator.serviceWorker) return ["This browser, or this address, cannot keep the pages. Private windows often cannot; an address that begins with http: cannot either.", false];
  const now = await registration(window);
  const files = await keptHere();
  if (now?.active && files > 0) return [`The reference is kept on this device: ${files} files. It works without a network.`, true];
  if (now?.installing || now?.waiting) return [`The pages are being fetched: ${files} files so far.`, true];
  return ["The reference is not kept on this device.", false];
}

async function tellState() {
  const [words, kept] = await stateOfKeeping();
  if (part("state").textContent !== words) part("state").textContent = words;
  return kept;
}

async function showNow() {
  const kept = await tellState();
  const able = siteAddress !== null && Boolean(navigator.serviceWorker) && window.location.protocol !== "file:";
  part("keep").hidden = !able || kept;
  part("look").hidden = !able || !kept;
  const stored = storedNow();
  for (const row of page.querySelectorAll("li[data-item]")) {
    const mine = stored.filter(({ item }) => item.id === row.dataset.item);
    const files = row.dataset.item === "pages" ? await keptHere() : 0;
    const place = row.querySelector(".offline-now");
    const said = row.dataset.item === "pages" ? (files ? `${files} files` : "nothing") : mine.map(inWords).join("; ") || "nothing";
    place.replaceChildren(`Stored now: ${said}.`);
    if (mine.length || files) {
      const button = element("button", "offline-clear-one", "Clear");
      button.type = "button";
      button.setAttribute("aria-label", `Clear: ${row.querySelector("strong").textContent}`);
      button.addEventListener("click", () => act(() => clear(row.dataset.item), `Cleared: ${row.querySelector("strong").textContent.toLowerCase()}.`, row));
      place.append(" ", button);
    }
  }
}

// One after another: what was read before a change is never written after it.
let shown = Promise.resolve();
function show() {
  shown = shown.then(showNow, showNow);
  return shown;
}

async function clearPages() {
  await (await registration(window))?.unregister();
  for (const name of await cachesHere()) await window.caches.delete(name);
}

async function clear(id) {
  for (const { item, store, key } of storedNow()) if (id === null || item.id === id) store.removeItem(key);
  if (id === null || id === "pages") await clearPages();
}

async function act(task, words, row = null) {
  let outcome = words;
  try {
    await task();
  } catch (error) {
    outcome = `That did not work: ${error.message || error}. The browser's own settings for this site can clear everything as well.`;
  }
  await show();
  part("said").textContent = outcome;  // once the list says the same
  (row?.querySelector("button") ?? row)?.focus?.();
}

part("keep").addEventListener("click", () => act(async () => {
  const kept = await keep(window);
  const worker = kept.installing;
  worker?.addEventListener("statechange", show);
  if (worker) await new Promise((done, failed) => worker.addEventListener("statechange", () => (worker.state === "redundant" ? failed(new Error("not every file could be fetched, or the browser has no room")) : worker.state === "activated" && done())));
}, "The reference is kept on this device now."));
part("look").addEventListener("click", () => act(async () => (await registration(window)).update(), "Looked. A newer edition, if there is one, is being fetched and will be offered here."));
part("clear").addEventListener("click", () => act(() => clear(null), "Cleared: this site keeps nothing on this device now. Opening another of its pages keeps the reference again."));
part("static").hidden = true;
part("live").hidden = false;
show();
window.setInterval(() => { if (!document.hidden && part("keep").hidden && !part("look").hidden) tellState(); }, 2000);
