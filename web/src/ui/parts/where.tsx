/** Which route the vehicle is on and where: by the odometer, at a place, or by the device's position; one touch changes it. */
import type { JSX } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import type { Row } from "@/services/answers";
import type { Draft } from "@/services/drafts";
import { type Anchor, lastOdometer, lengthOf, nearOn, routeNow, type Told, whereOn } from "@/services/way";
import { located } from "@/services/waypoints";
import { useUser } from "@/ui/context";
import { words } from "@/ui/text/ahead";
import { km } from "@/ui/text/figures";
import { type BookView, useServices } from "./live";
import { SelectField } from "./pick";
import { position } from "./position";

const NOTHING: Told = { route: null, anchor: null };

export interface WhereState {
  readonly told: Told;
  readonly row: Row | null;
  readonly from_km: number;
  readonly choose: (told: Told) => void;
}

/** What this device was told of a book's way, kept on it; null until it has been read. `of` is the page's own route. */
export function useWhere(view: BookView, of: Row | null = null): WhereState | null {
  const { clock } = useServices();
  const user = useUser();
  const [kept, setKept] = useState<{ readonly draft: Draft<Told>; readonly told: Told } | null>(null);
  useEffect(() => {
    let here = true;
    const draft = user.draft<Told>(`where:${view.id}`);
    void draft.found.then((found) => here && setKept({ draft, told: found ?? NOTHING }));
    return () => {
      here = false;
    };
  }, [user, view.id]);
  if (!kept) return null;
  const { told, draft } = kept;
  const at = clock.now();
  const row = of ?? routeNow(view.book, at, told);
  const choose = (next: Told) => {
    setKept({ draft, told: next });
    draft.keep(next);
    void draft.settled();
  };
  return { told, row, from_km: row ? whereOn(view.book, row, at, told) : 0, choose };
}

interface Asked {
  /** Undefined where something else was asked meanwhile, or the page was left. */
  readonly latest: <T>(answer: Promise<T>) => Promise<T | undefined>;
  readonly forget: () => void;
}

/** Of answers that may take long only the latest counts. */
function useAsked(): Asked {
  const turn = useRef(0);
  const forget = (): void => {
    turn.current += 1;
  };
  useEffect(() => forget, []);
  return {
    forget,
    latest: async (answer) => {
      forget();
      const mine = turn.current;
      const found = await answer;
      return mine === turn.current ? found : undefined;
    },
  };
}

interface Props {
  readonly view: BookView;
  readonly where: WhereState;
  readonly row: Row;
}

export function Where({ view, where, row }: Props): JSX.Element {
  const { clock } = useServices();
  const [trouble, setTrouble] = useState<string | null>(null);
  const asked = useAsked();
  const { told, from_km, choose } = where;
  const anchor = told.anchor && (told.route === null || told.route === row.id) ? told.anchor : null;
  const supplies = row.body.supplies ?? [];
  const put = (one: Omit<Anchor, "odometer_km"> | null) =>
    choose({
      route: row.id,
      anchor: one && { ...one, odometer_km: lastOdometer(view.book) },
    });
  const look = async () => {
    setTrouble(words.looking);
    const spot = await asked.latest(position());
    if (spot === undefined) return;
    const near = spot && nearOn(row.body, spot);
    setTrouble(near ? null : words.noPosition);
    if (near) put({ how: "position", ...near });
  };
  const change = (value: string) => {
    asked.forget();
    setTrouble(null);
    if (value === "odometer") return put(null);
    if (value === "position") return void look();
    if (value.startsWith("at:")) return put({ how: "place", at_km: Number(value.slice(3)) });
  };
  const by = whereOn(view.book, row, clock.now(), { route: row.id, anchor: null });
  const begun = row.body.begun_odometer_km != null;
  const total = lengthOf(row.body);
  const places: [number, string][] = [
    ...supplies.map((one: Row["body"]): [number, string] => [one.at_km, one.name]),
    ...(supplies.some((one: Row["body"]) => one.at_km === 0)
      ? []
      : [[0, words.beginning] as [number, string]]),
  ];
  const at = places.filter(([place]) => place <= total).sort(([a], [b]) => a - b);
  const chosen = anchor ? "here" : "odometer";
  return (
    <>
      <SelectField
        label={words.where}
        value={chosen}
        options={[
          ...(anchor ? [{ value: "here", label: words.how[anchor.how](km(from_km), anchor.off_km) }] : []),
          { value: "odometer", label: words.byOdometer(km(by), begun) },
          ...(located(supplies).length > 0 ? [{ value: "position", label: words.position }] : []),
          ...at.map(([place, name]) => ({ value: `at:${place}`, label: words.atPlace(name, km(place)) })),
        ]}
        onChange={change}
      />
      {trouble ? <p role="status">{trouble}</p> : null}
    </>
  );
}
