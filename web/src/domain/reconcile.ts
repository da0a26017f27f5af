/** Plan and weighings put together: what each weighing teaches about every mass. One stacked update, never n x n. */
import { checkGeometry, type Geometry, hitchOffsetKg, TRAILER_ROWS } from "./axles";
import { type Bridge, gainU, OWN_REPEATS, ownVariance } from "./bridge";
import { checkRange, Duplicate, Unknown } from "./errors";
import {
  add,
  cholesky,
  choSolve,
  dot,
  finite,
  identity,
  type Matrix,
  matmul,
  matvec,
  subtract,
  symmetrise,
  transpose,
  type Vector,
} from "./linalg";
import { type Component, Reconciled, terms } from "./posterior";
import { checkParts, design, type Part } from "./statics";
import { axleKey, type Reading, readingCovariance, type SplitSetup } from "./weighing";

/** One weighing: the parts as they stood that day, and the figures with their bridge. */
export interface Session {
  readonly id: string;
  readonly lasting: readonly Part[];
  readonly passing: readonly Part[];
  readonly readings: readonly Reading[];
  readonly bridge: Bridge;
  readonly setup?: SplitSetup | null;
  /** That day's where it was another, with a trailer for instance. */
  readonly geometry?: Geometry | null;
}

export interface Reconcile {
  readonly lasting: readonly Part[];
  readonly geometry: Geometry;
  readonly sessions: readonly Session[];
  /** Parts that are aboard in every session, those of a trailer while it is on. */
  readonly unlisted?: readonly Part[];
  /** Links the two base masses, in [-1, 1]. */
  readonly base_correlation?: number;
}

/** Prior from the plan's lasting parts, updated with every session's readings at once; none give the prior. */
export function reconcile(input: Reconcile): Reconciled {
  const { lasting, geometry, sessions, unlisted = [], base_correlation = 0 } = input;
  checkRange("base_correlation", base_correlation, { low: -1, high: 1 });
  checkGeometry(geometry);
  checkParts([...lasting, ...unlisted]);
  checkSessions(sessions);
  const stacked = sessions
    .filter((session) => session.readings.length > 0)
    .map((session) => stack(session, session.geometry ?? geometry, unlisted));
  const posterior = new Reconciled(priorOf([...lasting, ...unlisted], stacked), geometry, base_correlation);
  if (stacked.length > 0)
    posterior.learn({
      ids: stacked.flatMap((one) => one.ids),
      design: stacked.flatMap((one) => one.rows(posterior)),
      readings: stacked.flatMap((one) => one.readings),
      noise: blockDiagonal(stacked.map((one) => one.noise)),
    });
  return posterior;
}

export interface Update {
  readonly mean: Vector;
  readonly cov: Matrix;
  readonly design: Matrix;
  readonly readings: Vector;
  readonly noise: Matrix;
}

/** One Joseph-form update of a full state: mean, covariance and chi2 of the innovation. */
export function update({ mean, cov, design, readings, noise }: Update): [number[], number[][], number] {
  for (const [field, values] of Object.entries({ mean, cov, design, readings, noise })) finite(field, values);
  if (readings.length === 0) return [[...mean], cov.map((row) => [...row]), 0];
  const spread = matmul(design, cov);
  const lower = cholesky(add(matmul(spread, transpose(design)), noise));
  const gain = transpose(choSolve(lower, spread));
  const expected = matvec(design, mean);
  const innovation = readings.map((value, i) => value - expected[i]!);
  const rest = subtract(identity(mean.length), matmul(gain, design));
  const kept = matmul(matmul(rest, cov), transpose(rest));
  const after = add(kept, matmul(matmul(gain, noise), transpose(gain)));
  const shift = matvec(gain, innovation);
  const chi2 = dot(innovation, choSolve(lower, innovation));
  return [mean.map((value, i) => value + shift[i]!), symmetrise(after), chi2];
}

/** One session: its components of the state, its readings freed of the hitch's moment, and their noise. */
interface Stacked {
  readonly ids: readonly string[];
  readonly blocks: readonly Block[];
  readonly errors: readonly Named[];
  readonly readings: Vector;
  readonly noise: Matrix;
  /** The readings' rows over the state. */
  rows(posterior: Reconciled): Float64Array[];
}

interface Named {
  readonly name: string;
  readonly prior: Component;
}

/** Some parts' components of the state, and what one kg or kg m of each does to every reading. */
interface Block {
  readonly named: readonly Named[];
  readonly columns: readonly Float64Array[];
}

/** What does not depend on other sessions is kept with its session: a book on the deck is put together often. */
const ALONE = new WeakMap<Session, Pick<Stacked, "blocks" | "errors" | "noise">>();

