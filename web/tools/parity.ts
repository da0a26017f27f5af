/** Reads calls of the domain as a JSON list from standard input and writes their results as one. */
import { readFileSync } from "node:fs";
import { DomainError } from "../src/domain/errors";
import { type Call, call, type Module } from "./call";

const modules = import.meta.glob<Module>("../src/domain/*.ts", { eager: true });

function answer(asked: Call): unknown {
  try {
    return { out: call((name) => modules[`../src/domain/${name}.ts`], asked) ?? null };
  } catch (error) {
    if (error instanceof DomainError) return { error: { name: error.name, field: error.field } };
    throw error;
  }
}

/** {"$number": "NaN"} is what JSON has no word for. */
const revive = (_: string, value: { readonly $number?: string } | null) =>
  value?.$number === undefined ? value : Number(value.$number);

const asked: readonly Call[] = JSON.parse(readFileSync(0, "utf8"), revive);
process.stdout.write(JSON.stringify(asked.map(answer)));
