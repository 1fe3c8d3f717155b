// Special functions for the browser twins of build_tools/science: normal distribution and quantile,
// log gamma, binomial probabilities, the regularised incomplete beta function and its inverse.
// No dependency; accurate to about 1e-13 for the sizes a germination test has.

const SQRT_TWO_PI = Math.sqrt(2 * Math.PI);

function polynomial(coefficients, x) {
  let value = 0;
  for (let i = coefficients.length - 1; i >= 0; i -= 1) value = value * x + coefficients[i];
  return value;
}

// Rational approximations of Wichura 1988 (Applied Statistics 37:477, algorithm AS 241).
const CENTRE_TOP = [3.387132872796366608, 133.14166789178437745, 1971.5909503065514427,
  13731.693765509461125, 45921.953931549871457, 67265.770927008700853, 33430.575583588128105,
  2509.0809287301226727];
const CENTRE_BOTTOM = [1, 42.313330701600911252, 687.1870074920579083, 5394.1960214247511077,
  21213.794301586595867, 39307.89580009271061, 28729.085735721942674, 5226.495278852545925];
const TAIL_TOP = [1.42343711074968357734, 4.6303378461565452959, 5.7694972214606914055,
  3.64784832476320460504, 1.27045825245236838258, 0.24178072517745061177,
  0.0227238449892691845833, 7.7454501427834140764e-4];
const TAIL_BOTTOM = [1, 2.05319162663775882187, 1.6763848301838038494, 0.68976733498510000455,
  0.14810397642748007459, 0.0151986665636164571966, 5.475938084995344946e-4,
  1.05075007164441684324e-9];
const FAR_TOP = [6.6579046435011037772, 5.4637849111641143699, 1.7848265399172913358,
  0.29656057182850489123, 0.026532189526576123093, 0.0012426609473880784386,
  2.71155556874348757815e-5, 2.01033439929228813265e-7];
const FAR_BOTTOM = [1, 0.59983220655588793769, 0.13692988092273580531, 0.0148753612908506148525,
  7.868691311456132591e-4, 1.8463183175100546818e-5, 1.4215117583164458887e-7,
  2.04426310338993978564e-15];

/** Standard normal quantile of a probability strictly between 0 and 1. */
export function normalQuantile(probability) {
  if (!(probability > 0 && probability < 1)) {
    throw new RangeError(`probability must lie between 0 and 1, got ${probability}`);
  }
  const centred = probability - 0.5;
  if (Math.abs(centred) <= 0.425) {
    const r = 0.180625 - centred * centred;
    return (centred * polynomial(CENTRE_TOP, r)) / polynomial(CENTRE_BOTTOM, r);
  }
  const tail = centred < 0 ? probability : 1 - probability;
  const r = Math.sqrt(-Math.log(tail));
  const size = r <= 5
    ? polynomial(TAIL_TOP, r - 1.6) / polynomial(TAIL_BOTTOM, r - 1.6)
    : polynomial(FAR_TOP, r - 5) / polynomial(FAR_BOTTOM, r - 5);
  return centred < 0 ? -size : size;
}

// Beyond this the tail comes from a continued fraction, so that it keeps its digits.
const TAIL_FROM = 1;

/** Standard normal distribution P(Z <= z); the far lower tail keeps its relative accuracy. */
export function normalProbability(z) {
  if (Number.isNaN(z)) throw new RangeError("z must be a number");
  if (z < -TAIL_FROM) return normalTail(-z);
  if (z > TAIL_FROM) return 1 - normalTail(z);
  // 1/2 + density * (z + z^3/3 + z^5/(3 5) + ...): every term has the sign of z.
  let term = z;
  let sum = 0;
  for (let i = 3; sum + term !== sum; i += 2) {
    sum += term;
    term *= (z * z) / i;
  }
  return 0.5 + normalDensity(z) * sum;
}

