/** What an entry of the log asks for that is neither a fill, a level nor a weighing: fuel moved, something that happened. */
import type { Book, Row } from "@/services/answers";
import { lastOdometer } from "@/services/way";
import { surfaceIn, whollyOn } from "@/ui/screens/fuel/entry";
import {
  choice,
  type FieldSpec,
  fraction,
  type NumberSpec,
  text,
  volume,
  yesNo,
} from "@/ui/screens/plan/spec";
import { words } from "@/ui/text/entry";
import { figure } from "@/ui/text/figures";
import { words as fuel } from "@/ui/text/fuel";
import { words as reports } from "@/ui/text/reports";

export type What = "moved" | "change" | "water_use" | "supply" | "surface";
export const KIND: Readonly<Record<What, string>> = {
  moved: "transfer",
  ...{ change: "event", water_use: "event", supply: "event", surface: "event" },
};
export const OUT: readonly string[] = ["given_away", "spilled", "heater"];

/** The fields of an entry, for the tanks that a book has; fuel goes into tanks of fuel. */
export function fieldsOf(what: What, book: Book, from: unknown): readonly FieldSpec[] {
  const tanks = (...holds: string[]) =>
    book.tanks
      .filter(({ body }) => holds.includes(body.holds))
      .map(({ id, body }) => [id, body.name] as const);
  const holds: string | undefined = book.tanks.find(({ id }) => id === from)?.body.holds;
  if (what === "moved")
    return [
      choice("from_tank_id", words.from, tanks("fuel", "water")),
      choice("to", words.to, [
        ...tanks(holds ?? "fuel").filter(([id]) => id !== from),
        ...Object.entries(words.outs),
      ]),
      yesNo("everything", words.everything),
      volume("litres_l", words.litres, 0, 5_000),
      odometer(book),
    ];
  if (what === "water_use")
    return [
      choice("what", words.what, Object.entries(words.waterWhats)),
      fraction("water_rate_u", words.rateU, 0, 2, words.waterRateHint),
    ];
  if (what === "supply")
    return [
      text("supply", words.supply),
      choice("found", reports.what, Object.entries(reports.founds)),
      text("note", reports.how, reports.howHint),
    ];
  if (what === "surface")
    return [
      choice("on", fuel.surface, surfaces(from)),
      ...(book.trailers.length > 0 ? [yesNo("towing", fuel.towing)] : []),
      odometer(book),
    ];
  const tyres = { only_if: ["what", ["tyres"]] } as const;
  return [
    choice("what", words.what, Object.entries(words.whats)),
    { ...fraction("factor_before", words.factorBefore, 0.5, 2, words.factorHint), ...tyres },
    { ...fraction("factor_after", words.factorAfter, 0.5, 2, words.factorHint), ...tyres },
    fraction("rate_u", words.rateU, 0, 1, words.rateHint),
    odometer(book),
  ];
}

/** The three, and "mixed" where an entry that is corrected was. */
function surfaces(mixed: unknown): [string, string][] {
  return Object.entries(fuel.surfaces).filter(([name]) => name !== "mixed" || mixed === "mixed");
}

/** What a form asks of an entry that is corrected; undefined where another form does. */
export function whatOf({ kind, body }: Row): What | undefined {
  if (kind !== "event") return kind === KIND.moved ? "moved" : undefined;
  if (body.what === "supply" || body.what === "surface") return body.what;
  return body.what in words.waterWhats ? "water_use" : "change";
}

function odometer(book: Book): NumberSpec {
  const last = lastOdometer(book);
  return {
    ...{ type: "number", name: "odometer_km", label: words.odometer, dimension: "distance" },
    ...{ low: 0, high: 5_000_000 },
    ...(last === null ? {} : { hint: words.last(figure(last)) }),
  };
}

/** An entry's body as the form holds it, or what a new one begins with. */
export function bodyShown(what: What, book: Book, row: Row | null): Row["body"] {
  if (row?.kind === "event") return { ...row.body, on: surfaceIn(row.body.surface) };
  if (row) return { ...row.body, to: row.body.to_tank_id ?? row.body.out };
  if (what === "water_use") return { what: "heat" };
  if (what === "surface") return { on: "sealed" };
  if (what === "supply") return {};
  const fuel = book.tanks.filter(({ body }) => body.holds === "fuel");
  const can = fuel.find(({ body }) => body.can);
  const first = fuel.find(({ body }) => !body.can);
  if (what === "change") return { what: "tyres", factor_before: book.vehicle?.body.odometer_factor ?? 1 };
  return {
    from_tank_id: (can ?? first)?.id,
    to: can ? first?.id : "given_away",
    everything: can !== undefined,
  };
}

/** What is still missing or cannot go together, in words, by field. */
export function lacking(what: What, book: Book, fields: Row["body"]): Readonly<Record<string, string>> {
  if (what === "supply") {
    const { supply, found } = fields;
    return { ...(supply ? {} : { supply: words.needSupply }), ...(found ? {} : { found: reports.need }) };
  }
  if (what !== "moved") return {};
  const holds = (id: string) => book.tanks.find((one) => one.id === id)?.body.holds;
  const { from_tank_id: from, to } = fields;
  if (!OUT.includes(to) && (to === from || holds(to) !== holds(from))) return { to: words.sameTank };
  return fields.everything || fields.litres_l != null ? {} : { litres_l: words.needLitres };
}

/** What the form does not ask of an entry that is corrected. */
const UNASKED: Readonly<Record<What, readonly string[]>> = {
  moved: ["litres_u_l", "note"],
  change: ["surface", "towing", "note"],
  water_use: ["odometer_km", "note"],
  supply: ["odometer_km"],
  surface: ["towing", "note"],
};

/** A body with what another one says of these fields, and how it was typed. */
export function withKept(body: Row["body"], was: Row["body"], names: readonly string[]): Row["body"] {
  const of = (from: Row["body"]) =>
    names.filter((name) => from[name] != null).map((name) => [name, from[name]]);
  const typed = { ...body.as_typed, ...Object.fromEntries(of(was.as_typed ?? {})) };
  const as_typed = Object.keys(typed).length > 0 ? { as_typed: typed } : {};
  return { ...body, ...Object.fromEntries(of(was)), ...as_typed };
}

/** The record's body from the form's fields; `was` is that of the entry which is corrected. */
export function bodyOf(what: What, fields: Row["body"], was: Row["body"] = {}): Row["body"] {
  const asked = Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== null));
  // all that a tank held is as well known as that
  const left = UNASKED[what].filter(
    (name) => !(name in asked) && !(name === "litres_u_l" && asked.everything),
  );
  const { to, on, ...rest } = withKept(asked, was, left);
  if (what === "supply") return { ...rest, what: "supply", rate_u: 0 };
  if (what === "water_use") return { ...rest, rate_u: 0 };
  if (what === "surface")
    return {
      ...rest,
      ...{ what: "surface", rate_u: 0, surface: on === "mixed" ? was.surface : whollyOn(on) },
    };
  if (what !== "moved") return rest;
  return OUT.includes(to) ? { ...rest, out: to } : { ...rest, to_tank_id: to };
}
