import { describe, expect, it } from "vitest";
import { buildsOn, chooseBatch, mend, settle, withdrawn } from "@/sync/outbox";
import { mutation, queued } from "./make";

const at = "2026-03-04T06:00:00.000Z";
const error = { code: "validation", message: "No.", fields: { mass_kg: ["Too heavy."] } };
const held = new Set<string>();
const muts = (list: readonly { mut: string }[]) => list.map((one) => one.mut);

describe("the next batch", () => {
  const three = [3, 1, 2].map((n) => queued({ mut: `m${n}`, id: `r${n}`, device_seq: n }));

  it("goes in the order of recording", () => {
    expect(muts(chooseBatch({ queue: three, held }))).toEqual(["m1", "m2", "m3"]);
  });

  it("holds at most the limit", () => {
    expect(muts(chooseBatch({ queue: three, held, limit: 2 }))).toEqual(["m1", "m2"]);
  });

  it("leaves out what the server has kept, and the outbox's own mark", () => {
    const queue = [queued({ mut: "m1", state: "kept" }), queued({ mut: "m2", device_seq: 2 })];
    expect(chooseBatch({ queue, held })).toEqual([mutation({ mut: "m2", device_seq: 2 })]);
  });

  it("stays below a size, but one always fits", () => {
    const long = { note: "x".repeat(500) };
    const queue = [1, 2].map((n) => queued({ mut: `m${n}`, id: `r${n}`, device_seq: n, body: long }));
    expect(muts(chooseBatch({ queue, held, bytes: 400 }))).toEqual(["m1"]);
  });

  it("never overtakes a held mutation of the same record", () => {
    const queue = [
      queued({ mut: "m1", base_rev: "v0", device_seq: 1 }),
      queued({ mut: "m2", base_rev: "m1", device_seq: 2 }),
      queued({ mut: "m3", id: "other", device_seq: 3 }),
    ];
    expect(muts(chooseBatch({ queue, held: new Set(["m1"]) }))).toEqual(["m3"]);
  });

  it("never sends the content of a book before the book", () => {
    const queue = [
      queued({ mut: "m1", kind: "vehicle", id: "b", device_seq: 1 }),
      queued({ mut: "m2", id: "r", device_seq: 2 }),
      queued({ mut: "m3", book: "c", id: "s", device_seq: 3 }),
    ];
    expect(muts(chooseBatch({ queue, held: new Set(["m1"]) }))).toEqual(["m3"]);
  });
});

describe("building on another", () => {
  const earlier = mutation({ mut: "m1", device_seq: 1 });

  it.each([
    ["the same record, later", { device_seq: 2 }, true],
    ["the same record, earlier", { device_seq: 0 }, false],
    ["another record", { id: "s", device_seq: 2 }, false],
    ["another book", { book: "c", device_seq: 2 }, false],
    ["a correction of it", { id: "s", kind: "correction", body: { of_id: "r" }, device_seq: 2 }, true],
    ["a fill that replaces it", { id: "s", kind: "fill", body: { corrects: "r" }, device_seq: 2 }, true],
    ["a part whose note says so", { id: "s", body: { corrects: "r" }, device_seq: 2 }, false],
  ])("%s", (_, over, wanted) => {
    expect(buildsOn(mutation(over), earlier)).toBe(wanted);
  });
});

describe("answers", () => {
  const queue = [
    queued({ mut: "m1", id: "r1", device_seq: 1 }),
    queued({ mut: "m2", id: "r2", device_seq: 2 }),
    queued({ mut: "m3", id: "r2", base_rev: "m2", device_seq: 3 }),
    queued({ mut: "m4", id: "r3", device_seq: 4 }),
  ];

  it("keep what was applied, sent twice, or set beside", () => {
    const answers = (["applied", "duplicate", "conflict"] as const).map((outcome, index) => ({
      mut: `m${index + 1}`,
      outcome,
    }));
    expect(settle({ queue, answers, at })).toEqual({
      kept: ["m1", "m2", "m3"],
      waiting: [],
      attention: [],
    });
  });

  it("put a refused one before a person with all that builds on it, and nothing else", () => {
    const answers = [
      { mut: "m1", outcome: "applied" as const },
      { mut: "m2", outcome: "rejected" as const, error },
      { mut: "m3", outcome: "wait" as const },
    ];
    const { kept, waiting, attention } = settle({ queue, answers, at });
    expect(kept).toEqual(["m1"]);
    expect(waiting).toEqual([]);
    expect(attention.map((one) => [one.mut, one.because_of])).toEqual([
      ["m2", null],
      ["m3", "m2"],
    ]);
  });

  it("to what is not in the outbox change nothing", () => {
    const answers = [
      { mut: "m9", outcome: "applied" as const },
      { mut: null, outcome: "rejected" as const },
    ];
    expect(settle({ queue, answers, at })).toEqual({ kept: [], waiting: [], attention: [] });
  });

  it("take a refused book's whole content with it", () => {
    const book = [
      queued({ mut: "m1", kind: "vehicle", id: "b", device_seq: 1 }),
      queued({ mut: "m2", id: "r", device_seq: 2 }),
    ];
    const answers = [{ mut: "m1", outcome: "rejected" as const, error }];
    expect(muts(settle({ queue: book, answers, at }).attention)).toEqual(["m1", "m2"]);
  });

  it("of a later edit that starts elsewhere leave it alone", () => {
    const edits = [
      queued({ mut: "m1", base_rev: "v1", device_seq: 1 }),
      queued({ mut: "m2", base_rev: "v1", device_seq: 2 }),
    ];
    const answers = [{ mut: "m1", outcome: "rejected" as const, error }];
    expect(muts(settle({ queue: edits, answers, at }).attention)).toEqual(["m1"]);
  });
});

describe("a withdrawn book", () => {
  it("leaves nothing unsent behind", () => {
    const queue = [queued({ mut: "m2", device_seq: 2 }), queued({ mut: "m1" }), queued({ state: "kept" })];
    expect(muts(withdrawn(queue, error, at))).toEqual(["m1", "m2"]);
  });
});

describe("mending", () => {
  it("gives the mended one a new name and lets its followers start from it", () => {
    const aside = (over: Partial<ReturnType<typeof mutation>>, because_of: string | null) => {
      const one = mutation(over);
      return { mut: one.mut, mutation: one, error, because_of, since: at };
    };
    const [mended, follower] = mend({
      refused: aside({ mut: "m1" }, null),
      dependants: [aside({ mut: "m2", base_rev: "m1", device_seq: 2 }, "m1")],
      body: { name: "Cold box" },
      base_rev: null,
      new_mut: "m9",
      first_seq: 40,
    });
    expect(mended).toEqual(mutation({ mut: "m9", body: { name: "Cold box" }, device_seq: 40 }));
    expect(follower).toEqual(mutation({ mut: "m2", base_rev: "m9", device_seq: 41 }));
  });
});