// P(Z > z) for z well above 0: density / (z + 1/(z + 2/(z + 3/(z + ...)))).
function normalTail(z) {
  const density = normalDensity(z);
  if (density === 0) return 0;
  let below = z;
  for (let i = Math.ceil(40 + 500 / (z * z)); i >= 1; i -= 1) below = z + i / below;
  return density / below;
}

// Squaring z would round, and the exponential would magnify that: a short z is squared exactly.
function normalDensity(z) {
  if (Math.abs(z) > 40) return 0;
  const short = Math.trunc(z * 16) / 16;
  return (Math.exp((-short * short) / 2) * Math.exp((-(z - short) * (z + short)) / 2)) / SQRT_TWO_PI;
}

// Error of Stirling's formula, log(x!) - log(sqrt(2 pi x) (x/e)^x), for any real x > 0.
function stirlingError(x) {
  // The series needs a large argument; below it, step up: error(x) = error(x+1) + step(x).
  let shift = 0;
  let y = x;
  while (y < 16) {
    shift += (y + 0.5) * Math.log1p(1 / y) - 1;
    y += 1;
  }
  const square = y * y;
  const series = (1 / 12 - (1 / 360 - (1 / 1260 - (1 / 1680 - (1 / 1188 - 691 / 360360 / square)
    / square) / square) / square) / square) / y;
  return shift + series;
}

/** Natural logarithm of the gamma function for x > 0. */
export function logGamma(x) {
  return (x - 0.5) * Math.log(x) - x + Math.log(SQRT_TWO_PI) + stirlingError(x);
}

// x log(x/m) + m - x without cancellation when x is near m (deviance part, Loader 2000).
function devianceHalf(x, m) {
  if (x === 0) return m;
  if (Math.abs(x - m) < 0.1 * (x + m)) {
    const v = (x - m) / (x + m);
    let sum = (x - m) * v;
    let term = 2 * x * v;
    for (let i = 1; i < 1000; i += 1) {
      term *= v * v;
      const next = sum + term / (2 * i + 1);
      if (next === sum) return next;
      sum = next;
    }
    return sum;
  }
  return x * Math.log(x / m) + m - x;
}

// x^a y^b / B(a, b) with y = 1 - x, a and b > 0 (saddle-point form of Loader 2000).
function betaKernel(a, b, x, y) {
  const n = a + b;
  const exponent = stirlingError(n) - stirlingError(a) - stirlingError(b)
    - devianceHalf(a, n * x) - devianceHalf(b, n * y);
  return (Math.sqrt((a * b) / n) / SQRT_TWO_PI) * Math.exp(exponent);
}

// Continued fraction of the incomplete beta function, evaluated by Lentz's method.
function betaFraction(a, b, x) {
  const tiny = 1e-300;
  let c = 1;
  let d = 1 - ((a + b) * x) / (a + 1);
  d = 1 / (Math.abs(d) < tiny ? tiny : d);
  let value = d;
  for (let m = 1; m <= 100000; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 + even * d;
    d = 1 / (Math.abs(d) < tiny ? tiny : d);
    c = 1 + even / c;
    if (Math.abs(c) < tiny) c = tiny;
    value *= c * d;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 + odd * d;
    d = 1 / (Math.abs(d) < tiny ? tiny : d);
    c = 1 + odd / c;
    if (Math.abs(c) < tiny) c = tiny;
    const step = c * d;
    value *= step;
    if (Math.abs(step - 1) < 1e-16) break;
  }
  return value;
}

// [I_x(a, b), 1 - I_x(a, b)]; y = 1 - x is passed to keep both tails exact.
function betaTails(a, b, x, y) {
  if (x <= 0) return [0, 1];
  if (y <= 0) return [1, 0];
  const kernel = betaKernel(a, b, x, y);
  if (x <= (a + 1) / (a + b + 2)) {
    const lower = Math.min(1, (kernel * betaFraction(a, b, x)) / a);
    return [lower, 1 - lower];
  }
  const upper = Math.min(1, (kernel * betaFraction(b, a, y)) / b);
  return [1 - upper, upper];
}

