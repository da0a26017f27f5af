/**
 * The places that an item may move to, in one cell: "Tray front (x 2.4 m, z 1.1 m) | Drawbar box (x 0.4 m, on Trailer)".
 * Always in metres with a decimal point; a place alone, "2.4", is one without a name.
 */
import type { Body } from "@/domain/book";

export type NamedTrailers = readonly (readonly [id: string, name: string])[];

/** The cell of a list of places. */
export function slotsText(slots: readonly Body[], trailers: NamedTrailers): string {
  return slots.map((one) => slotText(one, trailers)).join(" | ");
}

function slotText({ label, x_m, y_m, z_m, roof, trailer_id }: Body, trailers: NamedTrailers): string {
  const on = trailer_id ? (trailers.find(([id]) => id === trailer_id)?.[1] ?? trailer_id) : null;
  const facts = [
    `x ${plain(x_m)} m`,
    ...(y_m == null ? [] : [`y ${plain(y_m)} m`]),
    ...(z_m == null ? [] : [`z ${plain(z_m)} m`]),
    ...(roof ? ["roof"] : []),
    ...(on ? [`on ${escaped(on)}`] : []),
  ];
  return `${label ? `${escaped(label)} ` : ""}(${facts.join(", ")})`;
}

/** Without an exponent: nobody places anything to less than a millionth of a millimetre. */
function plain(value: number): string {
  const text = String(value);
  return text.includes("e") ? value.toFixed(9) : text;
}

const NUMBER = "(-?\\d+(?:\\.\\d+)?)";
const SLOT = new RegExp(
  `^(?:(.*) )?\\(x ${NUMBER} m(?:, y ${NUMBER} m)?(?:, z ${NUMBER} m)?(, roof)?(?:, on (.+))?\\)$`,
  "s",
);

/** What the schema allows of a place, m. */
const RANGES = { x_m: [-3, 20], y_m: [-2, 2], z_m: [0, 5] } as const;
const MOST = 12;
const LONGEST = 40;

/** The places of a cell; null where it cannot be read. */
export function readSlots(text: string, trailers: NamedTrailers): Body[] | null {
  const parts = text.match(PART) ?? [];
  const read = parts.map((one) => readSlot(one.trim(), trailers));
  const there = read.filter((one) => one !== null);
  const whole = there.length === read.length && there.length > 0 && there.length <= MOST;
  return whole ? there : null;
}

/** Up to a stroke that no backslash makes plain. */
const PART = /(?:\\.|[^\\|])+/gs;

function readSlot(text: string, trailers: NamedTrailers): Body | null {
  const alone = /^-?\d+(?:\.\d+)?$/.test(text);
  const found = SLOT.exec(alone ? `(x ${text} m)` : text);
  if (!found) return null;
  const [, label, x, y, z, roof, on] = found;
  const trailer = on === undefined ? undefined : trailers.find(([, name]) => name === unescaped(on));
  if ((on !== undefined && !trailer) || (label ?? "").length > 2 * LONGEST) return null;
  const slot: Body = {
    ...(label ? { label: unescaped(label) } : {}),
    ...(trailer ? { trailer_id: trailer[0] } : {}),
    ...(roof ? { roof: true } : {}),
    x_m: Number(x),
    ...(y === undefined ? {} : { y_m: Number(y) }),
    ...(z === undefined ? {} : { z_m: Number(z) }),
  };
  const fits = Object.entries(RANGES).every(
    ([name, [low, high]]) => slot[name] === undefined || (slot[name] >= low && slot[name] <= high),
  );
  return fits && (slot.label ?? "").length <= LONGEST ? slot : null;
}

function escaped(text: string): string {
  return text.replace(/[\\|()]/g, "\\$&");
}

function unescaped(text: string): string {
  return text.replace(/\\(.)/gs, "$1");
}
