/** Every case in tests/vectors, read by TypeScript; tests/domain/test_vectors.py reads the same files. */
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { call, type Module } from "@/../tools/call";
import { DomainError } from "@/domain/errors";

const modules = import.meta.glob<Module>("../../../web/src/domain/*.ts", { eager: true });
const folder = fileURLToPath(new URL("../../vectors/", import.meta.url));

const find = (name: string) => modules[`../../../web/src/domain/${name}.ts`];

interface Case {
  readonly name: string;
  readonly in?: Record<string, unknown>;
  readonly args?: readonly unknown[];
  readonly then?: readonly Record<string, unknown>[];
  readonly out?: unknown;
  readonly error?: { readonly name: string; readonly field?: string };
  readonly rel?: number;
  readonly abs?: number;
}

interface Book {
  readonly module: string;
  readonly functions: readonly { readonly function: string; readonly cases: readonly Case[] }[];
}

for (const file of readdirSync(folder).filter((name) => name.endsWith(".json"))) {
  const book: Book = JSON.parse(readFileSync(folder + file, "utf8"));
  for (const group of book.functions)
    describe(`${book.module}.${group.function}`, () => {
      it.each(group.cases.map((one) => [one.name, one] as const))("%s", (_, one) => {
        const run = () => call(find, { ...one, module: book.module, function: group.function });
        if (one.error) expectError(run, one.error);
        else expect(differences(one.out, plain(run()), one.rel ?? 1e-9, one.abs ?? 1e-12, "")).toEqual([]);
      });
    });
}

function expectError(run: () => unknown, error: { readonly name: string; readonly field?: string }) {
  let caught: unknown;
  try {
    run();
  } catch (thrown) {
    caught = thrown;
  }
  expect(caught).toBeInstanceOf(DomainError);
  expect((caught as DomainError).name).toBe(error.name);
  if (error.field) expect((caught as DomainError).field).toBe(error.field);
}

function plain(value: unknown): unknown {
  return JSON.parse(JSON.stringify(value ?? null));
}

/** Where a result differs; of an object only the expected fields count. */
function differences(expected: unknown, found: unknown, rel: number, abs: number, path: string): string[] {
  if (typeof expected === "number" && typeof found === "number")
    return Math.abs(found - expected) <= Math.max(abs, rel * Math.abs(expected))
      ? []
      : [`${path}: ${found} instead of ${expected}`];
  if (Array.isArray(expected) && Array.isArray(found) && expected.length !== found.length)
    return [`${path}: ${found.length} elements instead of ${expected.length}`];
  if (expected !== null && found !== null && typeof expected === "object" && typeof found === "object")
    return Object.entries(expected).flatMap(([key, one]) =>
      differences(one, (found as Record<string, unknown>)[key] ?? null, rel, abs, `${path}.${key}`),
    );
  return expected === found
    ? []
    : [`${path}: ${JSON.stringify(found)} instead of ${JSON.stringify(expected)}`];
}
