import { ERROR } from "../formula/values.js";

/**
 * Lanczos's sum for the logarithm of the gamma function, with g = 607/128 and 15 terms, good to about 15 digits.
 *
 * @source Coefficients by P. Godfrey, "A note on the computation of the convergent Lanczos complex Gamma approximation"
 */
const LANCZOS_G = 607 / 128;
const LANCZOS = [
  0.9999999999999971, 57.15623566586292, -59.59796035547549, 14.136097974741746, -0.4919138160976202,
  3.399464998481189e-5, 4.652362892704858e-5, -9.837447530487956e-5, 0.0001580887032249125, -0.00021026444172410488,
  0.00021743961811521265, -0.0001643181065367639, 8.441822398385275e-5, -2.6190838401581408e-5, 3.6899182659531625e-6,
];

const PRECISION = 1e-16;
const MOST_TERMS = 10_000;

/** The natural logarithm of the gamma function, for a number above 0. */
export function logGamma(x: number): number {
  if (x < 0.5) return Math.log(Math.PI / Math.abs(Math.sin(Math.PI * x))) - logGamma(1 - x);
  const below = x - 1;
  let total = LANCZOS[0] as number;
  for (let term = 1; term < LANCZOS.length; term += 1) total += (LANCZOS[term] as number) / (below + term);
  const shifted = below + LANCZOS_G + 0.5;
  return Math.log(Math.sqrt(2 * Math.PI) * total) - shifted + (below + 0.5) * Math.log(shifted);
}

export function gamma(x: number): number {
  if (Number.isInteger(x)) {
    if (x <= 0) throw ERROR.number;
    let product = 1;
    for (let factor = 2; factor < x && Number.isFinite(product); factor += 1) product *= factor;
    return product;
  }
  if (x < 0.5) return Math.PI / (Math.sin(Math.PI * x) * gamma(1 - x));
  return Math.exp(logGamma(x));
}

/** From here on a series would be too long, and the expansion for large numbers is exact to 15 digits. */
const LARGE = 100_000;

/** x - ln(1 + x), without the loss of digits that the difference has near 0. */
function aboveLog(x: number): number {
  if (Math.abs(x) > 0.1) return x - Math.log1p(x);
  let [total, power] = [0, -x];
  for (let n = 2; n < 40; n += 1) {
    power *= -x;
    total += power / n;
  }
  return total;
}

/**
 * x^a e^-x / Γ(a + 1), the Poisson distribution's probability of a where x is expected.
 *
 * @source NIST Digital Library of Mathematical Functions, 5.11.1 (Stirling's series), put so that large numbers keep their
 * digits
 */
export function gammaTerm(a: number, x: number): number {
  if (a < 100) return Math.exp(a * Math.log(x) - x - logGamma(a + 1));
  const rest = (1 / 12 - (1 / 360 - 1 / (1260 * a * a)) / (a * a)) / a;
  return Math.exp(-a * aboveLog((x - a) / a) - rest) / Math.sqrt(2 * Math.PI * a);
}

/**
 * The share of the gamma function's integral above x, for large a.
 *
 * @source NIST Digital Library of Mathematical Functions, 8.12.4, 8.12.10 and 8.12.11; near x = a their power series
 */
function gammaRestOfLarge(a: number, x: number): number {
  const part = (x - a) / a;
  const eta = Math.sign(part) * Math.sqrt(2 * aboveLog(part));
  const near = Math.abs(eta) < 0.01;
  const first = near
    ? -1 / 3 + eta * (1 / 12 + eta * (-2 / 135 + eta * (1 / 864 + eta * (1 / 2835))))
    : 1 / part - 1 / eta;
  const second = near
    ? -1 / 540 + eta * (-1 / 288 + eta * (1 / 378))
    : 1 / eta ** 3 - 1 / part ** 3 - 1 / part ** 2 - 1 / (12 * part);
  const slope = Math.exp(-a * aboveLog(part)) / Math.sqrt(2 * Math.PI * a);
  return errorRest(eta * Math.sqrt(a / 2)) / 2 + slope * (first + second / a);
}

/** The share of the gamma function's integral below x. */
export function gammaShare(a: number, x: number): number {
  if (x <= 0) return 0;
  if (a >= LARGE) return 1 - gammaRestOfLarge(a, x);
  if (x < a + 1) {
    let term = 1 / a;
    let total = term;
    for (let n = 1; n < MOST_TERMS && Math.abs(term) > Math.abs(total) * PRECISION; n += 1) {
      term *= x / (a + n);
      total += term;
    }
    return total * a * gammaTerm(a, x);
  }
  return 1 - gammaRest(a, x);
}

