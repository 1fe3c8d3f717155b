// The answer in words, numbers and a picture.

import { EVEN_CHANCE, GOOD_CHANCE, POOR_CHANCE } from "../../lots/columns.js";
import { grouped } from "../fields.js";
import { list, numbers, parts, pictureSlot } from "../element.js";
import { dateText } from "../../date_words.js";
import { addMonths, chanceText, monthsText, percentOfCount, percentRange } from "../format.js";
import { PERCENT_TICKS, intervalsPicture, percentLabel } from "../pictures.js";

const COARSE = 100; // an expectation is never worth decimals
const percent = (fraction) => `${Math.round(fraction * 100)} %`;
const range = ({ low, high }) => percentRange([low, high], COARSE);
const figure = (summary) => `${percent(summary.mean)} (${range(summary)})`;
const years = (number) => `${Math.round(number * 10) / 10} ${number === 1 ? "year" : "years"}`;
// Short spans in months: "0.1 years" tells nobody anything.
const spell = (number) => (number < 2 ? monthsText(Math.max(1, Math.round(number * 12))) : years(number));
const seedsWorth = (worth) => `${Math.round(worth * 10) / 10} ${worth === 1 ? "seed" : "seeds"}`;

function headline({ tested, both, expected, prior, values }) {
  const age = values.age === 0 ? "New seed" : `Seed of ${years(values.age)}`;
  return tested === null
    ? `${age}, kept so, is expected to be at about ${percent(expected)} (${range(prior)}): a guess until it is tested.`
    : `Age and test together: about ${figure(both)}.`;
}

function trust({ tested, worth, values, chance }) {
  const line = `The chance that the lot reaches the lending line of ${percent(values.line)} is ${chanceText(chance)}.`;
  if (tested === null) return `Nothing has been tested: this rests on age and storage alone, worth about ${seedsWorth(worth)}. ${line}`;
  const weight = tested.n >= 5 * worth ? "so the test decides" : tested.n > worth ? "so the test weighs more" : "so age weighs as much as the test";
  return `The test counts for its ${grouped(tested.n)} ${tested.n === 1 ? "seed" : "seeds"}, the expectation for ${seedsWorth(worth)}, ${weight}. ${line}`;
}

function enough({ chance, values, tested }) {
  const line = percent(values.line);
  if (tested === null) return [`Test before you lend: on age alone the chance to reach ${line} is ${chanceText(chance)}.`];
  if (chance >= GOOD_CHANCE) return [`Good evidence that the lot reaches ${line}. Lend it, with the count on the packet.`];
  if (chance >= EVEN_CHANCE) return [`More likely than not that it reaches ${line}, but not sure. Lend it with the count on the packet, or test more seeds.`];
  if (chance > POOR_CHANCE) return [`More likely than not that it falls short of ${line}. Test more seeds before you lend it.`];
  return [`Good evidence that it falls short of ${line}. Do not lend it unmarked: sow it thickly, grow it on for new seed, or let it go.`];
}

function again({ months, values, years: left, tested }) {
  if (tested === null) return ["Now: it has not been tested."];
  if (months === null) return ["Now, with more seeds, if it is to be lent: the next test decides."];
  const when = dateText(addMonths(values.date, months));
  const words = [`By ${when}, ${monthsText(months)} after this test.`];
  words.push(left > 0 ? `Kept as it is, a lot like this is expected to come down to ${percent(values.line)} in about ${spell(left)}; test it when a third of that time is over.`
    : `It is expected to be at the line already, so it is tested again as soon as is usual.`);
  return words;
}

function restsOn({ crop, values, life, surprising, tested, expected }) {
  const own = values.ownLife ? "as you typed" : "as published tables have it for seed kept cool and dry";
  const words = [`Seed life ${crop === null ? "" : `of ${crop.name} `}here: ${years(values.life)}, ${own}${life === values.life ? "" : `; in this store taken as ${years(life)}`}.`];
  if (values.storage === "unknown") words.push("Storage is not known, so the expectation weighs half as much.");
  if (surprising) {
    words.push(`The test (${percentOfCount(tested.k, tested.n)}) is far from what age suggests (${percent(expected)}). Check the age and the count; if both are right, believe the test and type a smaller weight.`);
  }
  words.push("Lots of one age differ widely. No published table gives percentages by age for seed kept at home: the expectation is a rule of our own, put together from published parts.");
  return words;
}

