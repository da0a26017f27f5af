/** A water entry as it stands in the form, and the record that comes of it. Pure. */
import type { Row } from "@/services/answers";
import { typedOf } from "@/ui/screens/fuel/entry";
import { words } from "@/ui/text/water";
import { type Choice, readTyped, type TypedNumber } from "@/units/typed";

export type Action = "fill" | "draw" | "dump";
export type Drinkable = "yes" | "no" | "unknown";

export interface WaterForm {
  readonly action: Action;
  readonly tank_id: string;
  readonly litres: TypedNumber;
  readonly full: boolean;
  readonly everything: boolean;
  readonly source: string;
  readonly drinkable: Drinkable;
}

export interface ReadWater {
  readonly body: Row["body"] | null;
  readonly error: string | null;
  readonly ask: readonly Choice[] | null;
}

export const emptyWater: WaterForm = {
  action: "fill",
  tank_id: "",
  litres: { text: "", unit: "L" },
  full: false,
  everything: true,
  source: "mains",
  drinkable: "yes",
};

/** What may be drunk without a question: from the mains or bought. */
export function usuallyDrinkable(source: string): Drinkable {
  return source === "mains" || source === "bought" ? "yes" : "unknown";
}

/** The form of an entry that is to be corrected. */
export function formOfWater({ body }: Row): WaterForm {
  const { tank_id, drinkable, action, source = "unknown" } = body;
  const flags = { full: body.full === true, everything: body.everything === true };
  return {
    ...emptyWater,
    action,
    tank_id,
    litres: typedOf(body, "litres_l", "L"),
    ...flags,
    source,
    drinkable,
  };
}

export function readWater(tank: Row, form: WaterForm, at: string, zone: string): ReadWater {
  const capacity_l: number = tank.body.capacity_l ?? 5_000;
  const { action } = form;
  const head = { at, zone, tank_id: tank.id };
  if (action === "dump" && form.everything) {
    const body = { ...head, action, litres_l: 0, everything: true, drinkable: "unknown" };
    return { body, error: null, ask: null };
  }
  const high = action === "fill" ? Math.round(capacity_l * 1.1) : capacity_l;
  const read = readTyped(form.litres, { dimension: "volume", low: 0, high, name: words.litres });
  if (read.kind === "ask") return { body: null, error: null, ask: read.choices };
  if (read.kind !== "ok")
    return { body: null, error: read.kind === "wrong" ? read.message : words.needLitres, ask: null };
  const figure = { litres_l: read.base, as_typed: { litres_l: read.as_typed } };
  const { full, source, drinkable } = form;
  const told = action === "fill" ? { full, source, drinkable } : { drinkable: "unknown" };
  return { body: { ...head, action, ...figure, ...told }, error: null, ask: null };
}
