/** Arrows that stand too close to be told apart are one arrow with a count; the heaviest few have their names above. */
import type { Arrow } from "./marks";

export interface Group {
  /** Drawing unit of its mass's middle. */
  readonly x: number;
  readonly mass_kg: number;
  /** The heaviest first. */
  readonly members: readonly Arrow[];
}

const APART = 15;

/** Neighbours within `apart` drawing units go together; things on the trailer and on the vehicle do not. */
export function grouped(arrows: readonly Arrow[], x: (arrow: Arrow) => number, apart = APART): Group[] {
  const sorted = arrows.map((arrow) => ({ arrow, at: x(arrow) })).sort((a, b) => a.at - b.at);
  const bundles: (typeof sorted)[] = [];
  for (const one of sorted) {
    const first = bundles.at(-1)?.[0];
    const joins = first && one.at - first.at < apart && first.arrow.trailer === one.arrow.trailer;
    if (joins) bundles.at(-1)!.push(one);
    else bundles.push([one]);
  }
  return bundles.map((bundle) => {
    const mass_kg = bundle.reduce((sum, { arrow }) => sum + arrow.mass_kg, 0);
    const moment = bundle.reduce((sum, { arrow, at }) => sum + arrow.mass_kg * at, 0);
    const members = bundle.map(({ arrow }) => arrow).sort((a, b) => b.mass_kg - a.mass_kg);
    return { x: mass_kg > 0 ? moment / mass_kg : bundle[0]!.at, mass_kg, members };
  });
}

/** The group nearest to a finger, or null where none is within its reach. */
export function nearest(groups: readonly Group[], x: number, reach: number): Group | null {
  const [best] = [...groups].sort((a, b) => Math.abs(a.x - x) - Math.abs(b.x - x));
  return best && Math.abs(best.x - x) <= reach ? best : null;
}

export interface Name {
  readonly text: string;
  readonly x: number;
  /** 0 right above the arrows, 1 a line higher. */
  readonly row: number;
}

const CHARACTER = 5.6; // width of one letter of the drawing's face at 11 units, with a little to spare
export const NAME_LINES = 2;
const LONGEST = 18;

/** Names of the heaviest groups, on two lines, none over another; one that finds no room has none. */
export function named(groups: readonly Group[], width: number, most: number): Name[] {
  const placed: (Name & { readonly half: number })[] = [];
  const heaviest = [...groups].sort((a, b) => b.mass_kg - a.mass_kg).slice(0, most);
  for (const { x, members } of heaviest) {
    const text = shortened(members[0]!.label) + (members.length > 1 ? " +" : "");
    const half = (text.length * CHARACTER) / 2;
    const middle = Math.min(Math.max(x, half), width - half);
    const clear = (row: number) =>
      placed.every((one) => one.row !== row || Math.abs(one.x - middle) > one.half + half + 4);
    const row = [...Array(NAME_LINES).keys()].find(clear);
    if (row !== undefined) placed.push({ text, x: middle, row, half });
  }
  return placed;
}

export function shortened(label: string): string {
  return label.length > LONGEST ? `${label.slice(0, LONGEST - 1)}…` : label;
}
