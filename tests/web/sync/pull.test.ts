import { describe, expect, it } from "vitest";
import { pull, touched } from "@/sync/pull";
import { offerAgain } from "@/sync/restore";
import { mutation, queued, version } from "./make";

const me = { author: "u", device: "d" };

describe("news", () => {
  it("of log entries are rows as they come", () => {
    const fill = version({ kind: "fill", id: "f", rev: "m1", seq: 7 });
    const pulled = pull({ news: { versions: [fill], more: false }, queue: [], known: [], ...me });
    expect(pulled.shown).toEqual([{ version: fill, pending: false, order: 7 }]);
    expect(pulled.versions).toEqual([]);
  });

  it("take a mutation out of the outbox once its version has come, answered or not", () => {
    const queue = [queued({ mut: "m1", kind: "fill" })];
    const came = version({ kind: "fill", rev: "m1" });
    const pulled = pull({ news: { versions: [came], more: true }, queue, known: [], ...me });
    expect(pulled.returned).toEqual(["m1"]);
  });

  it("leave a kept mutation shown until its version has come", () => {
    const queue = [queued({ mut: "m2", base_rev: "v1", body: { name: "Mine" }, state: "kept" })];
    const pulled = pull({ news: { versions: [version()], more: true }, queue, known: [], ...me });
    expect(pulled.shown[0]?.version.body).toEqual({ name: "Mine" });
    expect(pulled.shown[0]?.pending).toBe(true);
    expect(pulled.returned).toEqual([]);
  });

  it("of another's edit keep mine beside and drop nothing", () => {
    const queue = [queued({ mut: "m2", base_rev: "v1", body: { name: "Mine" } })];
    const theirs = version({ rev: "v2", seq: 2, base_rev: "v1", body: { name: "Theirs" } });
    const local = version({ rev: "m2", seq: 0, base_rev: "v1", body: { name: "Mine" } });
    const known = [version(), local];
    const pulled = pull({ news: { versions: [theirs], more: false }, queue, known, ...me });
    expect(pulled.shown[0]?.version).toBe(theirs);
    expect(pulled.versions.map((one) => [one.rev, one.standing])).toEqual([
      ["v2", "applied"],
      ["m2", "conflict"],
    ]);
    expect(pulled.dropped).toEqual([]);
  });

  it("drop a local version that nothing stands behind any more", () => {
    const known = [version(), version({ rev: "m2", seq: 0 })];
    const pulled = pull({ news: { versions: [], more: false }, queue: [], known, ...me });
    expect(pulled.dropped).toEqual(["m2"]);
  });

  it("remove a record of which nothing is left", () => {
    const known = [version({ rev: "m2", seq: 0 })];
    const pulled = pull({ news: { versions: [], more: false }, queue: [], known, ...me });
    expect(pulled.removed).toEqual(["r"]);
  });

  it("number a record by its first version", () => {
    const known = [version({ seq: 3 })];
    const edited = version({ rev: "v2", seq: 9, base_rev: "v1" });
    const pulled = pull({ news: { versions: [edited], more: false }, queue: [], known, ...me });
    expect(pulled.shown[0]?.order).toBe(3);
  });

  it("touch plan records only", () => {
    const versions = [version({ id: "p" }), version({ id: "f", kind: "fill" })];
    expect(touched({ versions }, [queued({ id: "q" }), queued({ id: "p" })])).toEqual(["p", "q"]);
  });
});

describe("after a restore", () => {
  it("offers the author's own versions as the mutations that made them", () => {
    const versions = [
      version({ rev: "m2", seq: 5, base_rev: "m1", body: { name: "Fridge", mass_kg: 20 } }),
      version({ rev: "m1", seq: 3 }),
      version({ rev: "x", seq: 4, author: "other" }),
      version({ rev: "m3", seq: 0 }),
    ];
    expect(offerAgain({ versions, author: "u", first_seq: 40, schema: 1 })).toEqual([
      mutation({ mut: "m1", device_seq: 40 }),
      mutation({ mut: "m2", base_rev: "m1", body: { mass_kg: 20 }, device_seq: 41 }),
    ]);
  });
});
