// The plans in words, numbers and pictures.

import { element, list, numbers, parts, pictureSlot, table } from "../element.js";
import { percentDigits, percentRange } from "../format.js";
import { PERCENT_TICKS, curvePicture, intervalsPicture, percentLabel } from "../pictures.js";

const percent = (fraction) => `${Math.round(fraction * 1000) / 10} %`;
const inHundred = (chance) => (chance < 0.005 ? "fewer than 1 of 100" : `${Math.round(chance * 100)} of 100`);

function shortChance(chance) {
  if (chance < 0.005) return "< 1 %";
  return chance > 0.995 ? "> 99 %" : `${Math.round(chance * 100)} %`;
}

/** What mountCalculator shows of an answer. */
export function show(answer, data, level) {
  return answer.goal === "width" ? showWidth(answer, level) : showLots(answer, level);
}

function showWidth(answer, level) {
  const { seeds, result, values, usual } = answer;
  const sure = `${Math.round(values.confidence * 100)} % confidence`;
  const points = percent(values.within).replace(" %", " points");
  const quarter = Math.ceil(seeds / 4);
  const rounded = seeds > 40 ? `As four towels: ${quarter} seeds each. Four counts also show whether the test itself is sound.` : "On one towel; two show whether the test itself is sound.";
  const headline = `Set ${seeds} ${seeds === 1 ? "seed" : "seeds"} to know the percentage to within about ${points}.`;
  return {
    title: "How many seeds to test",
    headline,
    trust: `A lot at ${percent(values.expected)} would then give about ${result.k} of ${result.n}, and the answer reads ${percentRange(result.range, result.n)} (${sure}, ${seeds} ${seeds === 1 ? "seed" : "seeds"}).`,
    line: `${headline} Expected ${percent(values.expected)}, ${sure}.`,
    rest: [
      numbers([
        ["Seeds to set", String(seeds)],
        [`Range if ${result.k} come up (Wilson, ${sure})`, percentRange(result.range, result.n)],
      ]),
      pictureSlot((width) => intervalsPicture({
        title: "What tests of the usual sizes leave open",
        description: `${usual.map(({ n, range }) => `${n} seeds: ${percentRange(range, n)}`).join("; ")}.`,
        ticks: PERCENT_TICKS, label: percentLabel,
        rows: usual.map(({ n, range }) => ({ name: `${n} seeds: ${percentRange(range, n)}`, low: range[0], high: range[1], at: null })),
        marks: [{ at: values.expected, name: `lot at ${percent(values.expected)}` }],
      }, width)),
      parts(level, [
        ["How to set them", list([rounded, "Take the seed at random from a mixed lot, not the best-looking ones."])],
        ["Worth knowing", list([
          "Half the width takes four times the seed.",
          "Lots near 50 % need the most seed, lots near 0 or 100 % the least. If you have no idea, plan for 50 %.",
          "Tests differ by more than the luck of the draw: warmth, water and who counts add to it. Official tests stop at 400 seeds (7 CFR 201.54).",
        ])],
      ]),
    ],
    workings: [
      ["Seeds to set", "n = z² p (1 − p) / h², rounded up: z the normal quantile of the confidence, p the percentage you expect, h the half-width. The usual formula of sampling; it is good enough for planning."],
      ["Range", "Wilson’s score interval (1927) for the count such a lot would most likely give. For small tests it is not quite even about the percentage, so it may reach a little further on one side."],
    ],
  };
}

