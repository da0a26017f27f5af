/** What a build sheet leaves out: brackets, bolts, wiring, lining, contents. Gaps nearly always fall that one way. */
import { checkRange } from "./errors";
import { DESCRIBED_U_M } from "./parts";
import type { Part } from "./statics";

export const FORGOTTEN = "forgotten";
// Of the added mass, 3 to 6 % (common practice, no source): the middle, and the u of anything between as likely.
export const LEAST_SHARE = 0.03;
export const GREATEST_SHARE = 0.06;
export const FORGOTTEN_SHARE = (LEAST_SHARE + GREATEST_SHARE) / 2;
const RELATIVE_U = (GREATEST_SHARE - LEAST_SHARE) / Math.sqrt(12) / FORGOTTEN_SHARE;
const MOST_SHARE = 0.2;
// Brackets, wiring, lining, tools, contents, tow gear, tyres: what practice names, each somewhere among the items
export const KINDS = 7; // (assumed)
export const NOTHING = 0; // the share where a record says none (assumed)

export interface Added {
  readonly added: readonly Part[];
  readonly share: number;
}

/** The forgotten mass of a build as one more part, in the middle of what was added; null for none. */
export function forgottenPart({ added, share }: Added): Part | null {
  checkRange("share", share, { low: 0, high: MOST_SHARE });
  const own = added.filter((part) => counts({ part }));
  const total = massOf(own);
  if (share === 0 || total <= 0) return null;
  const [x_m, x_u_m] = middle(own, (part) => part.x_m);
  const [y_m, y_u_m] = middle(own, (part) => part.y_m ?? 0);
  const high = own.filter((part) => part.z_m != null && part.mass_kg > 0);
  const [z_m, z_u_m] = high.length > 0 ? middle(high, (part) => part.z_m ?? 0) : [null, 0];
  const mass_kg = share * total;
  return { id: FORGOTTEN, mass_kg, mass_u_kg: RELATIVE_U * mass_kg, x_m, x_u_m, y_m, y_u_m, z_m, z_u_m };
}

/** Whether a part is mass added to the vehicle, of which a share is forgotten. */
export function counts({ part: { on, taken_off } }: { readonly part: Part }): boolean {
  return (on ?? "vehicle") === "vehicle" && !taken_off;
}

export interface ForgottenAfter {
  readonly part: Part;
  readonly share: number;
  readonly before: readonly Part[];
  readonly after: readonly Part[];
}

/** The forgotten part once some of the added parts stand elsewhere along the vehicle, from what it was. */
export function forgottenAfter({ part, share, before, after }: ForgottenAfter): Part {
  checkRange("share", share, { above: 0, high: MOST_SHARE });
  const total = part.mass_kg / share;
  let moment = total * part.x_m;
  let square = total * (KINDS * ((part.x_u_m ?? 0) ** 2 - DESCRIBED_U_M ** 2) + part.x_m ** 2);
  for (const [sign, parts] of [
    [-1, before],
    [1, after],
  ] as const)
    for (const one of parts)
      if (counts({ part: one })) {
        moment += sign * one.mass_kg * one.x_m;
        square += sign * one.mass_kg * one.x_m ** 2;
      }
  const x_m = moment / total;
  return { ...part, x_m, x_u_m: spread(square / total - x_m ** 2) };
}

/** Mass-weighted mean of places, and the u of something that may be at any of them. */
function middle(parts: readonly Part[], place: (part: Part) => number): [number, number] {
  const total = massOf(parts);
  const mean = parts.reduce((sum, part) => sum + part.mass_kg * place(part), 0) / total;
  const square = parts.reduce((sum, part) => sum + part.mass_kg * (place(part) - mean) ** 2, 0);
  return [mean, spread(square / total)];
}

function massOf(parts: readonly Part[]): number {
  return parts.reduce((sum, part) => sum + part.mass_kg, 0);
}

function spread(variance: number): number {
  return Math.sqrt(Math.max(variance, 0) / KINDS + DESCRIBED_U_M ** 2);
}
