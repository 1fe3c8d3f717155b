// The ways a correction can take: the line of the file, the form, the e-mail. Addresses and text only; nothing here touches the page.

const LONGEST_MAIL = 1900; // characters of an address that every mail program opens

/** The exact line of the data file at the repository host; null without a host or a line. */
export function lineAddress(site, given) {
  if (site.repository === "" || given.file === "" || given.line === "") return null;
  return `${site.repository}/${site.edit_path}${given.file}#L${given.line}`;
}

// What the form calls it: a value by its name, a file by its kind.
function nameInForm(site, given) {
  return site.quantities[given.quantity] ?? site.quantities[{ treatments: "treatment", sources: "source" }[given.file.split("/")[1]]] ?? "";
}

/** The form at the repository host, filled in; null when there is none. */
export function formAddress(site, given, typed) {
  if (site.repository === "" || site.form_path === "") return null;
  const fields = {
    crop: given.crop,
    quantity: nameInForm(site, given),
    shown: given.shown,
    should_be: typed.should_be,
    source: [typed.printed, typed.reason].filter((text) => text !== "").join("\n"),
    file: given.file === "" ? "" : `${given.file}, line ${given.line}`,
  };
  const filled = Object.entries(fields).filter(([, text]) => text !== "").map(([key, text]) => `${key}=${encodeURIComponent(text)}`);
  const start = `${site.repository}/${site.form_path}`;
  return filled.length === 0 ? start : `${start}${start.includes("?") ? "&" : "?"}${filled.join("&")}`;
}

/** {subject, text}: the message in plain words, ready to be sent by any means. */
export function message(site, given, typed) {
  const quantity = site.quantities[given.quantity] ?? given.quantity;
  const about = [typed.crop_name || given.crop, quantity].filter((part) => part !== "").join(", ");
  const lines = [
    ["Crop", typed.crop_name && given.crop ? `${typed.crop_name} (${given.crop})` : given.crop],
    ["Value", quantity],
    ["Shown now", given.shown],
    ["Sources named now", given.source],
    ["It should be", typed.should_be],
    ["Compared with what is printed", typed.verdict],
    ["Why it is right all the same", typed.reason],
    ["Printed in, or known from", typed.printed],
    ["File", given.file === "" ? "" : `${given.file}, line ${given.line}`],
    ["Data version", site.data_version],
    ["Name to thank", typed.name],
  ];
  const said = lines.filter(([, text]) => text !== "").map(([name, text]) => `${name}: ${text}`);
  return { subject: `Correction${about === "" ? "" : `: ${about}`}`, text: [...said, "", `What I send may be published with the data under ${site.licence}.`].join("\n") };
}

/** {href, whole}: the address that opens a prepared e-mail; `whole` is false where the text is too long for one. */
export function mailAddress(site, { subject, text }) {
  const start = `mailto:${encodeURIComponent(site.email).replace("%40", "@")}?subject=${encodeURIComponent(subject)}`;
  const href = `${start}&body=${encodeURIComponent(text.replaceAll("\n", "\r\n"))}`;
  return href.length <= LONGEST_MAIL ? { href, whole: true } : { href: start, whole: false };
}
