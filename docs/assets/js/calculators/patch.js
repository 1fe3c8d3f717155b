// An answer put in place of the one before: what is the same stays, so that a slow phone lays out only what changed, and folds a reader opened stay open.

import { atOnce } from "../steps.js";

/** Make the children of `place` say what `nodes` say. Nodes of the new answer are taken over where none of their kind stands. */
export function patch(place, nodes) {
  atOnce(patching(place, nodes));
}

/** The same in steps, one for each node. */
export function* patching(place, nodes) {
  const standing = [...place.childNodes];
  for (const [i, node] of nodes.entries()) {
    const old = standing[i];
    if (old === undefined) place.append(node);
    else if (old.nodeName !== node.nodeName) old.replaceWith(node);
    else if (old.nodeType === Node.ELEMENT_NODE) patchElement(old, node);
    else if (old.data !== node.data) old.data = node.data;
    yield;
  }
  for (const old of standing.slice(nodes.length)) old.remove();
}

function patchElement(old, made) {
  old.makePicture = made.makePicture;
  if (old.isEqualNode(made)) return;
  for (const name of old.getAttributeNames()) if (!made.hasAttribute(name) && name !== "open") old.removeAttribute(name);
  for (const name of made.getAttributeNames()) if (old.getAttribute(name) !== made.getAttribute(name)) old.setAttribute(name, made.getAttribute(name));
  patch(old, [...made.childNodes]);
}
