/** How long to wait before the next try. */

const FIRST_MS = 2_000;
const LONGEST_MS = 5 * 60_000;

export interface Waiting {
  /** How many tries have failed in a row, from 1. */
  readonly failures: number;
  /** Evenly spread from 0 to 1. */
  readonly chance: number;
  /** What the server asked for, if it did. */
  readonly asked_s?: number | null;
}

/**
 * Full jitter: evenly spread from 0 to a ceiling that doubles from 2 s to 5 min with each failure, so that many
 * devices that lost the server together do not come back together. A wait that the server asked for is added.
 */
export function delayMs({ failures, chance, asked_s = null }: Waiting): number {
  const ceiling = Math.min(LONGEST_MS, FIRST_MS * 2 ** Math.max(0, failures - 1));
  const asked = Math.min(LONGEST_MS, Math.max(0, asked_s ?? 0) * 1_000);
  return Math.round(asked + chance * ceiling);
}
