/** A water entry as it stands in the form, and the record that comes of it. Pure. */
import type { Row } from "@/services/answers";
import { typedOf } from "@/ui/screens/fuel/entry";
import { words } from "@/ui/text/water";
import { type Choice, readTyped, type TypedNumber } from "@/units/typed";

export type Action = "fill" | "draw" | "level";

export interface WaterForm {
  readonly action: Action;
  readonly tank_id: string;
  readonly litres: TypedNumber;
  readonly full: boolean;
  readonly drinkable: "yes" | "no" | "unknown";
}

export interface ReadWater {
  readonly kind: "water" | "dip";
  readonly body: Row["body"] | null;
  readonly error: string | null;
  readonly ask: readonly Choice[] | null;
}

export const emptyWater: WaterForm = {
  action: "fill",
  tank_id: "",
  litres: { text: "", unit: "L" },
  full: false,
  drinkable: "yes",
};

/** The form of an entry that is to be corrected. */
export function formOfWater({ body }: Row): WaterForm {
  const { tank_id, drinkable, full } = body;
  const action = body.action === "fill" ? "fill" : "draw";
  return { action, tank_id, litres: typedOf(body, "litres_l", "L"), full: full === true, drinkable };
}

/** A level typed by a person is a stick or tube reading: ± 5 % of the tank (from memory, changeable per entry). */
const LEVEL_U = 0.05;

export function readWater(tank: Row, form: WaterForm, at: string, zone: string): ReadWater {
  const capacity_l: number = tank.body.capacity_l ?? 5_000;
  const high = form.action === "fill" ? Math.round(capacity_l * 1.1) : capacity_l;
  const kind = form.action === "level" ? "dip" : "water";
  const read = readTyped(form.litres, { dimension: "volume", low: 0, high, name: words.litres });
  if (read.kind === "ask") return { kind, body: null, error: null, ask: read.choices };
  if (read.kind !== "ok")
    return { kind, body: null, error: read.kind === "wrong" ? read.message : words.needLitres, ask: null };
  const figure = { litres_l: read.base, as_typed: { litres_l: read.as_typed } };
  const head = { at, zone, tank_id: tank.id };
  const body =
    form.action === "level"
      ? { ...head, ...figure, litres_u_l: LEVEL_U * capacity_l, how: "tube" }
      : { ...head, action: form.action, ...figure, full: form.full, drinkable: form.drinkable };
  return { kind, body, error: null, ask: null };
}
