// The answer on the page: sentences, numbers, picture, and how it is worked out.

import { element, list, numbers, parts, pictureSlot, verdict } from "../element.js";
import { dateText } from "../../date_words.js";
import { chanceText, percentOfCount, percentRange, todayIso } from "../format.js";
import { replicatesText, sowingText, timingText, warmthText } from "./checks.js";
import { method } from "./method.js";
import { picture } from "./picture.js";
import {
  RETEST, canSay, cannotSay, countText, headline, lines, others, packetLine, trust,
} from "./words.js";

function rows(answer) {
  const { k, n, values, minimum, lending, sowing } = answer;
  const confidence = `${Math.round(values.confidence * 100)} %`;
  return [
    ["Counted", `${countText(k, n)}, ${percentOfCount(k, n)}`],
    [`Range, ${confidence} confidence (Wilson)`, percentRange(answer.wilson, n)],
    [`Guaranteed range, at least ${confidence} (Clopper–Pearson)`, percentRange(answer.guaranteed, n)],
    minimum && [`Chance of the official minimum, ${minimum.percent} %`, chanceText(minimum.chance)],
    lending && [`Chance of the lending line, ${lending.percent} %`, chanceText(lending.chance)],
    sowing && [`Seeds to sow for ${sowing.plants} ${sowing.plants === 1 ? "plant" : "plants"}`, sowing.seeds === null ? "can’t be said" : String(sowing.seeds)],
  ];
}

/** What mountCalculator shows of an answer; `level` is that of its headings. */
export function show(answer, data, level) {
  const line = packetLine(answer, dateText(answer.values.date ?? todayIso()));
  const sowing = sowingText(answer);
  return {
    title: `Germination test${answer.crop === null ? "" : `, ${answer.crop.name}`}`,
    headline: headline(answer),
    trust: trust(answer),
    line,
    rest: [
      verdict(timingText(answer), "Time", "Wait"),
      verdict(warmthText(answer), "Warmth", "Warmth"),
      ...others(answer).map((text) => element("p", "", text)),
      numbers(rows(answer)),
      pictureSlot((width) => picture(answer, width)),
      parts(level, [
        ["What this count can say", list(canSay(answer))],
        ["What it can’t say", list([...cannotSay(answer), RETEST])],
        ["Is the lot good enough?", list(lines(answer, data))],
        ["Do the replicates agree?", verdict(replicatesText(answer), "Yes", "No")],
        sowing && ["How many to sow", element("p", "sowing", sowing)],
      ]),
      element(`h${level}`, "answer-heading", "For the packet"),
      element("p", "packet-line", line),
      answer.values.example ? element("p", "field-hint", "These are the example figures: count your own before you write on a packet.") : null,
    ],
    workings: method(answer),
  };
}
