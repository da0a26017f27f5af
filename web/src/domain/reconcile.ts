/** Plan and weighings put together: what each weighing teaches about every mass. One stacked update in rows, never n x n. */
import { checkRange, Duplicate } from "./errors";
import {
  add,
  cholesky,
  choSolve,
  dot,
  identity,
  type Matrix,
  matmul,
  matvec,
  outer,
  subtract,
  symmetrise,
  transpose,
  type Vector,
} from "./linalg";
import { chi2Upper } from "./normal";
import { articleGroups, type Geometry, type Loads, type Part, share, sign, slope } from "./statics";
import {
  type Bridge,
  gainU,
  OWN_REPEATS,
  ownVariance,
  type Reading,
  readingCovariance,
  type SplitSetup,
} from "./weighing";

/** One weighing: the parts as they stood that day, and the figures with their bridge. */
export interface Session {
  readonly id: string;
  readonly lasting: readonly Part[];
  readonly passing: readonly Part[];
  readonly readings: readonly Reading[];
  readonly bridge: Bridge;
  readonly setup?: SplitSetup | null;
}

/** One lasting mass before and after; `told` = 1 - (u+/u)^2 is the share of variance removed. */
export interface Learnt {
  readonly id: string;
  readonly plan_kg: number;
  readonly plan_u_kg: number;
  readonly now_kg: number;
  readonly now_u_kg: number;
  readonly told: number;
}

interface Component {
  readonly mean: number;
  readonly u: number;
  readonly article?: string | null;
}

type Coefficients = Map<string, number>;

/** The posterior of a book after its weighings; made by `reconcile`. */
export class Reconciled {
  chi2 = 0;
  dof = 0;
  p: number | null = null;
  private readonly order: ReadonlyMap<string, number>;
  private readonly components: readonly Component[];
  private readonly groups: readonly (readonly number[])[];
  private design: Matrix = [];
  private noise: Matrix = [];
  /** K', one row per reading. */
  private gain: Matrix = [];
  private after: readonly number[];

  constructor(
    private readonly prior: ReadonlyMap<string, Component>,
    private readonly geometry: Geometry,
  ) {
    this.order = new Map([...prior.keys()].map((name, i) => [name, i]));
    this.components = [...prior.values()];
    this.groups = articleGroups(this.components);
    this.after = this.components.map((one) => one.mean);
  }

  /** The one stacked update: K = P H' S^-1, mean += K (y - H mean). */
  learn(design: Matrix, readings: Vector, noise: Matrix): void {
    const spread = design.map((row) => this.times(row));
    const lower = cholesky(add(matmul(design, transpose(spread)), noise));
    const expected = matvec(design, this.after);
    const innovation = readings.map((value, i) => value - expected[i]!);
    this.design = design;
    this.noise = noise;
    this.gain = choSolve(lower, spread);
    this.after = this.after.map((value, i) => value + dot(innovation, column(this.gain, i)));
    this.chi2 = dot(innovation, choSolve(lower, innovation));
    this.dof = readings.length;
    this.p = chi2Upper(this.chi2, this.dof);
  }

  /** A row over the state's components; names that it does not have are the caller's. */
  row(coefficients: Coefficients): number[] {
    const out = new Array<number>(this.components.length).fill(0);
    for (const [name, value] of coefficients) {
      const i = this.order.get(name);
      if (i !== undefined) out[i] = out[i]! + value;
    }
    return out;
  }

  /** Mean and covariance of rows: a P+ a' = (a - a K H) P (a - a K H)' + a K V (a K)'. */
  rows(a: Matrix): { mean: number[]; cov: number[][] } {
    const mean = matvec(a, this.after);
    if (this.design.length === 0) return { mean, cov: this.spreadOf(a) };
    const through = matmul(a, transpose(this.gain));
    const cov = add(
      this.spreadOf(subtract(a, matmul(through, this.design))),
      matmul(matmul(through, this.noise), transpose(through)),
    );
    return { mean, cov: symmetrise(cov) };
  }

  /** Loads in any state: A mu+ + contents, covariance A P+ A' + the contents' own. */
  loads({ lasting, passing, rows }: LoadsIn): Loads {
    const { geometry, prior } = this;
    const found = this.rows(rows.map((row) => this.row(coefficients(lasting, row, geometry))));
    const slopes = rows.map((row) => slope({ row, geometry }));
    const moments = new Set(lasting.map(momentId));
    let { mean, cov } = found;
    for (const part of [...lasting, ...passing]) {
      const shares = rows.map((row) => shareOf(part, row, geometry));
      if (!prior.has(part.id)) {
        mean = mean.map((value, k) => value + shares[k]! * part.mass_kg);
        cov = grow(cov, shares, part.mass_u_kg ** 2);
      }
      const known = prior.has(momentId(part)) && moments.has(momentId(part));
      if ((part.x_u_m ?? 0) > 0 && !known) cov = grow(cov, slopes, momentU(part) ** 2);
    }
    return { rows: [...rows], mean_kg: mean, cov_kg2: cov };
  }

  /** What the weighings say of one lasting mass. */
  learnt(id: string): Learnt {
    const prior = this.prior.get(id)!;
    const { mean, cov } = this.rows([this.row(new Map([[id, 1]]))]);
    const variance = Math.max(cov[0]![0]!, 0);
    const told = prior.u === 0 ? 0 : Math.max(0, 1 - variance / prior.u ** 2);
    return {
      id,
      plan_kg: prior.mean,
      plan_u_kg: prior.u,
      now_kg: mean[0]!,
      now_u_kg: Math.sqrt(variance),
      told,
    };
  }

  private spreadOf(a: Matrix): number[][] {
    const times = a.map((row) => this.times(row));
    return a.map((row) => times.map((other) => dot(row, other)));
  }