function stack(session: Session, geometry: Geometry, unlisted: readonly Part[]): Stacked {
  const { readings, bridge, id } = session;
  const { own_repeats = OWN_REPEATS } = bridge;
  const kept = (session.geometry ? ALONE.get(session) : undefined) ?? alone(session, geometry);
  ALONE.set(session, kept);
  const here = unlisted.filter(
    (one) => (one.on ?? "vehicle") === "vehicle" || one.on === geometry.trailer?.id,
  );
  const blocks = [...kept.blocks, blockOf(here, "", readings, geometry)];
  return {
    ids: readings.map((reading) => `${id}:${reading.id}`),
    blocks,
    errors: kept.errors,
    readings: readings.map((one) => one.value_kg - (one.uncoupled ? 0 : hitch(one.axles, geometry))),
    noise: kept.noise,
    rows(posterior) {
      const { order } = posterior;
      const places = blocks.map(({ named }) => named.map(({ name }) => order.get(name)!));
      const shares = blocks.map(({ named }) =>
        named.map(({ name, prior }) => posterior.shareOf(name, prior)),
      );
      return readings.map((reading, k) => {
        const row = new Float64Array(order.size);
        for (const [b, { columns }] of blocks.entries())
          for (const [i, place] of places[b]!.entries()) row[place] = columns[k]![i]! * shares[b]![i]!;
        const own = own_repeats * ownVariance({ bridge, value_kg: reading.value_kg });
        row[order.get(gainName(bridge, reading))!] = reading.value_kg;
        row[order.get(ownName(bridge, reading))!] = Math.sqrt(own);
        return row;
      });
    },
  };
}

function alone(session: Session, geometry: Geometry): Pick<Stacked, "blocks" | "errors" | "noise"> {
  checkGeometry(geometry);
  checkSession(session);
  const { readings, bridge, setup = null, lasting, passing, id } = session;
  const gain: Component = { mean: 0, u: gainU({ bridge }), kind: "gain" };
  const own: Component = { mean: 0, u: 1, kind: "own" };
  const own_share = 1 - (bridge.own_repeats ?? OWN_REPEATS);
  return {
    blocks: [blockOf(lasting, "", readings, geometry), blockOf(passing, `${id}:`, readings, geometry)],
    errors: readings.flatMap((one) => [
      { name: gainName(bridge, one), prior: gain },
      { name: ownName(bridge, one), prior: own },
    ]),
    noise: readingCovariance({ readings, bridge, setup, with_gain: false, own_share }),
  };
}

function blockOf(
  parts: readonly Part[],
  prefix: string,
  readings: readonly Reading[],
  geometry: Geometry,
): Block {
  const axles = [...new Set(readings.flatMap((reading) => reading.axles))];
  const d = design({ parts, geometry, rows: axles });
  const named = parts.flatMap((part, j) =>
    terms(part).map(([name, prior, columns]) => ({ name: prefix + name, prior, columns, j })),
  );
  const columns = readings.map((reading) => {
    const { uncoupled = false, without = [] } = reading;
    const rows = axles.map((axle, k) => ({ axle, k })).filter(({ axle }) => reading.axles.includes(axle));
    return Float64Array.from(named, ({ columns: of, j }) => {
      const part = parts[j]!;
      if (without.length > 0 && without.includes(part.id)) return 0;
      const apart = uncoupled && (part.on ?? "vehicle") !== "vehicle";
      let sum = 0;
      for (const { axle, k } of rows) if (!apart || TRAILER_ROWS.includes(axle)) sum += d[of][k]![j]!;
      return sum;
    });
  });
  return { named, columns };
}

function hitch(axles: readonly string[], geometry: Geometry): number {
  return axles.reduce((sum, row) => sum + hitchOffsetKg({ row, geometry }), 0);
}

function gainName(bridge: Bridge, { deck = "" }: Reading): string {
  return `gain:${bridge.key}:${deck}`;
}

function ownName(bridge: Bridge, reading: Reading): string {
  return `own:${bridge.key}:${reading.deck ?? ""}:${axleKey(reading)}`;
}

/** The plan's lasting parts as they are now, then what only the sessions have; per bridge the greatest gain error. */
function priorOf(lasting: readonly Part[], stacked: readonly Stacked[]): Map<string, Component> {
  const prior = new Map<string, Component>();
  for (const part of lasting) for (const [name, one] of terms(part)) prior.set(name, one);
  const add = ({ name, prior: one }: Named) => {
    const known = prior.get(name);
    if (!known || (one.kind === "gain" && one.u > known.u)) prior.set(name, one);
  };
  for (const { blocks, errors } of stacked) {
    for (const { named } of blocks) named.forEach(add);
    errors.forEach(add);
  }
  return prior;
}

function blockDiagonal(blocks: readonly Matrix[]): number[][] {
  const size = blocks.reduce((total, block) => total + block.length, 0);
  const out = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  let at = 0;
  for (const block of blocks) {
    for (const [i, row] of block.entries())
      for (const [j, value] of row.entries()) out[at + i]![at + j] = value;
    at += block.length;
  }
  return out;
}

function checkSessions(sessions: readonly Session[]): void {
  const seen = new Set<string>();
  for (const { id } of sessions) {
    if (seen.has(id)) throw new Duplicate("session", id);
    seen.add(id);
  }
  for (const session of sessions) if (session.readings.length === 0) checkSession(session);
}

function checkSession({ lasting, passing, readings, bridge }: Session): void {
  const parts = [...lasting, ...passing];
  checkParts(parts);
  checkRange("own_repeats", bridge.own_repeats ?? OWN_REPEATS, { low: 0, high: 1 });
  const known = new Set(parts.map((part) => part.id));
  for (const name of readings.flatMap((reading) => reading.without ?? []))
    if (!known.has(name)) throw new Unknown("without", name, [...known]);
}
