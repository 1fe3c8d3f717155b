// How many seeds to test: for a range of a wanted width, or to tell a good lot from a bad one.
// Twin of build_tools/science/plans.py; sources are named there.

import { chanceCountAtLeast, chanceCountAtMost } from "./lot.js";
import { zForConfidence } from "./proportions.js";
import { binomialProbabilities } from "./special.js";

// A plan that needs more seeds than this is no plan for a seed library.
export const MOST_SEEDS = 2000;
export const GROUP = 10;
// Keeps a limit that is met exactly from being missed by rounding.
const ALLOWANCE = 1e-9;

/** Seeds to test so that the percentage is known to within `halfWidth` either way. */
export function seedsForHalfWidth(halfWidth, fraction, confidence) {
  if (!(halfWidth > 0 && halfWidth < 1) || !(fraction > 0 && fraction < 1)) {
    throw new RangeError(
      `half width and fraction must lie between 0 and 1, got ${halfWidth}, ${fraction}`);
  }
  const z = zForConfidence(confidence);
  const seeds = (z * z * fraction * (1 - fraction)) / halfWidth ** 2;
  return Math.max(1, Math.ceil(seeds - ALLOWANCE));
}

/** Throws RangeError unless 0 < bad < good < 1 and both error rates lie between 0 and one half. */
export function checkQuestion(good, bad, turnedAway, passed) {
  if (!(bad > 0 && bad < good && good < 1)) {
    throw new RangeError(
      `a good lot must lie above a bad one, both between 0 and 1, got ${good} and ${bad}`);
  }
  if (!(turnedAway > 0 && turnedAway < 0.5 && passed > 0 && passed < 0.5)) {
    throw new RangeError(
      `error rates must lie between 0 and 0.5, got ${turnedAway} and ${passed}`);
  }
}

/** Smallest test that tells a good lot from a bad one: {seeds, accept_at}; null above MOST_SEEDS. */
export function fixedPlan(good, bad, turnedAway, passed) {
  checkQuestion(good, bad, turnedAway, passed);
  const mostPassed = passed * (1 + ALLOWANCE);
  const mostTurnedAway = turnedAway * (1 + ALLOWANCE);
  const goodLot = new Tails(good);
  const badLot = new Tails(bad);
  let acceptAt = 1;
  for (let seeds = 1; seeds <= MOST_SEEDS; seeds += 1) {
    // One more seed never lowers the count at which bad lots are kept out.
    while (badLot.passesTooOften(seeds, acceptAt, mostPassed)) {
      goodLot.raiseCount(seeds, acceptAt);
      badLot.raiseCount(seeds, acceptAt);
      acceptAt += 1;
    }
    if (acceptAt <= seeds && !goodLot.failsTooOften(seeds, acceptAt, mostTurnedAway)) {
      return { seeds, accept_at: acceptAt };
    }
    goodLot.addSeed(seeds, acceptAt);
    badLot.addSeed(seeds, acceptAt);
  }
  return null;
}

// Nearer than this to a limit a running sum is not trusted, and the tail is computed afresh.
const TOO_NEAR = 1e-8;

// Chances of a count of `at` or more, of fewer, and of exactly one fewer, carried along from one
// seed and a count of one: thousands of fresh tails would be felt while typing.
class Tails {
  constructor(fraction) {
    this.fraction = fraction;
    this.above = fraction;
    this.below = 1 - fraction;
    this.point = 1 - fraction;
  }

  addSeed(seeds, at) {
    const moved = this.fraction * this.point;
    this.above += moved;
    this.below -= moved;
    this.point *= ((seeds + 1) / (seeds + 2 - at)) * (1 - this.fraction);
  }

  raiseCount(seeds, at) {
    this.point *= ((seeds + 1 - at) / at) * (this.fraction / (1 - this.fraction));
    this.above -= this.point;
    this.below += this.point;
  }

  passesTooOften(seeds, at, most) {
    if (Math.abs(this.above - most) > TOO_NEAR) return this.above > most;
    return chanceCountAtLeast(at, seeds, this.fraction) > most;
  }

  failsTooOften(seeds, at, most) {
    if (Math.abs(this.below - most) > TOO_NEAR) return this.below > most;
    return chanceCountAtMost(at - 1, seeds, this.fraction) > most;
  }
}

/** Wald's two lines for the dead seeds d among n: accept at d <= s n - h1, flag at d >= s n + h2. */
export function sequentialLines(deadGood, deadBad, turnedAway, passed) {
  checkQuestion(1 - deadGood, 1 - deadBad, turnedAway, passed);
  const k = Math.log((deadBad * (1 - deadGood)) / (deadGood * (1 - deadBad)));
  return {
    slope: Math.log((1 - deadGood) / (1 - deadBad)) / k,
    accept: Math.log((1 - turnedAway) / passed) / k,
    flag: Math.log((1 - passed) / turnedAway) / k,
  };
}

/** Table-top plan in groups of ten: [{seeds, accept, flag}], dead seeds so far; null: not yet. */
export function sequentialPlan(good, bad, turnedAway, passed, groups) {
  if (!(groups >= 1 && groups <= 50)) throw new RangeError(`groups must be 1 to 50, got ${groups}`);
  const lines = sequentialLines(1 - good, 1 - bad, turnedAway, passed);
  const plan = [];
  for (let seeds = GROUP; seeds <= GROUP * groups; seeds += GROUP) {
    const accept = Math.floor(lines.slope * seeds - lines.accept + ALLOWANCE);
    const flag = Math.ceil(lines.slope * seeds + lines.flag - ALLOWANCE);
    plan.push({
      seeds,
      accept: accept >= 0 ? accept : null,
      flag: flag <= seeds ? flag : null,
    });
  }
  return plan;
}

/** What a sequential plan does with a lot at `fraction`: {accept, flag, between, mean_seeds}. */
export function operatingCharacteristic(plan, fraction) {
  if (!(fraction >= 0 && fraction <= 1)) {
    throw new RangeError(`fraction must lie between 0 and 1, got ${fraction}`);
  }
  // By dead seeds: the alive of a group read from the other end.
  const deadInGroup = binomialProbabilities(GROUP, fraction).reverse();
  let going = [1]; // chance to be still undecided with 0, 1, 2 ... dead
  let accept = 0;
  let flag = 0;
  let mean = 0;
  for (const step of plan) {
    mean += GROUP * sum(going);
    const after = new Array(going.length + GROUP).fill(0);
    going.forEach((chance, dead) => {
      deadInGroup.forEach((share, more) => { after[dead + more] += chance * share; });
    });
    after.forEach((chance, dead) => {
      if (step.accept !== null && dead <= step.accept) accept += chance;
      else if (step.flag !== null && dead >= step.flag) flag += chance;
      else return;
      after[dead] = 0;
    });
    going = after;
  }
  return { accept, flag, between: sum(going), mean_seeds: mean };
}

function sum(numbers) {
  return numbers.reduce((total, number) => total + number, 0);
}