/** What mountCalculator shows of an answer. */
export function show(answer, data, level) {
  const { tested, both, prior, values, chance, crop, months } = answer;
  const sure = `${Math.round(values.confidence * 100)} %`;
  const line = [
    crop?.name ?? "Seed", `, ${years(values.age)} old: `,
    tested === null ? `expected about ${figure(prior)}, not tested` : `${tested.k} of ${tested.n}, ${percentOfCount(tested.k, tested.n)} (${percentRange(tested.range, tested.n)}); with its age ${figure(both)}`,
    months === null ? "" : `; test again by ${dateText(addMonths(values.date, months))}`,
  ].join("");
  return {
    title: `Age and test together${crop === null ? "" : `, ${crop.name}`}`,
    headline: headline(answer),
    trust: trust(answer),
    line,
    rest: [
      numbers([
        [`Expected from age and storage (worth ${seedsWorth(answer.worth)})`, figure(prior)],
        tested && [`The test alone, ${grouped(tested.k)} of ${grouped(tested.n)} (Wilson, ${sure})`, `${percentOfCount(tested.k, tested.n)} (${percentRange(tested.range, tested.n)})`],
        tested && [`Both together, ${sure}`, figure(both)],
        [`Chance to reach ${percent(values.line)}`, chanceText(chance)],
        tested && [`Chance to reach ${percent(values.line)}, test alone`, chanceText(tested.chance)],
        months !== null && ["Next test by", dateText(addMonths(values.date, months))],
      ].filter(Boolean)),
      pictureSlot((width) => picture(answer, width)),
      parts(level, [
        ["Is the lot good enough?", list(enough(answer))],
        ["When to test again", list(again(answer))],
        ["What it rests on", list(restsOn(answer))],
      ]),
    ],
    workings: workings(answer, data),
  };
}

function picture({ prior, tested, both, values }, width) {
  const rows = [{ name: `Age and storage: ${figure(prior)}`, low: prior.low, high: prior.high, at: prior.mean }];
  if (tested !== null) {
    const share = percentOfCount(tested.k, tested.n);
    rows.push({ name: `Test: ${share} (${percentRange(tested.range, tested.n)})`, low: tested.range[0], high: tested.range[1], at: tested.k / tested.n });
    rows.push({ name: `Together: ${figure(both)}`, low: both.low, high: both.high, at: both.mean });
  }
  return intervalsPicture({
    title: "What age says, what the test says, and both together",
    description: `${rows.map((row) => row.name).join(". ")}. Marked: lending line ${percent(values.line)}.`,
    ticks: PERCENT_TICKS, label: percentLabel, rows, marks: [{ at: values.line, name: `lending line ${percent(values.line)}` }],
  }, width);
}

function workings({ values, life }, data) {
  const { practice } = data;
  return [
    ["Expected from age", `A normal curve of ageing, the form used in seed storage research (Ellis and Roberts 1980): ${percent(values.fresh)} when new, ${practice.life_end_percent} % at the end of a seed life of ${years(life)}. That life ends at ${practice.life_end_percent} % is our reading; the tables of years seldom say.`],
    ["Storage", `Harrington’s rule doubles life for each 10 °F (5.6 °C) cooler. One step of it is counted: × ${practice.cold_store_life_factor} for a dry jar in a refrigerator, × ${practice.warm_store_life_factor} for a warm or damp place. Published years mean cool and dry.`],
    ["Joining", "The expectation is a beta distribution worth as many seeds as you give it; the count is added to it (a + k, b + n − k). The figure is its mean, the range leaves out equal tails."],
    ["Chance of the line", "One minus the distribution function of that beta at the line. “Test alone” uses Jeffreys’ prior, as on the page for counting a test."],
    ["Next test", `A third of the time in which the lot is expected to age down to the line, as genebanks do (FAO Genebank Standards 2014, from memory, for another line), but not before ${practice.retest_least_months} months nor after ${practice.retest_most_months} (common practice, no source).`],
  ];
}
