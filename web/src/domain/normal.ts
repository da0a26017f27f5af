/** The normal and the chi-square distribution, without a library, alike in both languages. */
import { checkFinite, checkRange } from "./errors";

/** Density of the standard normal distribution, exp(-x^2/2)/sqrt(2 pi). */
export function pdf(x: number): number {
  checkFinite("x", x);
  return Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);
}

/** Distribution function, relative error below 4e-14 for |x| <= 12. For an upper tail call cdf(-x), never 1 - cdf(x). */
export function cdf(x: number): number {
  checkFinite("x", x);
  if (x < -2) return lowerTail(-x);
  return x <= 4.5 ? series(x) : 1 - lowerTail(x);
}

/** x with cdf(x) = p, for 0 < p < 1, by 70 halvings of [-40, 0]; symmetric above one half. */
export function quantile(p: number): number {
  checkRange("p", p, { above: 0 });
  if (p >= 1) checkRange("p", -p, { above: -1 });
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

/** Chance that a chi-square variable of `dof` >= 1 degrees of freedom exceeds x >= 0 (Abramowitz and Stegun 26.4). */
export function chi2Upper(x: number, dof: number): number {
  checkRange("x", x, { low: 0 });
  checkRange("dof", dof, { low: 1 });
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
