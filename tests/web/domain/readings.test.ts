/** What must hold for any readings, any book and any gap between them, on the device as on the server. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Bridge } from "@/domain/bridge";
import { fieller } from "@/domain/fieller";
import { type Signature, suspects } from "@/domain/gross";
import {
  cholesky,
  choSolve,
  dot,
  type Matrix,
  matmul,
  matvec,
  scale,
  transpose,
  type Vector,
} from "@/domain/linalg";
import { reconcile, type Session, update } from "@/domain/reconcile";
import type { Part } from "@/domain/statics";
import { type Reading, readingCovariance } from "@/domain/weighing";

const number = (min: number, max: number) =>
  fc.integer({ min: Math.round(min * 100), max: Math.round(max * 100) }).map((n) => n / 100);
const vector = (length: number) => fc.array(number(-3, 3), { minLength: length, maxLength: length });
const matrix = (rows: number, columns: number) =>
  fc.array(vector(columns), { minLength: rows, maxLength: rows });

/** A covariance that is never singular. */
const spreads = (size: number): fc.Arbitrary<number[][]> =>
  matrix(size, size + 2).map((root) =>
    matmul(root, transpose(root)).map((row, i) => row.map((value, j) => value + (i === j ? 0.5 : 0))),
  );

function close(found: Vector, wanted: Vector, digits = 7): void {
  expect(found).toHaveLength(wanted.length);
  for (const [i, value] of wanted.entries()) expect(found[i]).toBeCloseTo(value, digits);
}

/** Seeded normal deviates: mulberry32 and Box-Muller. */
function normals(seed: number): () => number {
  let state = seed;
  const even = () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return (((t ^ (t >>> 14)) >>> 0) + 0.5) / 4294967296;
  };
  return () => Math.sqrt(-2 * Math.log(even())) * Math.cos(2 * Math.PI * even());
}

const sets = fc.shuffledSubarray([["front"], ["rear"], ["front", "rear"]], { minLength: 1 });
const bridges: fc.Arbitrary<Bridge> = fc
  .tuple(fc.constantFrom(5, 10, 20, 50), fc.constantFrom(null, null, 1))
  .map(([e, percent]) => ({
    key: "b",
    interval_kg: e,
    displayed_kg: e,
    accuracy_class: "III",
    max_kg: 3000 * e,
    percent,
  }));

describe("the covariance of readings", () => {
  it("is positive definite", () => {
    const values = fc.array(number(1000, 2000), { minLength: 3, maxLength: 3 });
    fc.assert(
      fc.property(sets, values, bridges, number(-1, 1), (decks, kg, bridge, level_correlation) => {
        const readings = decks.map((axles, i): Reading => {
          const split = axles.length === 1;
          return { id: `r${i}`, axles, value_kg: kg[i]! * axles.length, split };
        });
        const setup = { total_kg: 3000, wheelbase_m: 3.1, cg_height_m: 0.8, level_correlation };
        const v = readingCovariance({ readings, bridge, setup });
        expect(v).toEqual(transpose(v));
        for (const [i, row] of cholesky(v).entries()) expect(row[i]).toBeGreaterThan(0);
      }),
    );
  });
});

describe("an update", () => {
  const books = fc.record({
    mean: vector(4),
    cov: spreads(4),
    visits: fc.array(fc.record({ design: matrix(2, 4), readings: vector(2), noise: spreads(2) }), {
      minLength: 2,
      maxLength: 3,
    }),
  });

  it("is the same joint, one after the other, and in reverse", () => {
    fc.assert(
      fc.property(books, ({ mean, cov, visits }) => {
        const size = 2 * visits.length;
        const noise = visits.flatMap((visit, k) =>
          visit.noise.map((row) => {
            const wide = new Array<number>(size).fill(0);
            wide.splice(2 * k, 2, ...row);
            return wide;
          }),
        );
        const joint = update({
          mean,
          cov,
          design: visits.flatMap((visit) => visit.design),
          readings: visits.flatMap((visit) => visit.readings),
          noise,
        });
        for (const order of [visits, [...visits].reverse()]) {
          let state: readonly [Vector, Matrix] = [mean, cov];
          for (const visit of order) {
            const [now, left] = update({ mean: state[0], cov: state[1], ...visit });
            state = [now, left];
          }
          close(state[0], joint[0]);
          close(state[1].flat(), joint[1].flat());
        }
      }),
    );
  });

  it("keeps its mean when all variances double", () => {
    fc.assert(
      fc.property(books, ({ mean, cov, visits: [visit] }) => {
        const once = update({ mean, cov, ...visit! });
        const twice = update({ mean, cov: scale(cov, 2), ...visit!, noise: scale(visit!.noise, 2) });
        close(twice[0], once[0]);
        close(
          twice[1].flat(),
          once[1].flat().map((value) => 2 * value),
        );
        expect(twice[2]).toBeCloseTo(once[2] / 2, 7);
      }),
    );
  });
});

