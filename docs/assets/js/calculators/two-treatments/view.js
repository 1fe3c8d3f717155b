// The answer in words, numbers and a picture.

import { grouped } from "../fields.js";
import { element, list, numbers, parts, pictureSlot } from "../element.js";
import { chanceText, percentOfCount, percentRange, pointsRange, signedPoints } from "../format.js";
import { PERCENT_TICKS, intervalsPicture, percentLabel } from "../pictures.js";
import { POWER } from "./answer.js";

const seen = (pot) => `${pot.name}: ${grouped(pot.k)} of ${grouped(pot.n)}, ${percentOfCount(pot.k, pot.n)} (${percentRange(pot.range, pot.n)})`;
const plainPoints = (fraction) => signedPoints(Math.abs(fraction)).replace("+", "");
const smallest = (answer) => Math.min(...answer.pots.map((pot) => pot.n));

function headline({ pots: [first, second], difference }) {
  const counts = `${grouped(first.k)} of ${grouped(first.n)} against ${grouped(second.k)} of ${grouped(second.n)}`;
  if (difference === 0) return `${first.name} and ${second.name} came up alike: ${counts}.`;
  return `${first.name} came up ${difference > 0 ? "better" : "worse"} than ${second.name} by ${plainPoints(difference)}: ${counts}.`;
}

/** What may be concluded: the sentence that the rest only explains. */
function trust(answer) {
  const { range: [low, high], pots: [first, second], values } = answer;
  const sure = `${Math.round(values.confidence * 100)} % confidence`;
  const span = `${pointsRange(low, high)} (${sure}, ${grouped(first.n)} and ${grouped(second.n)} seeds)`;
  if (low > 0 || high < 0) {
    return `That is more than chance: ${first.name} ${low > 0 ? "helps" : "harms"}, by ${span} against ${second.name}.`;
  }
  const few = smallest(answer) <= 25 ? ` ${smallest(answer) <= 12 ? "Ten seeds or so a pot prove nothing unless the difference is huge." : "So few seeds show only large differences."}` : "";
  return `It proves nothing: the true difference may be ${span}, so none at all, or the other way round.${few}`;
}

function fisherText({ chance }) {
  const start = `If the treatment made no difference, a result as far apart as this or further would come up in ${chanceText(chance)} of trials (Fisher’s exact test).`;
  return chance < 0.05 ? `${start} By custom less than 5 % counts as shown.` : `${start} By custom it takes less than 5 % to call it shown.`;
}

// The interval and the test can part company near the border; then say so.
function borderText({ range: [low, high], chance }) {
  const apart = low > 0 || high < 0;
  if (apart === (chance < 0.05)) return null;
  return "The range and the test fall on different sides of their lines here. That happens near the border: take it as undecided and repeat the trial.";
}

function trialText({ trial, values }) {
  const wanted = plainPoints(values.difference);
  if (trial === null) return `A difference of ${wanted} from the second treatment’s percentage can’t be: it would pass 0 or 100 %.`;
  const [base, other] = [trial.base, trial.other].map((share) => `${Math.round(share * 100)} %`);
  return `To see a difference of ${wanted} (${other} against ${base}) in ${Math.round(POWER * 100)} of 100 trials, set ${trial.exact ? "" : "about "}${grouped(trial.seeds)} seeds of each treatment.`;
}

const FAIR = "A fair trial: the same lot, mixed and counted out at random; the same day, mix, depth and warmth; pots side by side and changed about; labels that don’t say which is which to whoever counts.";

/** What mountCalculator shows of an answer. */
export function show(answer, data, level) {
  const { pots, range, difference, chance, values } = answer;
  const sure = `${Math.round(values.confidence * 100)} %`;
  const border = borderText(answer);
  const line = `${pots.map(seen).join("; ")}. Difference ${signedPoints(difference)} (${pointsRange(...range)}), Fisher’s exact test ${chanceText(chance)}.`;
  return {
    title: `${pots[0].name} against ${pots[1].name}`,
    headline: headline(answer),
    trust: trust(answer),
    line,
    rest: [
      numbers([
        ...pots.map((pot) => [`${pot.name}, ${grouped(pot.k)} of ${grouped(pot.n)}`, `${percentOfCount(pot.k, pot.n)} (${percentRange(pot.range, pot.n)})`]),
        ["Difference", signedPoints(difference)],
        [`Range of the difference, ${sure} confidence (Newcombe)`, pointsRange(...range)],
        ["Chance of this or more if nothing differs (Fisher)", chanceText(chance)],
        answer.trial && [`Seeds of each to see ${plainPoints(values.difference)}`, `${answer.trial.exact ? "" : "about "}${grouped(answer.trial.seeds)}`],
      ]),
      pictureSlot((width) => picture(answer, width)),
      parts(level, [
        ["Could it be chance?", list([fisherText(answer), ...(border ? [border] : [])])],
        ["A larger trial", list([trialText(answer), FAIR])],
      ]),
    ],
    workings: workings(answer),
  };
}

function picture(answer, width) {
  const { pots, range, difference } = answer;
  const box = element("div", "two-pictures");
  const first = intervalsPicture({
    title: "Germination under each treatment", description: `${pots.map(seen).join(". ")}.`,
    ticks: PERCENT_TICKS, label: percentLabel,
    rows: pots.map((pot) => ({ name: `${pot.name}: ${percentOfCount(pot.k, pot.n)} (${percentRange(pot.range, pot.n)})`, low: pot.range[0], high: pot.range[1], at: pot.share })),
  }, width);
  const second = intervalsPicture({
    title: "Difference between the treatments", description: `${signedPoints(difference)}, range ${pointsRange(...range)}. Marked: no difference.`,
    ticks: [-1, -0.5, 0, 0.5, 1], label: (tick) => (tick === 1 ? "+100" : signedPoints(tick).split(" ")[0]),
    rows: [{ name: `Difference: ${signedPoints(difference)} (${pointsRange(...range)})`, low: range[0], high: range[1], at: difference }],
    marks: [{ at: 0, name: "no difference" }],
  }, width);
  box.append(first, second);
  return box;
}

function workings({ trial }) {
  return [
    ["Each percentage", "Wilson’s score interval (1927)."],
    ["Difference", "Newcombe’s interval (Statistics in Medicine 1998, method 10): the two Wilson intervals joined. If it holds zero, the trial does not show which is better."],
    ["Could it be chance?", "Fisher’s exact test (1935), two-sided: the share of all ways to deal the seedlings to the two pots that are no likelier than the one seen."],
    ["A larger trial", trial?.exact === false
      ? "Textbook formula for two percentages with a correction for continuity, two-sided 5 % test (from memory); “about”, since it is an approximation."
      : "The smallest multiple of five seeds of each treatment for which Fisher’s test at 5 % sees the difference in 80 of 100 trials; every outcome counted out."],
    ["What it leaves out", "Pots of one treatment differ by more than the luck of the draw: water, warmth and edge. Several small pots of each are better than one large one."],
  ];
}