/** Regularised incomplete beta function I_x(a, b), a and b > 0, x in 0..1. */
export function incompleteBeta(a, b, x) {
  return betaTails(a, b, x, 1 - x)[0];
}

/** Its complement 1 - I_x(a, b), without the loss of subtracting. */
export function incompleteBetaComplement(a, b, x) {
  return betaTails(a, b, x, 1 - x)[1];
}

/** x with I_x(a, b) = probability: Newton steps kept inside a shrinking bracket. */
export function incompleteBetaInverse(a, b, probability) {
  return solveBeta(a, b, probability, true);
}

/** x with 1 - I_x(a, b) = probability. */
export function incompleteBetaComplementInverse(a, b, probability) {
  return solveBeta(a, b, probability, false);
}

function solveBeta(a, b, probability, lowerTail) {
  if (!(probability >= 0 && probability <= 1)) {
    throw new RangeError(`probability must lie between 0 and 1, got ${probability}`);
  }
  if (probability === 0) return lowerTail ? 0 : 1;
  if (probability === 1) return lowerTail ? 1 : 0;
  let low = 0;
  let high = 1;
  let x = a / (a + b);
  for (let i = 0; i < 400; i += 1) {
    const tails = betaTails(a, b, x, 1 - x);
    const miss = lowerTail ? tails[0] - probability : probability - tails[1];
    if (miss === 0) return x;
    if (miss > 0) high = x;
    else low = x;
    const density = betaKernel(a, b, x, 1 - x) / (x * (1 - x));
    let next = x - miss / density;
    if (!(next > low && next < high)) next = (low + high) / 2;
    if (Math.abs(next - x) <= 4e-16 * next || next === low || next === high) return next;
    x = next;
  }
  return x;
}

/** Probabilities of 0..n successes in n binomial trials: an array of n + 1 numbers. */
export function binomialProbabilities(n, fraction) {
  return normalisedFromMode(n, Math.min(n, Math.floor((n + 1) * fraction)),
    (x) => ((n - x) / (x + 1)) * (fraction / (1 - fraction)));
}

/** Probabilities of 0..n successes under a beta-binomial with Beta(a, b): n + 1 numbers. */
export function betaBinomialProbabilities(n, a, b) {
  // The largest term lies near the mean unless the beta is U-shaped; rescaling makes any start safe.
  const ratio = (x) => ((n - x) / (x + 1)) * ((x + a) / (n - x - 1 + b));
  return normalisedFromMode(n, Math.round((n * a) / (a + b)), ratio);
}

/**
 * Chances of a two-by-two table with fixed margins: {lowest, chances}, where chances[i] belongs to
 * lowest + i successes among the first n1 when n1 + n2 together have `total`.
 */
export function hypergeometricProbabilities(total, n1, n2) {
  const lowest = Math.max(0, total - n2);
  const span = Math.min(n1, total) - lowest;
  const ratio = (i) => {
    const x = lowest + i;
    return ((n1 - x) / (x + 1)) * ((total - x) / (n2 - total + x + 1));
  };
  const mode = Math.floor(((n1 + 1) / (n1 + n2 + 2)) * (total + 1));
  return { lowest, chances: normalisedFromMode(span, Math.min(span, Math.max(0, mode - lowest)), ratio) };
}

// Builds weights from ratio(x) = w(x+1)/w(x), outward from `start`, then scales them to sum to 1.
function normalisedFromMode(n, start, ratio) {
  const weights = new Float64Array(n + 1);
  if (!Number.isFinite(ratio(0)) && n > 0) {
    weights[n] = 1; // fraction 1: every trial succeeds
    return weights;
  }
  weights[start] = 1;
  for (let x = start; x < n; x += 1) weights[x + 1] = weights[x] * ratio(x);
  for (let x = start - 1; x >= 0; x -= 1) weights[x] = weights[x + 1] / ratio(x);
  let sum = 0;
  for (const weight of weights) sum += weight;
  for (let x = 0; x <= n; x += 1) weights[x] /= sum;
  return weights;
}