/** The share above x, exact where it is small. */
export function gammaRest(a: number, x: number): number {
  if (x <= 0) return 1;
  if (a >= LARGE) return gammaRestOfLarge(a, x);
  if (x < a + 1) return 1 - gammaShare(a, x);
  let b = x + 1 - a;
  let c = 1e300;
  let d = 1 / b;
  let fraction = d;
  for (let n = 1; n < MOST_TERMS; n += 1) {
    const step = -n * (n - a);
    b += 2;
    d = 1 / (step * d + b || 1e-300);
    c = b + step / c || 1e-300;
    const change = c * d;
    fraction *= change;
    if (Math.abs(change - 1) < PRECISION * 4) break;
  }
  return fraction * a * gammaTerm(a, x);
}

function betaFraction(x: number, a: number, b: number): number {
  let c = 1;
  let d = 1 / (1 - ((a + b) * x) / (a + 1) || 1e-300);
  let fraction = d;
  for (let n = 1; n < MOST_TERMS; n += 1) {
    const even = (n * (b - n) * x) / ((a + 2 * n - 1) * (a + 2 * n));
    d = 1 / (1 + even * d || 1e-300);
    c = 1 + even / c || 1e-300;
    fraction *= d * c;
    const odd = (-(a + n) * (a + b + n) * x) / ((a + 2 * n) * (a + 2 * n + 1));
    d = 1 / (1 + odd * d || 1e-300);
    c = 1 + odd / c || 1e-300;
    const change = d * c;
    fraction *= change;
    if (Math.abs(change - 1) < PRECISION * 4) break;
  }
  return fraction;
}

/** The share of the beta function's integral below x. */
export function betaShare(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  const front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x));
  if (x < (a + 1) / (a + b + 2)) return (front * betaFraction(x, a, b)) / a;
  return 1 - (front * betaFraction(1 - x, b, a)) / b;
}

export function errorFunction(x: number): number {
  return x < 0 ? -gammaShare(0.5, x * x) : gammaShare(0.5, x * x);
}

export function errorRest(x: number): number {
  return x < 0 ? 2 - gammaRest(0.5, x * x) : gammaRest(0.5, x * x);
}

export function normalShare(z: number): number {
  return z < 0 ? errorRest(-z / Math.SQRT2) / 2 : 1 - errorRest(z / Math.SQRT2) / 2;
}

/** Returns where a rising function takes a value, between two places. */
export function solve(rising: (x: number) => number, wanted: number, from: number, to: number): number {
  let [low, high] = [from, to];
  for (let step = 0; step < 2_000; step += 1) {
    const middle = low / 2 + high / 2;
    if (middle <= low || middle >= high) break;
    if (rising(middle) < wanted) low = middle;
    else high = middle;
  }
  const [below, above] = [Math.abs(rising(low) - wanted), Math.abs(rising(high) - wanted)];
  return below < above ? low : high;
}

/** The same where only the lower end is known. */
export function solveAbove(rising: (x: number) => number, wanted: number, from: number): number {
  let to = Math.max(1, from * 2);
  while (rising(to) < wanted && to < 1e300) to *= 2;
  return solve(rising, wanted, from, to);
}

/**
 * The z below which a share of the normal distribution lies: Acklam's estimate, made exact by two of Halley's steps.
 *
 * @source P. J. Acklam, "An algorithm for computing the inverse normal cumulative distribution function"
 */
export function normalInverse(share: number): number {
  if (share <= 0 || share >= 1) throw ERROR.number;
  if (share === 0.5) return 0;
  if (share > 0.5 && share > 0.9) return -normalInverse(1 - share);
  let z = acklam(share);
  for (let step = 0; step < 2; step += 1) {
    const error = normalShare(z) - share;
    const change = error * Math.sqrt(2 * Math.PI) * Math.exp((z * z) / 2);
    z -= change / (1 + (z * change) / 2);
  }
  return z;
}

function acklam(share: number): number {
  const a = [
    -3.969683028665376e1, 2.209460984245205e2, -2.759285104469687e2, 1.38357751867269e2, -3.066479806614716e1,
    2.506628277459239,
  ];
  const b = [
    -5.447609879822406e1, 1.615858368580409e2, -1.556989798598866e2, 6.680131188771972e1, -1.328068155288572e1, 1,
  ];
  const c = [
    -7.784894002430293e-3, -3.223964580411365e-1, -2.400758277161838, -2.549732539343734, 4.374664141464968,
    2.938163982698783,
  ];
  const d = [7.784695709041462e-3, 3.224671290700398e-1, 2.445134137142996, 3.754408661907416, 1];
  const polynomial = (factors: readonly number[], x: number) =>
    factors.reduce((total, factor) => total * x + factor, 0);
  if (share < 0.02425) {
    const q = Math.sqrt(-2 * Math.log(share));
    return polynomial(c, q) / polynomial(d, q);
  }
  const q = share - 0.5;
  const r = q * q;
  return (polynomial(a, r) * q) / polynomial(b, r);
}
