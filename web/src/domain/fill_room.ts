/** What a fill does to the ratings: the litres after which the first of them is over, and every one after so many. */
import type { Book } from "./book";
import { checkRange, Unknown } from "./errors";
import type { Learning } from "./learning";
import { CONFIDENCE, type Verdict } from "./limits";
import { densityOf, fuelOf, positionUM } from "./parts";
import { ask, roomAt, type Which } from "./room";
import { boundsOn, roomLeft } from "./room_left";
import type { State } from "./state";

/** Litres that may go into one tank with every rating held; the Python twin explains each field. */
export interface FillRoom {
  readonly tank_id: string;
  /** Null where no known rating binds. */
  readonly most_l: number | null;
  /** The one that goes first. */
  readonly binds: Which | null;
  /** What the tank still takes by its level. */
  readonly fits_l: number;
  readonly already: readonly Which[];
  readonly unknown: readonly string[];
  /** Every rating after the litres asked about. */
  readonly after: readonly Verdict[];
}

export interface AskFill {
  readonly book: Book;
  readonly state: State;
  readonly day: string;
  readonly tank_id: string;
  readonly litres_l?: number | null;
  readonly confidence?: number;
  readonly learning?: Learning | null;
}

/** The greatest litres that keep every rating under that is under now, and which goes first; null without a plan. */
export function fillRoom(asked: AskFill): FillRoom | null {
  const { book, state, day, tank_id, confidence = CONFIDENCE, learning = null } = asked;
  const tank = book.tanks.find((row) => row.id === tank_id);
  if (!tank) {
    const ids = book.tanks.map((row) => row.id);
    throw new Unknown("tank_id", tank_id, ids);
  }
  const litres = checkRange("litres_l", asked.litres_l ?? 0, { low: 0, unit: "L" });
  const { body } = tank;
  const on: string = body.trailer_id || "vehicle";
  const there = on === "vehicle" || state.trailers_on.includes(on);
  if (body.x_m == null || body.capacity_l == null || !there) return null;
  const left = roomLeft({ book, state, day, confidence, learning });
  if (!left) return null;
  const bounds = boundsOn({ room: left, on });
  const [density, density_u] = densityOf(body, fuelOf(book.vehicle?.body, state));
  const put = { bounds, confidence, x_m: body.x_m, x_u_m: positionUM(body) };
  const { most_kg, binds, already, unknown } = roomAt({ ...put, mass_share: density_u / density });
  const mass = { mass_kg: density * litres, mass_u_kg: density_u * litres };
  const after = litres > 0 ? ask({ ...put, ...mass }).after : [];
  const level = state.tanks.find((one) => one.tank_id === tank_id)?.level ?? 0.5;
  return {
    tank_id,
    most_l: most_kg === null ? null : most_kg / density,
    binds,
    fits_l: body.capacity_l * Math.max(1 - level, 0),
    already,
    unknown,
    after: after.flatMap((one) => (one.side === "upper" ? [one.verdict] : [])),
  };
}
