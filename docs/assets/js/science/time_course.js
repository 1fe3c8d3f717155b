// Numbers that describe how a test came up, from the new seedlings of each count.
// Twin of build_tools/science/time_course.py, where formulas and sources are given.

/** Throws RangeError unless days rise from above 0 and whole counts fit into the seeds set. */
export function checkCourse(days, counts, seeds) {
  if (days.length !== counts.length || days.length === 0) {
    throw new RangeError(
      `need as many days as counts, at least one, got ${days.length} and ${counts.length}`);
  }
  if (!Number.isInteger(seeds) || seeds < 1) {
    throw new RangeError(`seeds must be a whole number of 1 or more, got ${seeds}`);
  }
  if (!days.every((day, i) => day > (i === 0 ? 0 : days[i - 1]))) {
    throw new RangeError("days must rise and be above 0");
  }
  if (!counts.every((count) => Number.isInteger(count) && count >= 0)) {
    throw new RangeError("counts must be whole numbers of 0 or more");
  }
  if (sum(counts) > seeds) {
    throw new RangeError(`${sum(counts)} seedlings from ${seeds} seeds cannot be`);
  }
}

/** New seedlings of each count from running totals; RangeError where a total falls. */
export function newFromTotals(totals) {
  const fresh = totals.map((total, i) => total - (i === 0 ? 0 : totals[i - 1]));
  if (fresh.some((count) => count < 0)) throw new RangeError("a running total cannot fall");
  return fresh;
}

/** When the running total reached `target`: {kind, day}; see the Python twin for the kinds. */
export function dayOfCount(days, counts, target) {
  let total = 0;
  for (let i = 0; i < counts.length; i += 1) {
    const before = total;
    total += counts[i];
    if (total === target) return { kind: i > 0 ? "at-count" : "by-first-count", day: days[i] };
    if (total > target) {
      if (i === 0) return { kind: "by-first-count", day: days[0] };
      const share = (target - before) / counts[i];
      return { kind: "between", day: days[i - 1] + share * (days[i] - days[i - 1]) };
    }
  }
  return { kind: "none", day: null };
}

/** All descriptive numbers of one test; null where a number cannot be had. */
export function timeCourse(days, counts, seeds) {
  checkCourse(days, counts, seeds);
  const germinated = sum(counts);
  const seen = days.map((day, i) => [day, counts[i]]).filter(([, count]) => count > 0);
  const result = {
    germinated, first_day: null, last_day: null, peak_day: null,
    t50_coolbear: { kind: "none", day: null }, t50_farooq: { kind: "none", day: null },
    mean_days: null, variance: null, spread_days: null, standard_error: null,
    velocity: null, speed: 0, synchrony: null, uncertainty: null,
  };
  if (germinated === 0) return result;
  const total = (term) => sum(seen.map(([day, count]) => term(day, count)));
  const mean = total((day, count) => count * day) / germinated;
  const bits = total((day, count) => (count / germinated) * Math.log2(count / germinated));
  Object.assign(result, {
    first_day: seen[0][0],
    last_day: seen[seen.length - 1][0],
    peak_day: seen.reduce((most, pair) => (pair[1] > most[1] ? pair : most))[0],
    t50_coolbear: dayOfCount(days, counts, (germinated + 1) / 2),
    t50_farooq: dayOfCount(days, counts, germinated / 2),
    mean_days: mean,
    velocity: 100 / mean,
    speed: total((day, count) => count / day),
    uncertainty: Math.abs(bits),
  });
  if (germinated > 1) {
    const variance = total((day, count) => count * (day - mean) ** 2) / (germinated - 1);
    Object.assign(result, {
      variance,
      spread_days: Math.sqrt(variance),
      standard_error: Math.sqrt(variance / germinated),
      synchrony: total((_, count) => count * (count - 1)) / (germinated * (germinated - 1)),
    });
  }
  return result;
}

function sum(numbers) {
  return numbers.reduce((total, number) => total + number, 0);
}
