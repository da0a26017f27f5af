/** What is asked of a route, its legs, supplies and changes; a leg is typed as kilometres of each surface. */
import type { Book } from "@/services/answers";
import {
  choice,
  type FieldSpec,
  fraction,
  mass,
  type NumberSpec,
  place,
  text,
  volume,
  yesNo,
} from "@/ui/screens/plan/spec";
import { ask } from "@/ui/text/route_form";

export type Part = "legs" | "supplies" | "changes";
export const SURFACES = ["sealed", "gravel", "sand"] as const;

const distance = (name: string, label: string, low = 0, high = 50_000, hint?: string): NumberSpec => ({
  ...{ type: "number", name, label, dimension: "distance", low, high },
  ...(hint ? { hint } : {}),
});

const degrees = (name: string, label: string, most: number, hint: string): NumberSpec => ({
  ...{ type: "number", name, label, dimension: "angle", low: -most, high: most, hint },
});

export const HEAD: readonly FieldSpec[] = [
  text("name", ask.name),
  distance("day_km", ask.dayKm, 1, 5_000, ask.dayKmHint),
  { ...volume("fuel_reserve_l", ask.fuelReserve, 0, 5_000), hint: ask.reserveHint },
  { ...volume("water_reserve_l", ask.waterReserve, 0, 5_000), hint: ask.reserveHint },
];

/** The fields of one line of a list. */
export function fieldsOf(part: Part, book: Book): readonly FieldSpec[] {
  if (part === "legs")
    return [
      ...SURFACES.map((name) => distance(name, ask.of(name))),
      fraction("days", ask.days, 0, 365, ask.daysHint),
      ...(book.trailers.length > 0 ? [choice("towing", ask.towing, Object.entries(ask.towings))] : []),
      text("label", ask.label),
    ];
  if (part === "supplies")
    return [
      text("name", ask.name),
      distance("at_km", ask.atKm),
      choice("has", ask.has, Object.entries(ask.hases)),
      yesNo("certain", ask.certain),
      {
        ...volume("fuel_take_l", ask.takeFuel, 0, 5_000),
        hint: ask.takeHint,
        only_if: ["has", ["fuel", "both"]],
      },
      {
        ...volume("water_take_l", ask.takeWater, 0, 5_000),
        hint: ask.takeHint,
        only_if: ["has", ["water", "both"]],
      },
      degrees("latitude_deg", ask.latitude, 90, ask.latitudeHint),
      degrees("longitude_deg", ask.longitude, 180, ask.longitudeHint),
      text("note", ask.note),
    ];
  const items = book.items.map(({ id, body }) => [id, body.name as string] as const);
  const load = { only_if: ["what", ["load"]] } as const;
  return [
    distance("at_km", ask.atKm),
    choice("what", ask.what, Object.entries(ask.whats)),
    { type: "person", name: "person", label: ask.who, only_if: ["what", ["person"]] },
    { ...choice("item", ask.which, items), only_if: ["what", ["item"]] },
    { ...yesNo("aboard", ask.comes), only_if: ["what", ["person", "item"]] },
    { ...text("name", ask.name), ...load },
    { ...mass("mass_kg", ask.mass), ...load },
    { ...place(ask.place), ...load },
    { ...distance("until_km", ask.until), hint: ask.untilHint, ...load },
  ];
}
