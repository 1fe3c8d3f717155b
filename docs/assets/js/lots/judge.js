// From lots with their tests to verdicts, next test dates and the sentence that gives the reason.
// Twin of build_tools/lots/judge.py.

import { monthsToNextTest, probitsPerYear, yearsUntil } from "../science/ageing.js";
import { JEFFREYS, chanceAtLeast } from "../science/lot.js";
import { wilson } from "../science/proportions.js";
import { Agreement } from "./agreement.js";
import { storeFactor } from "./catalogue.js";
import {
  DO_NOT_LEND, EVEN_CHANCE, GOOD_CHANCE, HOLD, LEND, LEND_MARKED, POOR_CHANCE, REPEAT, TEST, TEST_DUE, VERDICTS,
} from "./columns.js";
import { addMonths } from "./dates.js";
import { countText, sentence } from "./sentences.js";
import { chanceText, percentDigits, percentOfCount } from "../words.js";

// Python and the browser differ in the last digit; what falls on a limit falls on it in both.
const SLACK = 1e-9;
const RANK = new Map([...VERDICTS.keys()].map((verdict, i) => [verdict, i]));

/** Judges lots one by one; `line` is the lending line in percent, `today` an ISO day. */
export class Judge {
  constructor(catalogue, line, today) {
    this.catalogue = catalogue;
    this.line = line;
    this.today = today;
    this.agreement = new Agreement(catalogue.data.replicate_range_percent, catalogue.data.two_test_range);
    this.counts = new Map();
    this.months = new Map();
    this.dates = new Map();
  }

  /** What is decided of a lot: {lot, verdict, next_test, agree, earlier}; `texts` makes a row of it. */
  decide(lot) {
    const last = lot.tests[lot.tests.length - 1];
    if (last === undefined) return { lot, verdict: TEST, next_test: this.today, agree: true, earlier: "" };
    const agree = last.replicates.length === 1 || this.agreement.replicates(last.replicates);
    let verdict = agree ? this.count(last.normal, last.seeds).verdict : REPEAT;
    let next = "";
    if (verdict === HOLD || verdict === REPEAT) {
      next = this.today;
    } else if (verdict !== DO_NOT_LEND) {
      next = this.date(last.tested, this.monthsUntilTest(last.normal, last.seeds, lot, verdict));
      if (next < this.today) verdict = TEST_DUE;
    }
    return { lot, verdict, next_test: next, agree, earlier: this.earlier(lot) };
  }

  /** A row of the results, {column: text} by RESULT_COLUMNS, from what `decide` gave. */
  texts({ lot, verdict, next_test, agree, earlier }) {
    const last = lot.tests[lot.tests.length - 1];
    const count = last === undefined ? null : this.count(last.normal, last.seeds);
    const single = last?.replicates.length === 1;
    const line = String(this.line);
    return {
      lot: lot.name,
      crop: this.catalogue.crops.get(lot.crop).name,
      variety: lot.variety,
      harvested: lot.harvested,
      storage: lot.storage,
      tests: String(lot.tests.length),
      tested: last?.tested ?? "",
      seeds: last === undefined ? "" : String(last.seeds),
      normal: last === undefined ? "" : String(last.normal),
      percent: count?.percent ?? "",
      low: count?.low ?? "",
      high: count?.high ?? "",
      line,
      chance: count?.chance ?? "",
      replicates: last === undefined ? "" : single ? "one" : agree ? "agree" : "do not agree",
      earlier,
      verdict,
      next_test,
      words: sentence(lot, verdict, line, count, next_test, earlier),
    };
  }

  date(tested, months) {
    const key = `${tested}+${months}`;
    let found = this.dates.get(key);
    if (found === undefined) {
      found = addMonths(tested, months);
      this.dates.set(key, found);
    }
    return found;
  }

  earlier(lot) {
    if (lot.tests.length < 2) return "";
    return this.agreement.tests(...lot.tests.slice(-2)) ? "agrees" : "differs";
  }

  // What k of n says: texts for the table, the verdict before other things.
  count(k, n) {
    const key = k * 1e7 + n; // no test has as many seeds as that
    let found = this.counts.get(key);
    if (found === undefined) {
      const [low, high] = wilson(k, n).map((limit) => percentDigits(limit, n));
      const chance = chanceAtLeast(k, n, this.line / 100);
      found = {
        percent: percentOfCount(k, n), low, high, chance: chanceText(chance), verdict: verdictOf(chance),
        text: countText(k, n, low, high),
      };
      this.counts.set(key, found);
    }
    return found;
  }

  // Months from a test of a lot that may be lent to its next one.
  monthsUntilTest(k, n, { crop, storage }, verdict) {
    const key = `${k} ${n} ${crop} ${storage} ${verdict}`;
    if (!this.months.has(key)) {
      const months = this.soundMonths(k, n, this.catalogue.crops.get(crop).lifeYears, storage);
      const least = this.catalogue.practice.retest_least_months;
      this.months.set(key, Math.trunc(verdict === LEND_MARKED ? Math.min(months, least) : months));
    }
    return this.months.get(key);
  }

  soundMonths(k, n, life, storage) {
    const { practice } = this.catalogue;
    if (life === null) return practice.retest_usual_months;
    if (!(this.line > 0 && this.line < 100)) return practice.retest_most_months;
    const slope = probitsPerYear(life * storeFactor(storage, practice), practice.new_seed_percent / 100, practice.life_end_percent / 100);
    const years = yearsUntil((k + JEFFREYS) / (n + 2 * JEFFREYS), this.line / 100, slope);
    return monthsToNextTest(years + SLACK, practice.retest_least_months, practice.retest_most_months);
  }
}

function verdictOf(chance) {
  if (chance >= GOOD_CHANCE - SLACK) return LEND;
  if (chance >= EVEN_CHANCE - SLACK) return LEND_MARKED;
  return chance > POOR_CHANCE + SLACK ? HOLD : DO_NOT_LEND;
}

/** Decisions by need for action, then by the next test; otherwise in their order. */
export function byNeed(decisions) {
  const order = (a, b) => (a < b ? -1 : a > b ? 1 : 0);
  return [...decisions].sort((a, b) => RANK.get(a.verdict) - RANK.get(b.verdict) || order(a.next_test, b.next_test));
}