function showLots(answer, level) {
  const { fixed, values, atGood, atBad } = answer;
  const [good, bad] = [percent(values.good), percent(values.bad)];
  const headline = fixed === null
    ? `No test of up to 2000 seeds tells ${good} from ${bad} that surely.`
    : `Set ${fixed.seeds} seeds and pass the lot if ${fixed.accept_at} or more come up.`;
  const trust = fixed === null
    ? "Allow more errors, or take percentages further apart. The test in tens below still works, with the errors it says."
    : `Then ${inHundred(fixed.goodTurnedAway)} lots at ${good} are turned away, and ${inHundred(fixed.badPassed)} lots at ${bad} pass (exact binomial, ${fixed.seeds} seeds). ${fixed.accept_at} of ${fixed.seeds} itself reads ${percentRange(fixed.range, fixed.seeds)} (95 % confidence).`;
  return {
    title: "A test to tell good lots from bad",
    headline,
    trust,
    line: `${headline} Good ${good}, bad ${bad}.`,
    rest: [
      numbers([
        fixed && ["One test: seeds to set", String(fixed.seeds)],
        fixed && ["One test: pass if this many come up", `${fixed.accept_at} or more`],
        ["In tens: seeds on average, lot at " + good, String(Math.round(atGood.mean_seeds))],
        ["In tens: seeds on average, lot at " + bad, String(Math.round(atBad.mean_seeds))],
      ]),
      element(`h${level}`, "answer-heading", "Or test in tens, and stop as soon as it is clear"),
      element("p", "", `Set ten seeds. When they have had their time, count the dead: all that gave no normal seedling. Look up the row; where it says neither, set another ten of the same lot and add its dead to the count. A lot at ${good} is flagged in ${inHundred(atGood.flag)} tests, one at ${bad} passes in ${inHundred(atBad.accept)}; ${inHundred(atGood.between)} and ${inHundred(atBad.between)} stay in between after ${answer.plan.at(-1).seeds} seeds.`),
      element("div", "answer-columns", planTable(answer), element("div", "", whatItDoes(answer), pictureSlot((width) => picture(answer, width)))),
    ],
    workings: [
      ["One test", "The smallest number of seeds for which some count keeps both errors within what you allow; exact binomial chances."],
      ["Test in tens", "Wald’s sequential test (1947) on the dead seeds: pass at d ≤ s·n − h₁, flag at d ≥ s·n + h₂, with K = ln[p₂(1 − p₁)/(p₁(1 − p₂))], s = ln[(1 − p₁)/(1 − p₂)]/K, h₁ = ln[(1 − α)/β]/K, h₂ = ln[(1 − β)/α]/K; p₁ and p₂ the dead share of a good and a bad lot, α and β the errors allowed. Rounded to whole seeds to the safe side and looked at after every ten."],
      ["What it does", "Worked out exactly for the plan as it stands, stopping in tens and at the last row: so the errors are not just those asked for but those you get."],
      ["Seed in between", "It is neither good nor bad by these lines. Lend it with its percentage on the packet, or test more."],
    ],
  };
}

/** Rows of the plan as texts: seeds so far, pass, flag. */
export function planRows({ plan }) {
  return plan.map(({ seeds, accept, flag }, i) => [
    String(seeds),
    accept === null ? "not yet" : accept === 0 ? "none dead" : `${accept} or fewer`,
    flag === null ? "not yet" : `${flag} or more`,
    i === plan.length - 1 ? "in between" : "ten more",
  ]);
}

function whatItDoes({ lots }) {
  return table("What the test in tens does with a lot that is really at …", ["Lot at", "Passes", "Flagged", "In between", "Seeds on average"],
    lots.map((lot) => [percent(lot.fraction), ...[lot.accept, lot.flag, lot.between].map(shortChance), String(Math.round(lot.mean_seeds))]));
}

function planTable(answer) {
  return table("Dead seeds so far, and what to do", ["Seeds so far", "Pass if dead", "Flag if dead", "Otherwise"], planRows(answer));
}

function picture(answer, width) {
  const { curve, values, fixed } = answer;
  const first = (key, level) => Math.max(0, curve.findIndex((point) => point[key] >= level));
  const at = (fraction) => percentDigits(curve.reduce((best, point) => (Math.abs(point.fraction - fraction) < Math.abs(best.fraction - fraction) ? point : best)).accept, 100);
  return curvePicture({
    title: "Operating characteristic: how often a lot passes, by its true percentage",
    description: `In tens, a lot at ${percent(values.good)} passes in about ${at(values.good)} of 100 tests and one at ${percent(values.bad)} in about ${at(values.bad)}. ${fixed ? "The dashed line is the single test." : ""}`,
    xTicks: PERCENT_TICKS, xLabel: percentLabel, xName: "true germination of the lot",
    yTicks: [0, 0.25, 0.5, 0.75, 1], yLabel: (tick) => `${Math.round(tick * 100)}${tick === 1 ? " %" : ""}`,
    lines: [
      ...(fixed ? [{ kind: "second", points: curve.map((point) => [point.fraction, point.fixed]), name: "passes one test", nameAt: first("fixed", 0.6), shift: -12 }] : []),
      { kind: "main", points: curve.map((point) => [point.fraction, point.accept]), name: "passes in tens", nameAt: first("accept", 0.3), shift: 14 },
    ],
    marks: [{ x: values.bad, name: `bad, ${percent(values.bad)}` }, { x: values.good, name: `good, ${percent(values.good)}` }],
  }, width);
}
