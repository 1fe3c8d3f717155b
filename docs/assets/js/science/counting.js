// Is it too early to read a germination test?
// Twin of build_tools/science/counting.py, where each answer is described.

// Common practice, no source: leave a towel test at least a week when no count days are published.
export const PATIENCE_DAYS = 7;

/** "no-day", "before-first", "before-final", "complete", "short-wait" or "waited". */
export function readingStage(day, firstCountDays, finalCountDays) {
  const hasFirst = firstCountDays !== null && firstCountDays !== undefined;
  const hasFinal = finalCountDays !== null && finalCountDays !== undefined;
  if (hasFirst && hasFinal && finalCountDays < firstCountDays) {
    throw new RangeError(
      `final count (day ${finalCountDays}) comes before the first (${firstCountDays})`);
  }
  if (day === null || day === undefined) return "no-day";
  if (day < 0) throw new RangeError(`days since the start must be 0 or more, got ${day}`);
  if (hasFirst && day < firstCountDays) return "before-first";
  if (hasFinal) return day < finalCountDays ? "before-final" : "complete";
  return day < PATIENCE_DAYS ? "short-wait" : "waited";
}

/** True when the percentage read at this stage must be taken as "at least". */
export function canStillRise(stage) {
  return stage === "before-first" || stage === "before-final" || stage === "short-wait";
}
