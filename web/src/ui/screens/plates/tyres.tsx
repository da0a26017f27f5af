/** What a plate of tyres says: the size as read, what it carries, and the odometer after a change of size. */
import type { JSX } from "preact";
import type { Resized, TyresTold } from "@/services/plates";
import type { BookView } from "@/ui/parts/live";
import { Notice } from "@/ui/parts/notice";
import { Row } from "@/ui/parts/row";
import { TakeFactor } from "@/ui/parts/take_factor";
import { figure, kg, metres, twoSided, withReach } from "@/ui/text/figures";
import { words } from "@/ui/text/plates";

interface Props {
  readonly view: BookView;
  readonly tyres: TyresTold;
  readonly planned: boolean;
}

export function Tyres({ view, tyres, planned }: Props): JSX.Element {
  const { designation, load_index, tyre_kg, axle_kg, diameter_m, turns_per_km, resized } = tyres;
  return (
    <>
      {designation ? (
        <Row label={words.size} figure={sizeOf(tyres)} note={markings(tyres)} />
      ) : (
        <p class="hint">{words.unreadable}</p>
      )}
      {tyre_kg === null || load_index === null || axle_kg === null ? (
        <p class="hint">{words.noIndex}</p>
      ) : (
        <>
          <Row label={words.oneTyre} figure={kg(tyre_kg)} note={words.index(load_index)} />
          <Row label={words.oneAxle(tyres.tyres)} figure={kg(axle_kg)} />
        </>
      )}
      {diameter_m !== null && turns_per_km !== null ? (
        <Row label={words.diameter} figure={metres(diameter_m, 3)} note={words.turns(turns_per_km)} />
      ) : null}
      {resized ? <Odometer view={view} resized={resized} planned={planned} /> : null}
    </>
  );
}

interface OdometerProps {
  readonly view: BookView;
  readonly resized: Resized;
  readonly planned: boolean;
}

/** Said, and put into the vehicle only when somebody asks for it. */
function Odometer({ view, resized, planned }: OdometerProps): JSX.Element {
  const { factor, factor_u, before, shown_kmh, most_kmh } = resized;
  const has: number | null = view.book.vehicle?.body.odometer_factor ?? null;
  const counted = has !== null && has.toFixed(3) === factor.toFixed(3);
  return (
    <>
      <p>{words.odometer(withReach(factor, twoSided(factor_u), 3), before.body.tyre_size)}</p>
      <p class="hint">
        {words.assumed} {factor > 1 ? words.speedometer(shown_kmh, most_kmh) : ""}
      </p>
      {planned ? null : counted ? (
        <Notice>{words.isIn}</Notice>
      ) : (
        <TakeFactor view={view} factor={factor} factor_u={factor_u} what="tyres" />
      )}
    </>
  );
}

/** 265/70 R 17; a size by inches in its own figures. */
function sizeOf({ designation }: TyresTold): string {
  if (!designation) return "";
  const { width_mm, aspect_percent, rim_code } = designation;
  const tidy = (value: number) => figure(value, Number.isInteger(value) ? 0 : 1);
  const section = aspect_percent === null ? "" : ` / ${tidy(aspect_percent)}${"\u202f"}%`;
  return `${tidy(width_mm)}${"\u202f"}mm${section}, ${words.rim(tidy(rim_code))}`;
}

function markings({ designation }: TyresTold): string {
  const { load_index = null, load_index_dual = null, speed_symbol = null } = designation ?? {};
  const told = [
    load_index === null ? "" : words.loads(load_index, load_index_dual),
    speed_symbol === null ? "" : words.speed(speed_symbol),
  ];
  return told.filter(Boolean).join("; ");
}
