/** One cell of a list read for its field. */
import { readDay, readTime } from "@/units/dates";
import { type Mark, readListed, unitSaid } from "@/units/typed";
import { readSlots } from "./slots";
import type { CellError, ListField } from "./spec";

export type ReadCell =
  | { readonly kind: "ok"; readonly value: unknown; readonly as_typed?: readonly [string, string] | null }
  | { readonly kind: "ask" }
  | { readonly kind: "wrong"; readonly why: CellError["why"]; readonly message?: string };

/** What a column's cells share: the unit where they name none, the mark and the order of days as far as known. */
export interface Ways {
  readonly unit: string;
  readonly mark: Mark | null;
  readonly dates: "dmy" | "mdy" | null;
}

/** The value of a cell that is not blank. */
export function readCell(text: string, field: ListField, ways: Ways): ReadCell {
  switch (field.type) {
    case "number":
      return readFigure(text, field, ways);
    case "count": {
      const count = Number(text);
      const fits = Number.isInteger(count) && count >= field.low && count <= field.high;
      return fits ? ok(count) : wrong("whole");
    }
    case "choice":
      return readChoice(text, field);
    case "yes_no":
      return YES.test(text) ? ok(true) : NO.test(text) ? ok(false) : wrong("yes_no");
    case "slots": {
      const slots = readSlots(text, field.trailers);
      return slots ? ok(slots) : wrong("slots");
    }
    case "text":
      return text.length <= field.longest ? ok(text) : wrong("long");
    case "day": {
      const read = readDay(text, ways.dates);
      return read.kind === "ok" ? ok(read) : read.kind === "ask" ? { kind: "ask" } : wrong("day");
    }
    case "time": {
      const read = readTime(text);
      return read ? ok(read) : wrong("time");
    }
    case "instant":
      return INSTANT.test(text) && !Number.isNaN(Date.parse(text)) ? ok(text) : wrong("day");
    case "currency":
      return /^[a-z]{3}$/i.test(text) ? ok(text.toUpperCase()) : wrong("currency");
    case "unit":
      return unitSaid(text, "mass") ? ok(unitSaid(text, "mass")) : wrong("unit");
    case "amount":
      return readAmount(text, ways.mark);
  }
}

function ok(value: unknown): ReadCell {
  return { kind: "ok", value };
}

function wrong(why: CellError["why"]): ReadCell {
  return { kind: "wrong", why };
}

const INSTANT = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{1,6})?Z$/;
const YES = /^(y|yes|true|1|x|✓|full|on)$/i;
const NO = /^(n|no|false|0|-|part|partly|off)$/i;

function readFigure(text: string, field: Extract<ListField, { type: "number" }>, ways: Ways): ReadCell {
  const { dimension, low, high, label: name } = field;
  const read = readListed({ text, unit: ways.unit || "gal" }, { dimension, low, high, name }, ways.mark);
  if (read.kind === "ok") return { kind: "ok", value: read.base, as_typed: read.as_typed };
  if (read.kind === "wrong") return { kind: "wrong", why: "figure", message: read.message };
  return { kind: "ask" };
}

// Other words for what a choice names; the first that fits is meant.
const SAID: Readonly<Record<string, RegExp>> = {
  weighed: /^(weigh|scale|measur)/,
  data_sheet: /^(data|sheet|spec|maker|manufact)/,
  similar: /^(simil|like)/,
  estimate: /^(estim|guess|typic|about|approx)/,
  described: /^(guess|estim|about|approx)/,
  part: /^(part|bolt|fixed|fitted|permanent)/,
  load: /^(load|cargo|loose|gear)/,
  fitted: /^(fit|install|on board)/,
  on_order: /^(on order|order|planned|to come)/,
  removed: /^(remov|taken)/,
};

function readChoice(text: string, { options }: Extract<ListField, { type: "choice" }>): ReadCell {
  const said = plain(text);
  const tests: ((value: string, label: string) => boolean)[] = [
    (value, label) => plain(value) === said || plain(label) === said,
    (_, label) => plain(label.split(",")[0]!) === said,
    (value) => SAID[value]?.test(said) ?? false,
  ];
  for (const test of tests) {
    const found = options.find(([value, label]) => test(value, label));
    if (found) return ok(found[0] || null);
  }
  return wrong("choice");
}

function plain(text: string): string {
  return text.trim().toLowerCase().replaceAll("_", " ").replace(/\s+/g, " ");
}

/** Money as a decimal string; a currency's sign may stand beside it. */
function readAmount(text: string, mark: Mark | null): ReadCell {
  const bare = text.replace(/^\p{Sc}\s*|\s*\p{Sc}$/gu, "");
  const range = { dimension: "fraction", low: 0, high: 999_999_999, name: "" } as const;
  const read = readListed({ text: bare, unit: "1" }, range, mark);
  if (read.kind === "ask") return { kind: "ask" };
  const digits = read.kind === "ok" ? (read.as_typed?.[0] ?? "") : "";
  return /^\d{1,9}(\.\d{1,4})?$/.test(digits) ? ok(digits) : wrong("amount");
}
