// Soil temperature from the air, day by day and through the year. Twin of build_tools/science/soil_temperature.py.
// A year is 365 daily means in °C, 1 January first; null is a day of which nothing is known. It is a ring.

export const YEAR_DAYS = 365;
export const PERIOD_DAYS = 365.25;
export const DIFFUSIVITY = 0.5; // mm² a second, measured at the USCRN station Manhattan KS
export const TIME_CONSTANT = 3; // days; best of 2, 3 and 5 at that station
export const SECONDS_A_DAY = 86400;
export const LEAST_SCALE = 0.5; // our own limits to carrying errors from one climate to another
export const MOST_SCALE = 1.5;
const MONTH_LENGTHS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

const OMEGA = () => (2 * Math.PI) / PERIOD_DAYS;
const within = (value, period) => ((value % period) + period) % period;

/** Depth in m at which a wave of that period keeps 1/e of its swing (Hillel 1982); diffusivity in mm²/s. */
export function dampingDepth(diffusivity, periodDays) {
  if (!(diffusivity > 0 && periodDays > 0)) throw new RangeError("diffusivity and period must be above 0");
  return Math.sqrt((2 * diffusivity * 1e-6 * SECONDS_A_DAY * periodDays) / (2 * Math.PI));
}

/** {mean, amplitude, warmest_day} of twelve monthly means, January first: one yearly wave by least squares at mid-months. */
export function annualHarmonic(monthly) {
  if (monthly.length !== MONTH_LENGTHS.length) throw new RangeError("twelve monthly means are needed");
  const omega = OMEGA();
  const sums = [[0, 0, 0, 0], [0, 0, 0, 0], [0, 0, 0, 0]]; // normal equations, right-hand side last
  let start = 0;
  monthly.forEach((value, month) => {
    const days = MONTH_LENGTHS[month] === 28 ? 28.25 : MONTH_LENGTHS[month];
    const middle = start + days / 2;
    start += days;
    const terms = [1, Math.cos(omega * middle), Math.sin(omega * middle), value];
    for (let i = 0; i < 3; i += 1) for (let j = 0; j < 4; j += 1) sums[i][j] += terms[i] * terms[j];
  });
  for (let i = 0; i < 3; i += 1) {
    for (let k = i + 1; k < 3; k += 1) {
      const factor = sums[k][i] / sums[i][i];
      for (let j = i; j < 4; j += 1) sums[k][j] -= factor * sums[i][j];
    }
  }
  const sine = sums[2][3] / sums[2][2];
  const cosine = (sums[1][3] - sums[1][2] * sine) / sums[1][1];
  const mean = (sums[0][3] - sums[0][1] * cosine - sums[0][2] * sine) / sums[0][0];
  return { mean, amplitude: Math.hypot(cosine, sine), warmest_day: within(Math.atan2(sine, cosine) / omega, PERIOD_DAYS) };
}

/** A year at that depth: the yearly wave of the air, damped and late (Kusuda & Achenbach 1965; Hillel 1982). */
export function annualWave(harmonic, depthMm, diffusivity = DIFFUSIVITY) {
  if (!(depthMm >= 0)) throw new RangeError("depth must not be below 0");
  const omega = OMEGA();
  const ratio = depthMm / 1000 / dampingDepth(diffusivity, PERIOD_DAYS);
  const swing = harmonic.amplitude * Math.exp(-ratio);
  return Array.from({ length: YEAR_DAYS }, (_, day) => (
    harmonic.mean + swing * Math.cos(omega * (day + 0.5 - harmonic.warmest_day) - ratio)));
}

/** The exponential mean of daily values; null for its first `settling` days and after gaps of more than `longestGap`. */
export function exponentialMean(days, values, timeConstant, longestGap, settling) {
  if (days.length !== values.length || days.some((day, i) => i > 0 && day <= days[i - 1])) {
    throw new RangeError("each value needs its day, and days must rise");
  }
  if (!(timeConstant > 0)) throw new RangeError("the time constant must be above 0");
  let [mean, began] = [];
  return values.map((value, i) => {
    const step = i > 0 ? days[i] - days[i - 1] : null;
    if (step === null || step - 1 > longestGap) [mean, began] = [value, days[i]];
    else mean += (1 - Math.exp(-step / timeConstant)) * (value - mean);
    return days[i] - began >= settling ? mean : null;
  });
}

/** For each value the mean of those at most `reach` days before or after it. */
export function centredMean(days, values, reach) {
  let first = 0;
  return days.map((day) => {
    while (days[first] < day - reach) first += 1;
    let [total, count] = [0, 0];
    for (let i = first; i < days.length && days[i] <= day + reach; i += 1) {
      total += values[i];
      count += 1;
    }
    return total / count;
  });
}

/** A year from values of any number of years, `places` being days 0 to 364; short gaps bridged by a straight line. */
export function averageYear(places, values, longestGap) {
  const sums = new Array(YEAR_DAYS).fill(0);
  const counts = new Array(YEAR_DAYS).fill(0);
  places.forEach((place, i) => {
    if (values[i] === null) return;
    sums[place] += values[i];
    counts[place] += 1;
  });
  const year = sums.map((sum, i) => (counts[i] > 0 ? sum / counts[i] : null));
  const known = [...year.keys()].filter((i) => year[i] !== null);
  known.forEach((start, i) => {
    const end = i + 1 < known.length ? known[i + 1] : known[0] + YEAR_DAYS;
    if (end - start <= 1 || end - start > longestGap + 1) return;
    const last = year[end % YEAR_DAYS];
    for (let day = start + 1; day < end; day += 1) {
      year[day % YEAR_DAYS] = year[start] + ((last - year[start]) * (day - start)) / (end - start);
    }
  });
  return year;
}

/** Twelve means of a year; null where a month has fewer than half of its days. */
export function monthlyMeans(year) {
  const found = [];
  let start = 0;
  for (const length of MONTH_LENGTHS) {
    const seen = year.slice(start, start + length).filter((value) => value !== null);
    if (2 * seen.length < length) return null;
    found.push(seen.reduce((sum, value) => sum + value, 0) / seen.length);
    start += length;
  }
  return found;
}

/** Errors of a place with another yearly swing (amplitudes, °C): in proportion, within limits. */
export function scaledErrors(quarters, swing, measuredSwing) {
  if (!(measuredSwing > 0)) throw new RangeError("the measured swing must be above 0");
  const scale = Math.min(MOST_SCALE, Math.max(LEAST_SCALE, swing / measuredSwing));
  return quarters.map(([low, high]) => [low * scale, high * scale]);
}

/** {low, high}: how far soil may be below and above an estimate on each day; `quarters` as in the Python. */
export function errorBand(quarters, warmestDay) {
  const [low, high] = [[], []];
  for (let day = 0; day < YEAR_DAYS; day += 1) {
    const turn = (4 * within(day + 0.5 - warmestDay, PERIOD_DAYS)) / PERIOD_DAYS;
    const i = Math.min(Math.floor(turn), 3);
    const share = turn - i;
    const [current, following] = [quarters[i], quarters[(i + 1) % 4]];
    low.push(current[0] + share * (following[0] - current[0]));
    high.push(current[1] + share * (following[1] - current[1]));
  }
  return { low, high };
}
