/** A plan record in one line: its label, its figure, and where it is. */
import type { Book, Row } from "@/services/answers";
import type { BookView } from "@/ui/parts/live";
import { kg, litres, metres } from "@/ui/text/figures";
import { words } from "@/ui/text/plan";

type Body = Row["body"];

export function rowsOf({ book }: BookView, kind: string): readonly Row[] {
  const { vehicle, trailers, plates, items, tanks, seats, people } = book;
  return {
    vehicle: vehicle ? [vehicle] : [],
    trailer: trailers,
    plate: plates,
    item: items,
    tank: tanks,
    seat: seats,
    person: people,
  }[kind] as readonly Row[];
}

export function labelOf(kind: string, body: Body): string {
  if (kind === "plate") return words.plateOf(body.of, body.date_from ?? null);
  const count = body.count > 1 ? ` × ${body.count}` : "";
  return `${body.name ?? ""}${count}`;
}

export function figureOf(kind: string, body: Body): string {
  if (kind === "vehicle") return body.wheelbase_m == null ? words.blank : metres(body.wheelbase_m);
  if (kind === "plate") return body.gross_kg == null ? "" : kg(body.gross_kg);
  if (kind === "item") return body.mass_kg == null ? words.blank : kg(body.mass_kg * (body.count ?? 1));
  if (kind === "tank") return body.capacity_l == null ? words.blank : litres(body.capacity_l);
  if (kind === "trailer") return emptyMass(body);
  if (kind === "seat") return body.x_m == null ? words.blank : metres(body.x_m);
  return body.mass_kg == null ? words.blank : kg(body.mass_kg);
}

function emptyMass({ base_coupling_kg, base_axles_kg }: Body): string {
  if (base_coupling_kg == null || base_axles_kg == null) return words.blank;
  return kg(base_coupling_kg + base_axles_kg);
}

export function noteOf(kind: string, body: Body, book: Book): string {
  if (kind !== "item" && kind !== "tank") return "";
  const on = body.trailer_id ? book.trailers.find((one) => one.id === body.trailer_id) : null;
  const at = body.x_m == null ? words.noPlace : words.at(metres(body.x_m));
  const place = body.trailer_id ? `${at}, ${words.on(on?.body.name ?? words.goneTrailer)}` : at;
  const stage = words.stages[body.stage];
  return stage ? `${place}, ${stage}` : place;
}
