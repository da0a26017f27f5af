/** Figures as words: tabular, with a narrow space between thousands and the unit always beside. */

// beyond these the log has told next to nothing of the rate, and a figure would only look like one
const FAR = 100_000;
const LONG = 1_000;
const THIN = "\u202f";

function grouped(value: number, decimals = 0): string {
  const [whole, rest] = Math.abs(value).toFixed(decimals).split(".") as [string, string?];
  const digits = whole.replace(/\B(?=(\d{3})+(?!\d))/g, THIN);
  const sign = value < 0 && Number(value.toFixed(decimals)) !== 0 ? "\u2212" : "";
  return sign + digits + (rest ? `.${rest}` : "");
}

/** 1 340 */
export const figure = grouped;

/** 1 340 kg */
export function kg(value: number): string {
  return `${grouped(value)}${THIN}kg`;
}

/** + 118, − 8: the sign is the message. */
export function signed(value: number): string {
  const rounded = Math.round(value);
  return `${rounded < 0 ? "\u2212" : "+"}${THIN}${grouped(Math.abs(rounded))}`;
}

/** + 118 kg */
export function signedKg(value: number): string {
  return `${signed(value)}${THIN}kg`;
}

/** 3 060 ± 25; on a narrow screen it may break before the ±, never after it. */
export function withReach(value: number, reach: number, decimals = 0): string {
  return `${grouped(value, decimals)} ±\u00a0${grouped(Math.abs(reach), decimals)}`;
}

/** ± of a standard uncertainty, two-sided 95 %. */
export function twoSided(u: number): number {
  return 1.959964 * u;
}

export function litres(value: number, decimals = 0): string {
  return `${grouped(value, decimals)}${THIN}L`;
}

export function km(value: number): string {
  if (value >= FAR) return `more than ${grouped(FAR)}${THIN}km`;
  return `${grouped(value)}${THIN}km`;
}

export function metres(value: number, decimals = 2): string {
  return `${grouped(value, decimals)}${THIN}m`;
}

export function days(value: number): string {
  if (value >= LONG) return `more than ${grouped(LONG)} days`;
  const text = grouped(Math.floor(value * 10) / 10, 1);
  return `${text} ${text === "1.0" ? "day" : "days"}`;
}

export function perHundred(value: number, decimals = 1): string {
  return `${grouped(value, decimals)}${THIN}L/100${THIN}km`;
}

/** 12 Sep 2026, in the zone where it happened. */
export function dayOf(at: string, zone: string): string {
  return local(at, zone, { day: "numeric", month: "short", year: "numeric" });
}

/** 12 Sep 2026, 09:14 */
export function momentOf(at: string, zone: string): string {
  return local(at, zone, {
    day: "numeric",
    month: "short",
    year: "numeric",
    hour: "2-digit",
    minute: "2-digit",
  });
}

function local(at: string, zone: string, options: Intl.DateTimeFormatOptions): string {
  try {
    return new Intl.DateTimeFormat("en-GB", { ...options, timeZone: zone }).format(new Date(at));
  } catch {
    return new Intl.DateTimeFormat("en-GB", { ...options, timeZone: "UTC" }).format(new Date(at));
  }
}
