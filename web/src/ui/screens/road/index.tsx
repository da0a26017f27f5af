/** The routes of a vehicle, and one distance for whoever has none. */
import type { JSX } from "preact";
import { useMemo, useState } from "preact/hooks";
import { strayReports } from "@/services/road";
import { Action, Actions } from "@/ui/parts/action";
import { ChoiceField, NumberField } from "@/ui/parts/forms";
import { type BookView, useBook, useServices } from "@/ui/parts/live";
import { Row } from "@/ui/parts/row";
import { Screen } from "@/ui/parts/screen";
import { Section } from "@/ui/parts/section";
import { momentOf } from "@/ui/text/figures";
import { words as fuel } from "@/ui/text/fuel";
import { placeWords, words as reports } from "@/ui/text/reports";
import { km, words } from "@/ui/text/road";
import { readTyped } from "@/units/typed";
import { RoadView, struck, struckOnce } from "./view";

export default function RoadScreen({ book }: { readonly book: string }): JSX.Element | null {
  const view = useBook(book);
  return view ? <Roads view={view} /> : null;
}

function Roads({ view }: { readonly view: BookView }): JSX.Element {
  const { go } = useServices();
  const { routes } = view.book;
  const to = (route: string) => `/b/${view.id}/road/${route}`;
  const total = (legs: readonly { distance_km: number }[]) =>
    legs.reduce((sum, leg) => sum + leg.distance_km, 0);
  return (
    <Screen title={view.name} back={`/b/${view.id}`} aside={words.title}>
      <Section title={words.routes}>
        {routes.length === 0 ? <p class="hint">{words.none}</p> : null}
        {routes.map(({ id, body }) => (
          <Row key={id} label={body.name} figure={km(total(body.legs))} to={to(id)} />
        ))}
      </Section>
      <Stray view={view} />
      <OneDistance view={view} />
      {view.role === "co_driver" ? null : (
        <Actions>
          <Action label={words.add} onTouch={() => go(to("new/edit"))} />
        </Actions>
      )}
    </Screen>
  );
}

/** Shut, and on none of the routes: perhaps it has another name there since. */
function Stray({ view }: { readonly view: BookView }): JSX.Element | null {
  const { clock } = useServices();
  const stray = strayReports(view.book, clock.now());
  if (stray.length === 0) return null;
  return (
    <Section title={reports.stray}>
      {stray.map(({ id, body }) => (
        <Row
          key={id}
          label={placeWords(body)}
          note={momentOf(body.at, body.zone)}
          to={`/b/${view.id}/correct/${id}`}
        />
      ))}
    </Section>
  );
}

const SURFACES = ["sealed", "gravel", "sand"] as const;

function OneDistance({ view }: { readonly view: BookView }): JSX.Element {
  const [typed, setTyped] = useState({ text: "", unit: "km" });
  const [surface, setSurface] = useState<string>("sealed");
  const [said, setSaid] = useState<Readonly<{ [supply: number]: boolean }>>({});
  const read = readTyped(typed, { dimension: "distance", low: 1, high: 20_000, name: words.distance });
  const at_km = read.kind === "ok" ? read.base : null;
  const route = useMemo(() => {
    if (at_km === null) return null;
    const shares = Object.fromEntries(SURFACES.map((name) => [name, name === surface ? 1 : 0]));
    const next = { name: words.ahead, at_km, fuel: true, water: true, certain: true };
    return struck({ legs: [{ distance_km: at_km, surface: shares }], supplies: [next] }, said);
  }, [at_km, surface, said]);
  return (
    <Section title={words.oneDistance}>
      <NumberField
        label={words.distance}
        value={typed}
        units={["km", "mi"]}
        error={read.kind === "wrong" ? read.message : null}
        ask={read.kind === "ask" ? read.choices : null}
        onChange={setTyped}
      />
      <ChoiceField
        label={words.surface}
        value={surface}
        options={SURFACES.map((value) => ({ value, label: fuel.surfaces[value] }))}
        onChange={setSurface}
      />
      {route ? (
        <RoadView
          view={view}
          route={route}
          from_km={0}
          onStrike={(n) => setSaid(struckOnce(route, said, n))}
        />
      ) : null}
    </Section>
  );
}