  private times(row: Vector): number[] {
    const out = this.components.map((one, i) => one.u ** 2 * row[i]!);
    for (const members of this.groups) {
      const total = members.reduce((sum, i) => sum + this.components[i]!.u * row[i]!, 0);
      for (const i of members) out[i] = this.components[i]!.u * total;
    }
    return out;
  }
}

export interface LoadsIn {
  readonly lasting: readonly Part[];
  readonly passing: readonly Part[];
  readonly rows: readonly string[];
}

export interface ReconcileInput {
  readonly lasting: readonly Part[];
  readonly geometry: Geometry;
  readonly sessions: readonly Session[];
}

/** Prior from the plan's lasting parts, updated with every session's readings at once; none give the prior. */
export function reconcile({ lasting, geometry, sessions }: ReconcileInput): Reconciled {
  const posterior = new Reconciled(priorOf(lasting, sessions), geometry);
  const weighed = sessions.filter((session) => session.readings.length > 0);
  const design = weighed.flatMap((session) =>
    session.readings.map((reading) => posterior.row(readingRow(session, reading, geometry))),
  );
  if (design.length === 0) return posterior;
  const blocks = weighed.map((session) =>
    readingCovariance({
      readings: session.readings,
      bridge: session.bridge,
      setup: session.setup ?? null,
      with_gain: false,
      own_share: 1 - OWN_REPEATS,
    }),
  );
  const readings = weighed.flatMap((session) => session.readings.map((reading) => reading.value_kg));
  posterior.learn(design, readings, blockDiagonal(blocks));
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

/** The name of a part's position moment: an item put elsewhere gets a new one. */
export function momentId(part: Part): string {
  return `${part.id}@${part.x_m.toFixed(4)}`;
}

function momentU(part: Part): number {
  return Math.sqrt(part.mass_kg ** 2 + part.mass_u_kg ** 2) * (part.x_u_m ?? 0);
}

function shareOf(part: Part, row: string, geometry: Geometry): number {
  return sign(part) * share({ row, geometry, x_m: part.x_m, roof: part.roof ?? false });
}

function coefficients(parts: readonly Part[], row: string, geometry: Geometry): Coefficients {
  const out: Coefficients = new Map();
  for (const part of parts) {
    out.set(part.id, shareOf(part, row, geometry));
    if ((part.x_u_m ?? 0) > 0) out.set(momentId(part), slope({ row, geometry }));
  }
  return out;
}

function priorOf(lasting: readonly Part[], sessions: readonly Session[]): Map<string, Component> {
  const prior = new Map<string, Component>();
  const put = (name: string, one: Component) => prior.has(name) || prior.set(name, one);
  for (const part of lasting) {
    if (prior.has(part.id)) throw new Duplicate("id", part.id);
    checkRange("mass_kg", part.mass_kg, { low: 0, unit: "kg" });
    checkRange("mass_u_kg", part.mass_u_kg, { low: 0, unit: "kg" });
    put(part.id, massOf(part));
  }
  for (const part of [...lasting, ...sessions.flatMap((session) => session.lasting)]) {
    put(part.id, massOf(part));
    if ((part.x_u_m ?? 0) > 0) put(momentId(part), { mean: 0, u: momentU(part) });
  }
  for (const session of sessions) {
    for (const part of session.passing) {
      prior.set(`${session.id}:${part.id}`, { mean: part.mass_kg, u: part.mass_u_kg });
      if ((part.x_u_m ?? 0) > 0) prior.set(`${session.id}:${momentId(part)}`, { mean: 0, u: momentU(part) });
    }
    put(gainId(session.bridge), { mean: 0, u: gainU({ bridge: session.bridge }) });
    for (const reading of session.readings) put(ownId(session.bridge, reading), { mean: 0, u: 1 });
  }
  return prior;
}

function massOf(part: Part): Component {
  return { mean: part.mass_kg, u: part.mass_u_kg, article: part.article ?? null };
}

function readingRow(session: Session, reading: Reading, geometry: Geometry): Coefficients {
  const out: Coefficients = new Map();
  const steep = reading.axles.reduce((total, row) => total + slope({ row, geometry }), 0);
  const put = (part: Part, prefix: string) => {
    const load = reading.axles.reduce((total, row) => total + shareOf(part, row, geometry), 0);
    out.set(prefix + part.id, load);
    if ((part.x_u_m ?? 0) > 0) out.set(prefix + momentId(part), steep);
  };
  for (const part of session.lasting) put(part, "");
  for (const part of session.passing) put(part, `${session.id}:`);
  const own = ownVariance({ bridge: session.bridge, value_kg: reading.value_kg });
  out.set(gainId(session.bridge), reading.value_kg);
  out.set(ownId(session.bridge, reading), Math.sqrt(OWN_REPEATS * own));
  return out;
}

function blockDiagonal(blocks: readonly Matrix[]): number[][] {
  const size = blocks.reduce((total, block) => total + block.length, 0);
  const out = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  let at = 0;
  for (const block of blocks) {
    for (let i = 0; i < block.length; i++)
      for (let j = 0; j < block.length; j++) out[at + i]![at + j] = block[i]![j]!;
    at += block.length;
  }
  return out;
}

function grow(cov: Matrix, row: Vector, variance: number): number[][] {
  return add(
    cov,
    outer(row, row).map((line) => line.map((value) => value * variance)),
  );
}

function column(matrix: Matrix, i: number): number[] {
  return matrix.map((row) => row[i]!);
}

function gainId(bridge: Bridge): string {
  return `gain:${bridge.key}`;
}

function ownId(bridge: Bridge, reading: Reading): string {
  return `own:${bridge.key}:${[...reading.axles].sort().join("+")}`;
}
