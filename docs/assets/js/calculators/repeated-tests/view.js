// The verdict in words, numbers and a picture.

import { grouped } from "../fields.js";
import { list, numbers, parts, pictureSlot } from "../element.js";
import { chanceText, percentOfCount, percentRange, pointsText } from "../format.js";
import { PERCENT_TICKS, intervalsPicture, percentLabel } from "../pictures.js";

const counted = ({ k, n, range }) => `${grouped(k)} of ${grouped(n)}, ${percentOfCount(k, n)} (${percentRange(range, n)})`;
const name = ({ kind }, i) => `${kind === "tests" ? "Test" : "Replicate"} ${i + 1}`;

function headline({ verdict, k, n, range, values }) {
  const pooled = `${grouped(k)} of ${grouped(n)}, ${percentOfCount(k, n)} (${percentRange(range, n)})`;
  if (verdict.agree) return `Average them: ${pooled}.`;
  return values.kind === "tests" ? "Test once more: the two do not agree." : "Repeat the test: the replicates do not agree.";
}

function trust({ verdict, counts, values }) {
  const what = values.kind === "tests" ? "tests" : "replicates";
  const start = `Your ${counts.length} ${what} lie ${pointsText(verdict.range)} apart`;
  if (verdict.rule === "table") {
    const where = values.kind === "tests" ? "the table for two tests of 400 seeds" : "7 CFR 201.55";
    return `${start}; ${verdict.agree ? "" : "only "}${verdict.limit} are allowed at this average (${where}).`;
  }
  if (verdict.rule === "exact") {
    return verdict.range === 0 ? `Your ${counts.length} ${what} are alike: nothing speaks against adding them up.`
      : `${start}. Chance alone sets counts of one lot that far apart, or further, in ${chanceText(verdict.chance)} of cases; below 2.5 % it is taken for more than chance.`;
  }
  return `${start}, the two furthest apart for their size; up to ${pointsText(verdict.limit)} are put down to chance (Miles’ formula).`;
}

function whatToDo({ verdict, values, n }) {
  if (verdict.agree) {
    return [
      `Add the seeds and the seedlings up; do not average the percentages, unless all counts have as many seeds. The range is that of ${grouped(n)} seeds.`,
      "Agreement does not prove that the test was done well: a towel too cold or too dry lowers all counts alike.",
    ];
  }
  const look = "Look for the reason first: a dry or mouldy towel, a warm and a cold place, a slip in counting, seed picked rather than taken at random.";
  return values.kind === "tests"
    ? [look, "If the tests lie months apart, the seed itself may have changed: then the later one counts.", "Set a third test. Average the two that agree; if none do, mix the lot and begin again."]
    : [look, "Throw no replicate out because it looks odd. Repeat the whole test, and count all replicates of the new one."];
}

function dispersionText({ dispersion, counts }) {
  if (counts.length < 3) return null;
  const { pearson, freedom } = dispersion;
  const ratio = Math.round((pearson / freedom) * 10) / 10;
  return `The counts spread ${ratio < 0.05 ? "hardly at all" : `${ratio} times as much as chance alone makes likely`} (chi-squared ${Math.round(pearson * 10) / 10} on ${freedom} degrees of freedom; about 1 is usual).${ratio > 2 ? " Take the range above as too narrow." : ""}`;
}

/** What mountCalculator shows of an answer. */
export function show(answer, data, level) {
  const { counts, k, n, range, verdict, values } = answer;
  const sure = `${Math.round(values.confidence * 100)} %`;
  const spread = dispersionText(answer);
  const pooled = { k, n, range };
  const title = headline(answer);
  return {
    title: "Do the counts agree?",
    headline: title,
    trust: trust(answer),
    line: `${counts.map(counted).join("; ")}. ${title}`,
    rest: [
      numbers([
        ...counts.map((count, i) => [`${name(values, i)} (Wilson, ${sure})`, counted(count)]),
        [verdict.agree ? "Together" : "Together, if you had to", counted(pooled)],
        ["Furthest apart", pointsText(verdict.range)],
        verdict.limit !== null ? ["Allowed", pointsText(verdict.limit)] : ["Chance of that or more", chanceText(verdict.chance)],
      ]),
      pictureSlot((width) => intervalsPicture({
        title: "The counts side by side, and together",
        description: `${counts.map((count, i) => `${name(values, i)}: ${counted(count)}`).join(". ")}. Together: ${counted(pooled)}.`,
        ticks: PERCENT_TICKS, label: percentLabel,
        rows: [...counts.map((count, i) => ({ name: `${name(values, i)}: ${percentOfCount(count.k, count.n)} (${percentRange(count.range, count.n)})`, low: count.range[0], high: count.range[1], at: count.share })),
          { name: `Together: ${percentOfCount(k, n)} (${percentRange(range, n)})`, low: range[0], high: range[1], at: k / n }],
      }, width)),
      parts(level, [
        ["What to do", list(whatToDo(answer))],
        spread && ["How uneven are they?", list([spread])],
      ]),
    ],
    workings: [
      [values.kind === "tests" ? "Two tests of 400 seeds" : "Replicates of 100 seeds", values.kind === "tests"
        ? "The largest difference a state seed code prints for two tests of 400 seeds, by their average rounded to a whole percentage. The code says it quotes the Federal Seed Act; the tolerances of 7 CFR 201.63 are other ones."
        : "Two or four replicates: the largest range of 7 CFR 201.55 at the average, rounded to a whole percentage."],
      ["Other sizes", "Up to 4000 seeds the exact chance of a range this large or larger, each count drawn from one lot with the pooled percentage; more than 2.5 % is taken for agreement, the level of the published tables. Beyond, Miles’ formula (1963): q · √(p(1 − p)/n), q the upper 2.5 % point of the studentized range, n the harmonic mean of the pair compared."],
      ["Together", "All seeds and all seedlings added up; Wilson’s interval for the sum."],
      ["Unevenness", "Pearson’s chi-squared about the pooled percentage, divided by its degrees of freedom."],
    ],
  };
}
