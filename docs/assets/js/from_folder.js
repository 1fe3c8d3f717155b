// Opened from a folder (file:), such as a stick: an address that ends in “/” would show a list of files, and browsers start no workers.

/** A worker's stand-in: its script runs in a hidden frame of the page, so long work holds the page up. */
class FrameWorker extends EventTarget {
  #frame = document.createElement("iframe");
  #waiting = []; // messages from before the script had run

  constructor(address) {
    super();
    this.#frame.hidden = true;
    document.body.append(this.#frame);
    const inside = this.#frame.contentWindow;
    inside.postMessage = (data) => { window.setTimeout(() => this.dispatchEvent(new MessageEvent("message", { data }))); };
    const script = inside.document.createElement("script");
    script.src = address;
    script.addEventListener("load", () => {
      const waited = this.#waiting;
      this.#waiting = null;
      for (const data of waited) this.postMessage(data);
    });
    script.addEventListener("error", () => this.dispatchEvent(new Event("error", { cancelable: true })));
    inside.document.head.append(script);
  }

  postMessage(data) {
    if (this.#waiting !== null) this.#waiting.push(data);
    else window.setTimeout(() => this.#frame.contentWindow?.dispatchEvent(new MessageEvent("message", { data })));
  }

  terminate() {
    this.#frame.remove();
  }
}

/** The page at an address, as a browser opens it: from a folder, by its file's name. */
export function pageAddress(address) {
  const url = new URL(address, window.location.href);
  if (url.protocol === "file:" && url.pathname.endsWith("/")) url.pathname += "index.html";
  return url.href;
}

function nameThePage({ target }) {
  const link = target instanceof Element ? target.closest("a[href]") : null;
  if (link?.protocol === "file:") link.href = pageAddress(link.href);
}

/** Make links and workers work from a folder; nothing is changed on a site that is served. */
export function mountFromFolder(window) {
  if (window.location.protocol !== "file:") return;
  window.Worker = FrameWorker;
  for (const kind of ["pointerdown", "click", "auxclick", "contextmenu"]) window.document.addEventListener(kind, nameThePage, true);
}
