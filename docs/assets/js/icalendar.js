// A calendar file of all-day events (iCalendar, RFC 5545).
// Twin of build_tools/icalendar.py, where the rules are named.

import { addDays } from "./science/sowing_times.js";

export const PRODUCT = "-//Germination reference//Sowing calendar//EN";
const MOST_OCTETS = 75;
const UNWRITABLE = /[\x00-\x08\x0b-\x1f\x7f]/g; // control characters that a text may not hold
const LONE = /\p{Surrogate}/gu; // half a character: UTF-8 has no way to write it

/** A text value: backslash, semicolon, comma and line ends escaped; other control characters become spaces. */
export function escaped(text) {
  return text.replace(/\r\n?/g, "\n").replace(UNWRITABLE, " ").replace(LONE, "\ufffd")
    .replaceAll("\\", "\\\\").replaceAll(";", "\\;").replaceAll(",", "\\,").replaceAll("\n", "\\n");
}

/** A content line in pieces of at most 75 octets, each further one after CRLF and a space. */
export function folded(line) {
  const encoder = new TextEncoder();
  const pieces = [];
  let [piece, octets] = ["", 0];
  for (const letter of line) {
    const size = encoder.encode(letter).length;
    if (octets + size > MOST_OCTETS) {
      pieces.push(piece);
      [piece, octets] = ["", 1]; // the space counts
    }
    piece += letter;
    octets += size;
  }
  return [...pieces, piece].join("\r\n ");
}

/** A stable name for an event from the texts that make it what it is, in order. */
export function uid(parts) {
  const encoded = (text) => encodeURIComponent(text.replace(LONE, "\ufffd"))
    .replace(/[!'()*]/g, (c) => `%${c.charCodeAt(0).toString(16).toUpperCase()}`);
  return `${parts.map(encoded).join("/")}@germination-reference`;
}

/** The file of events {uid, first, last, summary, description, categories}; `stamp` is when it was made, in UTC. */
export function calendarText(events, stamp) {
  const digits = (day) => day.replaceAll("-", "");
  const lines = ["BEGIN:VCALENDAR", "VERSION:2.0", `PRODID:${PRODUCT}`, "CALSCALE:GREGORIAN"];
  for (const event of events) {
    lines.push(
      "BEGIN:VEVENT",
      `UID:${escaped(event.uid)}`,
      `DTSTAMP:${stamp}`,
      `DTSTART;VALUE=DATE:${digits(event.first)}`,
      `DTEND;VALUE=DATE:${digits(addDays(event.last, 1))}`,
      `SUMMARY:${escaped(event.summary)}`,
      `DESCRIPTION:${escaped(event.description)}`,
      `CATEGORIES:${event.categories.map(escaped).join(",")}`,
      "TRANSP:TRANSPARENT", // a window of weeks does not make its owner busy
      "END:VEVENT",
    );
  }
  return [...lines, "END:VCALENDAR"].map((line) => `${folded(line)}\r\n`).join("");
}

/** Now as a stamp: "20261101T000000Z". */
export function stampNow() {
  return `${new Date().toISOString().slice(0, 19).replace(/[-:]/g, "")}Z`;
}
