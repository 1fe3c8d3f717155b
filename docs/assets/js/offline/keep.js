// Registers the script that keeps the reference on the device (build_tools/offline_worker.js), and offers a newer edition when one has arrived whole.

/** The top of the site, from the page's link to its manifest; null on a site that is being edited, or opened from a folder. */
export function siteTop(document) {
  const link = document.querySelector('link[rel="manifest"]');
  return link && document.location.protocol !== "file:" ? new URL(".", link.href).href : null;
}

/** The registration of this site's worker, null where there is none. */
export async function registration(window) {
  const top = siteTop(window.document);
  const found = top && window.navigator.serviceWorker ? await window.navigator.serviceWorker.getRegistration(top) : null;
  return found?.scope === top ? found : null;
}

/** Have the reference kept, from now on. Resolves with the registration; throws when the browser or the site refuses. */
export function keep(window) {
  return window.navigator.serviceWorker.register(`${siteTop(window.document)}worker.js`, { updateViaCache: "none" });
}

function offer(window, waiting) {
  if (window.document.getElementById("newer-edition")) return;
  const bar = window.document.createElement("p");
  bar.id = "newer-edition";
  bar.setAttribute("role", "status");
  const button = window.document.createElement("button");
  button.type = "button";
  button.textContent = "Show it";
  button.addEventListener("click", () => {
    window.navigator.serviceWorker.addEventListener("controllerchange", () => window.location.reload(), { once: true }); // here alone: other windows may hold what is being typed
    waiting.postMessage("use-it");
  });
  window.document.body.append(bar);
  bar.append("A newer edition of these pages has arrived. ", button);
}

function watch(window, kept) {
  const offerWaiting = () => { if (kept.waiting && kept.active) offer(window, kept.waiting); };
  const follow = (worker) => worker?.addEventListener("statechange", offerWaiting);
  follow(kept.installing);
  kept.addEventListener("updatefound", () => follow(kept.installing));
  offerWaiting();
}

/** On every page: keep the reference once the page is there. A reader who asks to save data is left to ask for it on the page “Without a network”. */
export function mountKeeping(window) {
  const workers = window.navigator.serviceWorker;
  if (!workers || window.location.protocol === "file:") return;
  if (siteTop(window.document) === null) { // being edited: a worker of an earlier site at this address would go on showing that one
    workers.getRegistrations().then((all) => all.filter(({ active, scope }) => active?.scriptURL === `${scope}worker.js` && window.location.href.startsWith(scope)).forEach((one) => one.unregister()));
    return;
  }
  const start = async () => {
    const known = await registration(window);
    if (known === null && window.navigator.connection?.saveData) return;
    watch(window, await keep(window));
  };
  const startQuietly = () => start().catch(() => {}); // storage is off or full: the site works as before
  if (window.document.readyState === "complete") startQuietly();
  else window.addEventListener("load", startQuietly);
}
