/** Fuel or water along a route: how far it can be counted on, the picture, and what to take on where. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import type { Along, Section as Stretch } from "@/services/along";
import { type Body, daysTo } from "@/services/road";
import { type BandMark, Bands, type Post } from "@/ui/parts/drawing/bands";
import { type BookView, useServices } from "@/ui/parts/live";
import { Row } from "@/ui/parts/row";
import { Section } from "@/ui/parts/section";
import { saidWords } from "@/ui/text/reports";
import { km, litres, words } from "@/ui/text/road";
import { isStruck, Supply, useReport } from "./supply";

interface Props {
  readonly view: BookView;
  readonly holds: "fuel" | "water";
  readonly along: Along | null;
  readonly route: Body;
  readonly onStrike: (supply: number) => void;
}

export function Supplied({ view, holds, along, route, onStrike }: Props): JSX.Element {
  const [open, setOpen] = useState<number | null>(null);
  if (!along) return <Section title={words[holds]}>{<p class="hint">{words.noLog[holds]}</p>}</Section>;
  const { answer, supplies } = along;
  const { points, sections, reserve_l } = answer;
  const tight = sections[answer.tight]!;
  const nameAt = namesOf(along, route);
  const posts = supplies.map((n) => postOf(route.supplies[n], holds));
  return (
    <Section title={words[holds]}>
      <Headline holds={holds} along={along} route={route} />
      <Bands
        title={words.picture(words[holds])}
        from_km={points[0]!.at_km}
        to_km={points.at(-1)!.at_km}
        points={points.map((one) => ({
          at_km: one.at_km,
          low: Math.max(one.count_on_l, 0),
          middle: Math.max(one.likely_l, 0),
          high: Math.max(one.likely_l, 0),
        }))}
        edge="low"
        least={0}
        floor={{ value: reserve_l, label: words.reserve(litres(reserve_l)) }}
        posts={posts}
        marks={marksOf(tight)}
        figure={litres}
        km={km}
        onPost={(n) => onStrike(supplies[n]!)}
      />
      {tight.count_on_km === null ? null : (
        <Row label={words.short} figure={km(tight.to_km - tight.count_on_km)} />
      )}
      <Row
        label={words.tight(nameAt(tight.from_km), nameAt(tight.to_km))}
        said={words.reached(tight.probability)}
        note={tight.no_return_km === null ? "" : words.noReturn(km(tight.no_return_km))}
      />
      <p class="hint">{words.strikeHint}</p>
      {answer.stops.map((_, n) => {
        const number = supplies[n]!;
        const supply = route.supplies[number];
        return (
          <div key={number}>
            <Stop {...{ view, holds, along, n, supply }} onTouch={() => setOpen(open === n ? null : n)} />
            {open === n ? (
              <Supply
                {...{ view, holds, supply }}
                onStrike={() => onStrike(number)}
                done={() => setOpen(null)}
              />
            ) : null}
          </div>
        );
      })}
      <Row label={words.restsOn} said={words.readings(along.readings)} />
    </Section>
  );
}

/** Of a counted supply what to take on there; of another why it is not counted, and the chance to come so far. */
function Stop({
  view,
  holds,
  along,
  n,
  supply,
  onTouch,
}: Pick<Props, "view" | "holds"> & { along: Along; n: number; supply: Body; onTouch: () => void }) {
  const { clock } = useServices();
  const report = useReport(view, supply, holds);
  const stop = along.answer.stops[n]!;
  const label = `${supply.name} · ${km(stop.at_km)}`;
  const said = report && !supply.what_if ? saidWords(report, view, clock.zone()) : "";
  if (!stop.counted || stop.at_km === along.answer.points.at(-1)!.at_km)
    return (
      <Row
        label={label}
        said={words.reached(stop.probability)}
        note={[toldOf(supply, holds, report !== null), said].filter(Boolean).join("; ")}
        onTouch={onTouch}
      />
    );
  const { least_l, room_l, full_probability, likely_l, count_on_l } = stop;
  const there = words.arrive(litres(Math.max(likely_l, 0)), litres(Math.max(count_on_l, 0)), litres(room_l));
  const lacking = (full_probability ?? 1) < 0.95 && least_l !== null ? least_l - room_l : 0;
  const even = lacking > 0 ? words.evenFull(full_probability ?? 0, litres(lacking)) : "";
  const note = [there, even, supply.what_if ? words.whatIfOpen : said].filter(Boolean).join(". ");
  const take = least_l ? words.take(litres(Math.ceil(least_l))) : words.takeNothing;
  return <Row label={label} said={take} note={note} onTouch={onTouch} />;
}

function Headline({ along, holds, route }: Pick<Props, "holds" | "route"> & { along: Along }): JSX.Element {
  const { points, sections } = along.answer;
  const first = sections[0]!;
  const from_km = points[0]!.at_km;
  const nameAt = namesOf(along, route);
  const day = (at: number) => (holds === "water" ? `, ${words.dayOf(daysTo(route, at))}` : "");
  const arrival = points.findLast((one) => !one.taken && one.at_km <= first.to_km) ?? points.at(-1)!;
  const next =
    first.to_km < points.at(-1)!.at_km ? ` · ${words.next(nameAt(first.to_km), km(first.to_km))}` : "";
  const [told, beside] =
    first.count_on_km === null
      ? [
          words.reaches(nameAt(first.to_km)),
          words.likelyLeft(litres(Math.max(arrival.likely_l, 0)), litres(Math.max(arrival.count_on_l, 0))),
        ]
      : [
          words.countOn(km(first.count_on_km - from_km)) + day(first.count_on_km),
          first.likely_km === null
            ? words.reached(first.probability)
            : words.likely(km(first.likely_km - from_km)),
        ];
  return (
    <div role="status">
      <p class="answer">
        <strong>{told}</strong>
      </p>
      <p>
        {beside}
        {next}
      </p>
    </div>
  );
}

function marksOf({ count_on_km, no_return_km }: Stretch): BandMark[] {
  return [
    ...(no_return_km === null
      ? []
      : [{ at_km: no_return_km, label: words.noReturn(km(no_return_km)), quiet: true }]),
    ...(count_on_km === null ? [] : [{ at_km: count_on_km, label: words.countTo(km(count_on_km)) }]),
  ];
}

/** What a place is called: the supply there, or the end. */
function namesOf({ answer, supplies }: Along, route: Body): (at_km: number) => string {
  return (at_km) => {
    const n = answer.stops.findIndex((stop) => stop.counted && stop.at_km === at_km);
    if (n >= 0) return route.supplies[supplies[n]!].name;
    return at_km === answer.points.at(-1)!.at_km ? words.end : words.here;
  };
}

/** A supply as it stands on the way; without a content it is struck out where it has neither. */
export function postOf(supply: Body, holds?: "fuel" | "water"): Post {
  const { name, at_km } = supply as { name: string; at_km: number };
  const both = (["fuel", "water"] as const).filter((one) => supply[one]);
  const struck = holds ? isStruck(supply, holds) : both.every((one) => isStruck(supply, one));
  const kind = struck ? "struck" : supply.certain ? "certain" : "uncertain";
  const word = struck && supply.what_if ? words.whatIfShut : words.kinds[kind];
  return { at_km, name, kind, told: words.post(name, km(at_km), word) };
}

/** Why a supply is not counted on; nothing where it is, or where what was reported says it. */
function toldOf(supply: Body, holds: "fuel" | "water", reported: boolean): string {
  if (isStruck(supply, holds))
    return supply.what_if ? words.whatIfShut : reported ? words.notCounted : words.kinds.struck;
  return supply.certain ? "" : words.kinds.uncertain;
}
