/** If we break down here: people, water, fuel, place, in one plain text. Nothing is fetched, the position only on a touch. */
import type { JSX } from "preact";
import { useMemo, useState } from "preact/hooks";
import type { Row } from "@/services/answers";
import { reportedRoute, reportOf } from "@/services/road";
import { around } from "@/services/way";
import { useUser } from "@/ui/context";
import { Action } from "@/ui/parts/action";
import { Cautions } from "@/ui/parts/cautions";
import { TextField } from "@/ui/parts/forms";
import { type BookView, useBook, useDraft, useServices } from "@/ui/parts/live";
import { type Position, position } from "@/ui/parts/position";
import { Screen } from "@/ui/parts/screen";
import { Section } from "@/ui/parts/section";
import { useWhere, type WhereState } from "@/ui/parts/where";
import { radioText, restsText, type Situation, words } from "@/ui/text/breakdown";
import { water as cautions } from "@/ui/text/cautions";
import { momentOf } from "@/ui/text/figures";
import { saidWords } from "@/ui/text/reports";
import "./breakdown.css";

export default function BreakdownScreen({ book: id }: { readonly book: string }): JSX.Element | null {
  const view = useBook(id);
  return view ? <Breakdown view={view} /> : null;
}

interface Typed {
  readonly place: string;
  readonly more: string;
}

function Breakdown({ view }: { readonly view: BookView }): JSX.Element | null {
  const draft = useDraft<Typed>(`breakdown:${view.id}`, { place: "", more: "" });
  const [told, setTold] = useState<string | null>(null);
  const where = useWhere(view);
  const { situation, water } = useSituation(view, draft.value, where);
  if (!draft.ready) return null;
  const lines = radioText(situation);
  const confidence: number = view.book.vehicle?.body.confidence ?? 0.95;
  const put = (change: Partial<Typed>) => draft.change({ ...draft.value, ...change });
  const copy = async () => {
    const done = await copied(lines.join("\n"));
    setTold(done ? words.copied : words.notCopied);
  };
  const look = async () => {
    const found = await position();
    const place = found ? placeOf(found) : null;
    if (place) put({ place });
    setTold(place ? null : words.noPosition);
  };
  return (
    <Screen title={words.title} back={`/b/${view.id}`} aside={view.name} narrow>
      <div class="radio">
        {lines.map((line) => (
          <p key={line}>{line}</p>
        ))}
      </div>
      {told ? <p role="alert">{told}</p> : null}
      <Action label={words.copy} onTouch={copy} />
      <TextField
        label={words.where}
        hint={words.whereHint}
        value={draft.value.place}
        onChange={(place) => put({ place })}
      />
      <Action label={words.look} kind="plain" onTouch={look} />
      <TextField
        label={words.more}
        hint={words.moreHint}
        value={draft.value.more}
        onChange={(more) => put({ more })}
      />
      {situation.survival ? (
        <Section title={words.restsOn}>
          {restsText(situation.survival, water, confidence).map((line) => (
            <p key={line} class="hint">
              {line}
            </p>
          ))}
        </Section>
      ) : null}
      <Cautions lines={cautions} />
    </Screen>
  );
}

function useSituation(view: BookView, { place, more }: Typed, where: WhereState | null) {
  const { answers, clock } = useServices();
  const contact = useUser().status.synced_at.value;
  const { book } = view;
  const now = clock.now();
  const minute = now.slice(0, 16);
  return useMemo(() => {
    const zone = clock.zone();
    const on = answers.presentAt(book, now).trailers_on;
    const situation: Situation = {
      vehicle: view.name,
      form: book.vehicle?.body.body_form ?? null,
      trailer: book.trailers.find((one) => on.includes(one.id))?.body.name ?? null,
      drinkers: answers.drinkersAt(book, now),
      animals: new Set(book.people.flatMap(({ id, body }) => (body.nature === "animal" ? [id] : []))),
      survival: answers.survivalAt(book, now),
      fuel: answers.fuel(book),
      way: where?.row && isUnderWay(where.row, where) ? wayOf(view, where.row, where, now, zone) : null,
      ...{ place, more },
      now: momentOf(now, zone),
      contact: contact === null ? null : momentOf(contact, zone),
    };
    return { situation, water: answers.water(book, now) };
  }, [book, place, more, contact, minute, where?.row, where?.from_km]);
}

/** Nothing is said over a radio of a route that nobody has said to be on. */
function isUnderWay({ body }: Row, { told }: WhereState): boolean {
  return told.anchor !== null || body.begun_odometer_km != null;
}

/** Where on the planned route, and the supplies behind and ahead with what was last heard of them. */
function wayOf(
  view: BookView,
  { body }: Row,
  where: WhereState,
  now: string,
  zone: string,
): Situation["way"] {
  const route = reportedRoute(view.book, body, now);
  const supplies = around(route, where.from_km).map((supply) => {
    const said = reportOf(view.book, supply.name, now);
    const bad = [said?.fuel, said?.water].flatMap((one) => (one && one.found !== "open" ? [one] : []));
    const told = new Set(bad.map((one) => saidWords(one, view, zone)));
    return { supply, report: [...told].join(", ") };
  });
  return { name: body.name, at_km: where.from_km, supplies };
}

async function copied(text: string): Promise<boolean> {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    return false;
  }
}

/** To about ten metres. */
function placeOf({ latitude_deg, longitude_deg, accuracy_m }: Position): string {
  return `${latitude_deg.toFixed(4)}, ${longitude_deg.toFixed(4)} (± ${Math.round(accuracy_m)} m)`;
}
