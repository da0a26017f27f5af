/** The normal and the chi-square distribution, without a library, alike in both languages. */
import { checkFinite, checkRange, DomainError } from "./errors";

export const FAR = 40; // beyond it the tail is below every positive double
const MOST_DOF = 1e6; // more readings than anybody takes (our choice)

/** Density of the standard normal distribution, exp(-x^2/2)/sqrt(2 pi). */
export function pdf(x: number): number {
  checkFinite("x", x);
  return Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);
}

/** Distribution function, relative error below 4e-14 for |x| <= 12. For an upper tail call cdf(-x), never 1 - cdf(x). */
export function cdf(x: number): number {
  if (Math.abs(x) > FAR && Number.isFinite(x)) return x > 0 ? 1 : 0;
  checkFinite("x", x);
  if (x < -2) return lowerTail(-x);
  return x <= 4.5 ? series(x) : 1 - lowerTail(x);
}

/** x with cdf(x) = p, for 0 < p < 1, by 70 halvings of [-40, 0]; symmetric above one half. */
export function quantile(p: number): number {
  checkRange("p", p, { above: 0, below: 1 });
  if (p > 0.5) return -quantile(1 - p);
  if (p === 0.5) return 0;
  let [low, high] = [-40, 0];
  for (let i = 0; i < 70; i++) {
    const middle = (low + high) / 2;
    if (cdf(middle) < p) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** How many u a one-sided confidence is worth, 1.6449 at 0.95; from 0.5 to below 1, else refused. */
export function zAt(confidence: number): number {
  return quantile(checkRange("confidence", confidence, { low: 0.5, below: 1 }));
}

/** Chance that a chi-square variable of `dof` degrees of freedom exceeds x >= 0 (Abramowitz and Stegun 26.4). */
export function chi2Upper(x: number, dof: number): number {
  checkRange("x", x, { low: 0 });
  checkRange("dof", dof, { low: 1, high: MOST_DOF });
  if (dof % 1) throw new DomainError("dof", dof, "a whole number from 1 to 1e6");
  return dof % 2 === 0 ? evenUpper(x, dof) : oddUpper(x, dof);
}

function evenUpper(x: number, dof: number): number {
  let term = Math.exp(-x / 2);
  let total = term;
  for (let i = 1; i < dof / 2; i++) {
    term *= x / 2 / i;
    total += term;
  }
  return total;
}

function oddUpper(x: number, dof: number): number {
  let term = Math.sqrt((2 * x) / Math.PI) * Math.exp(-x / 2);
  let total = 2 * cdf(-Math.sqrt(x));
  for (let i = 1; i < dof - 1; i += 2) {
    total += term;
    term *= x / (i + 2);
  }
  return total;
}

/** Marsaglia 2004, J. Stat. Software 11(4), from memory. */
function series(x: number): number {
  let total = x;
  let term = x;
  for (let k = 1; total + term !== total; k++) {
    term *= (x * x) / (2 * k + 1);
    total += term;
  }
  return 0.5 + pdf(x) * total;
}

/** phi(a)/(a + 1/(a + 2/(a + ...))), evaluated from its far end (Abramowitz and Stegun 26.2.14, from memory). */
function lowerTail(a: number): number {
  let fraction = a;
  for (let k = a < 3 ? 400 : 120; k > 0; k--) fraction = a + k / fraction;
  return pdf(a) / fraction;
}
