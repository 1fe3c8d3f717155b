// Keeps the reference on the device and answers from there; works with or without a network. Written by build_tools/offline.py.
// A version is taken over only when every file of it has arrived whole: its SHA-256 is compared. Until then, the old one stays.

const VERSION = "@VERSION@";
const FILES = "@FILES@"; // path from the site's top → SHA-256
const PREFIX = "germination-reference ";
const KEPT = `${PREFIX}${VERSION}`;
const ASKED = `${PREFIX}asked for ${VERSION}`; // posters and other files, kept once somebody has asked for them
const TOP = new URL("./", self.location.href);
const AT_ONCE = 6;

const addressOf = (path) => new URL(path.split("/").map(encodeURIComponent).join("/"), TOP).href;

async function sha256(bytes) {
  const digest = await crypto.subtle.digest("SHA-256", bytes);
  return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

// A file as an earlier version has it, when it is the same there: only what differs is fetched.
async function fromEarlier(earlier, path, wanted) {
  for (const cache of earlier) {
    const answer = await cache.match(addressOf(path));
    if (answer && answer.headers.get("x-sha256") === wanted && (await sha256(await answer.clone().arrayBuffer())) === wanted) return answer;
  }
  return null;
}

async function fetched(path, wanted) {
  const answer = await fetch(addressOf(path), { cache: "no-cache" });
  if (!answer.ok) throw new Error(`${path}: the site answers ${answer.status}`);
  const bytes = await answer.arrayBuffer();
  if ((await sha256(bytes)) !== wanted) throw new Error(`${path} did not arrive as it was published`);
  const headers = { "content-type": answer.headers.get("content-type") ?? "application/octet-stream", "x-sha256": wanted };
  return new Response(bytes, { headers });
}

async function keepAll() {
  const names = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== KEPT && name !== ASKED);
  const earlier = await Promise.all(names.map((name) => caches.open(name)));
  const cache = await caches.open(KEPT);
  const waiting = Object.entries(FILES);
  const one = async () => {
    for (let next = waiting.shift(); next !== undefined; next = waiting.shift()) {
      const [path, wanted] = next;
      await cache.put(addressOf(path), (await fromEarlier(earlier, path, wanted)) ?? (await fetched(path, wanted)));
    }
  };
  try {
    await Promise.all(Array.from({ length: AT_ONCE }, one));
  } catch (error) {
    waiting.length = 0;
    await caches.delete(KEPT); // half a version is none
    throw error;
  }
}

async function dropEarlier() {
  for (const name of await caches.keys()) if (name.startsWith(PREFIX) && name !== KEPT && name !== ASKED) await caches.delete(name);
}

self.addEventListener("install", (event) => event.waitUntil(keepAll()));
self.addEventListener("activate", (event) => event.waitUntil(dropEarlier().then(() => self.clients.claim())));
self.addEventListener("message", (event) => { if (event.data === "use-it") self.skipWaiting(); });

// The path of a kept file that answers an address, or null.
function keptPath(url) {
  const path = decodeURIComponent(url.pathname.slice(TOP.pathname.length));
  for (const name of path === "" || path.endsWith("/") ? [`${path}index.html`] : [path, `${path}/index.html`]) if (Object.hasOwn(FILES, name)) return name;
  return null;
}

async function answerKept(name, request) {
  const answer = await (await caches.open(KEPT)).match(addressOf(name));
  return answer ?? fetch(request); // somebody has emptied the store
}

async function answerOther(request) {
  try {
    const answer = await fetch(request);
    if (answer.status === 200 && request.method === "GET") {
      const copy = answer.clone();
      caches.open(ASKED).then((cache) => cache.put(request.url.split("#")[0], copy)).catch(() => {}); // no room is no reason to fail
    }
    return answer;
  } catch (error) {
    const asked = await (await caches.open(ASKED)).match(request.url.split("#")[0]);
    if (asked) return asked;
    if (request.mode !== "navigate") throw error;
    const page = await (await caches.open(KEPT)).match(addressOf("404.html"));
    return page ? new Response(page.body, { status: 404, headers: page.headers }) : Response.error();
  }
}

self.addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== "GET" || url.origin !== TOP.origin || !url.pathname.startsWith(TOP.pathname)) return;
  let name;
  try {
    name = keptPath(url);
  } catch { // an address that is no text
    return;
  }
  if (name !== null && name.endsWith("/index.html") && !/(\/|\.html)$/.test(url.pathname)) { // relative links want the address whole
    event.respondWith(Response.redirect(`${url.origin}${url.pathname}/${url.search}`, 301));
    return;
  }
  event.respondWith(name === null ? answerOther(event.request) : answerKept(name, event.request));
});
