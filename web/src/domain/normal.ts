/** The normal distribution and the upper tail of chi-square, the same in both languages. */
import { checkRange } from "./errors";

const ROOT_2PI = Math.sqrt(2 * Math.PI);

/** Standard normal density. */
export function pdf(x: number): number {
  return Math.exp((-x * x) / 2) / ROOT_2PI;
}

/** Standard normal distribution function (Marsaglia 2004, from memory; continued fraction in the tail). */
export function cdf(x: number): number {
  if (x < -2) return lowerTail(-x);
  if (x > 4.5) return 1 - lowerTail(x);
  let term = x;
  let total = x;
  for (let k = 1; total + term !== total; k++) {
    term *= (x * x) / (2 * k + 1);
    total += term;
  }
  return 0.5 + pdf(x) * total;
}

function lowerTail(a: number): number {
  let below = a;
  for (let k = a < 3 ? 400 : 120; k > 0; k--) below = a + k / below;
  return pdf(a) / below;
}

/** x with cdf(x) = p for 0 < p < 1, by bisection in the lower half and symmetry above. */
export function quantile(p: number): number {
  checkRange("p", p, { above: 0, high: 1 });
  checkRange("p", 1 - p, { above: 0 });
  if (p > 0.5) return -quantile(1 - p);
  let low = -40;
  let high = 0;
  for (let i = 0; i < 70; i++) {
    const middle = (low + high) / 2;
    if (cdf(middle) < p) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** P(chi-square with `dof` degrees of freedom > x); closed forms (Abramowitz & Stegun 26.4, from memory). */
export function chi2Upper(x: number, dof: number): number {
  checkRange("x", x, { low: 0 });
  checkRange("dof", dof, { low: 1 });
  if (dof % 2 === 0) {
    let term = 1;
    let total = 1;
    for (let i = 1; i < dof / 2; i++) {
      term *= x / 2 / i;
      total += term;
    }
    return Math.exp(-x / 2) * total;
  }
  let total = 2 * cdf(-Math.sqrt(x));
  let term = Math.sqrt((2 * x) / Math.PI) * Math.exp(-x / 2);
  for (let i = 1; i < dof - 1; i += 2) {
    total += term;
    term *= x / (i + 2);
  }
  return total;
}
