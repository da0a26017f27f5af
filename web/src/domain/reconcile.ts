/** Plan and weighings put together: what each weighing teaches about every mass. One stacked update, never n x n. */
import { checkGeometry, type Geometry, hitchOffsetKg, TRAILER_ROWS } from "./axles";
import { type Bridge, gainU, OWN_REPEATS, ownVariance } from "./bridge";
import { Duplicate, Unknown } from "./errors";
import {
  add,
  cholesky,
  choSolve,
  dot,
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
}

/** Prior from the plan's lasting parts, updated with every session's readings at once; none give the prior. */
export function reconcile({ lasting, geometry, sessions }: Reconcile): Reconciled {
  checkGeometry(geometry);
  checkParts(lasting);
  checkSessions(sessions);
  const stacked = sessions
    .filter((session) => session.readings.length > 0)
    .map((session) => stack(session, session.geometry ?? geometry));
  const posterior = new Reconciled(priorOf(lasting, stacked), geometry);
  if (stacked.length > 0)
    posterior.learn({
      ids: stacked.flatMap((one) => one.ids),
      design: stacked.flatMap((one) => one.rows.map((row) => posterior.row(row))),
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

/** One session's rows over the state, its readings freed of the hitch's moment, and their noise. */
interface Stacked {
  readonly ids: readonly string[];
  readonly components: ReadonlyMap<string, Component>;
  readonly rows: readonly (readonly (readonly [string, number])[])[];
  readonly readings: Vector;
  readonly noise: Matrix;
}

function stack(session: Session, geometry: Geometry): Stacked {
  checkGeometry(geometry);
  const components = new Map<string, Component>();
  const hitch = (axles: readonly string[]) =>
    axles.reduce((sum, row) => sum + hitchOffsetKg({ row, geometry }), 0);
  const { readings, bridge, setup = null } = session;
  return {
    ids: readings.map((reading) => `${session.id}:${reading.id}`),
    components,
    rows: readings.map((reading) => rowOf(session, reading, geometry, components)),
    readings: readings.map((one) => one.value_kg - (one.uncoupled ? 0 : hitch(one.axles))),
    noise: readingCovariance({ readings, bridge, setup, with_gain: false, own_share: 1 - OWN_REPEATS }),
  };
}

function rowOf(
  session: Session,
  reading: Reading,
  geometry: Geometry,
  components: Map<string, Component>,
): [string, number][] {
  const { bridge } = session;
  const { value_kg, deck = "", without = [] } = reading;
  const gain = `gain:${bridge.key}:${deck}`;
  const own = `own:${bridge.key}:${deck}:${axleKey(reading)}`;
  components.set(gain, { mean: 0, u: gainU({ bridge }), kind: "gain" });
  components.set(own, { mean: 0, u: 1, kind: "own" });
  const out: [string, number][] = [
    [gain, value_kg],
    [own, Math.sqrt(OWN_REPEATS * ownVariance({ bridge, value_kg }))],
  ];
  const { lasting, passing } = session;
  for (const [prefix, parts] of [["", lasting] as const, [`${session.id}:`, passing] as const]) {
    const aboard = parts.filter((part) => !without.includes(part.id));
    const d = design({ parts: aboard, geometry, rows: reading.axles });
    for (const [j, part] of aboard.entries()) {
      const bears = bearing(part, reading);
      for (const [name, prior, columns] of terms(part)) {
        components.set(prefix + name, prior);
        out.push([prefix + name, bears.reduce((sum, one, k) => sum + one * d[columns][k]![j]!, 0)]);
      }
    }
  }
  return out;
}

/** Which rows of a reading feel a part: an uncoupled trailer does not press on the vehicle. */
function bearing(part: Part, reading: Reading): number[] {
  const apart = reading.uncoupled && (part.on ?? "vehicle") !== "vehicle";
  return reading.axles.map((row) => (apart && !TRAILER_ROWS.includes(row) ? 0 : 1));
}

/** The plan's lasting parts as they are now, then what only the sessions have. */
function priorOf(lasting: readonly Part[], stacked: readonly Stacked[]): Map<string, Component> {
  const prior = new Map<string, Component>();
  for (const part of lasting) for (const [name, one] of terms(part)) prior.set(name, one);
  for (const { components } of stacked)
    for (const [name, one] of components) if (!prior.has(name)) prior.set(name, one);
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
  for (const { id, lasting, passing, readings } of sessions) {
    if (seen.has(id)) throw new Duplicate("session", id);
    seen.add(id);
    const parts = [...lasting, ...passing];
    checkParts(parts);
    const known = new Set(parts.map((part) => part.id));
    for (const name of readings.flatMap((reading) => reading.without ?? []))
      if (!known.has(name)) throw new Unknown("without", name, [...known]);
  }
}