describe("a wrong entry", () => {
  it("has the T by which chi2 falls when its error is fitted", () => {
    fc.assert(
      fc.property(vector(4), spreads(4), matrix(5, 4), (innovation, spread, columns) => {
        const signatures = columns.map((column, i): Signature => ({ id: `${i}`, kind: "mass", column }));
        const lower = cholesky(spread);
        const chi2 = (e: Vector) => dot(e, choSolve(lower, e));
        for (const one of suspects({ innovation, spread, signatures })) {
          const column = columns[Number(one.id)]!;
          const left = (bias: number) => chi2(innovation.map((e, i) => e - bias * column[i]!));
          expect(chi2(innovation) - left(one.bias_kg)).toBeCloseTo(one.statistic, 6);
          // the least of a parabola
          for (const aside of [-0.1, 0.1])
            expect(left(one.bias_kg + aside)).toBeGreaterThanOrEqual(left(one.bias_kg) - 1e-9);
        }
      }),
    );
  });
});

describe("a zone", () => {
  it("holds the places that pass the quadratic, and no other", () => {
    const z = 1.959964;
    fc.assert(
      fc.property(number(-600, 600), number(-200, 200), matrix(2, 3), number(-20, 20), (a, b, root, x) => {
        const [lean, tall] = [root[0]!.map((v) => 20 * v), root[1]!.map((v) => 8 * v)];
        const [w_aa, w_ab, w_bb] = [dot(lean, lean), dot(lean, tall), dot(tall, tall)];
        const zone = fieller({ moment_kgm: a, mass_kg: b, w_aa, w_ab, w_bb, z });
        const passes = (a - x * b) ** 2 - z * z * (w_aa - 2 * x * w_ab + x * x * w_bb);
        fc.pre(Math.abs(passes) > 1e-6 * (1 + a * a + z * z * w_aa));
        const between = zone.from_m !== null && zone.from_m <= x && x <= zone.to_m!;
        const inside = zone.kind === "line" || (zone.kind === "interval" ? between : !between);
        expect(inside).toBe(passes < 0);
        expect(zone.kind === "interval").toBe(Math.abs(b) > z * Math.sqrt(w_bb));
      }),
    );
  });
});

describe("books drawn from the prior", () => {
  const geometry = { wheelbase_m: 3.2 };
  const lasting: Part[] = [
    { id: "base_front", mass_kg: 1300, mass_u_kg: 20, x_m: 0, axle: "front" },
    { id: "base_rear", mass_kg: 1200, mass_u_kg: 20, x_m: 3.2, axle: "rear" },
    { id: "box", mass_kg: 90, mass_u_kg: 12, x_m: 2.6, x_u_m: 0.1 },
    { id: "wheel", mass_kg: 35, mass_u_kg: 0, x_m: 4.2 },
  ];
  const bridge = { key: "b", interval_kg: 20, displayed_kg: 20, accuracy_class: "III", max_kg: 60_000 };
  const setup = { total_kg: 2625, wheelbase_m: 3.2, cg_height_m: 0.8 };
  const figures = (rear: number, total: number): Reading[] => [
    { id: "r", axles: ["rear"], value_kg: rear, split: true },
    { id: "w", axles: ["front", "rear"], value_kg: total },
  ];
  const book = (rear: number, total: number) => {
    const readings = figures(rear, total);
    const session: Session = { id: "s", lasting, passing: [], readings, bridge, setup };
    return reconcile({ lasting, geometry, sessions: [session] });
  };
  const planned = [1200 + (90 * 2.6 + 35 * 4.2) / 3.2, 2625] as const;

  it("have a p that is uniform", () => {
    const readings = figures(...planned);
    const root = cholesky(readingCovariance({ readings, bridge, setup }));
    const next = normals(5);
    const chances = Array.from({ length: 3000 }, () => {
      const [front, rear, box] = [1300 + 20 * next(), 1200 + 20 * next(), 90 + 12 * next()];
      const moment = 0.1 * Math.hypot(90, 12) * next();
      const off = matvec(root, [next(), next()]);
      const on_rear = rear + (2.6 * box + moment + 4.2 * 35) / 3.2;
      return book(on_rear + off[0]!, front + rear + box + 35 + off[1]!).p!;
    }).sort((a, b) => a - b);
    const furthest = Math.max(
      ...chances.map((p, i) => Math.max(Math.abs(p - i / 3000), Math.abs(p - (i + 1) / 3000))),
    );
    expect(furthest).toBeLessThan(1.628 / Math.sqrt(3000)); // Kolmogorov-Smirnov at 1 %, large samples
  });

  it("never move a mass that is known", () => {
    fc.assert(
      fc.property(number(900, 1700), number(2200, 3000), (rear, total) => {
        const { now_kg, now_u_kg } = book(rear, total).learnt("wheel");
        expect([now_kg, now_u_kg]).toEqual([35, 0]);
      }),
    );
  });
});
