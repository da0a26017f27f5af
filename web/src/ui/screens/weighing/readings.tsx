/** The readings as they were taken, what is to be known of each, and the bridge that showed them. */
import type { JSX } from "preact";
import { type Book, type Comparison, type Row as Entry, TOLD_U_C } from "@/services/answers";
import { type ReadingNote, readingNotes } from "@/services/readings";
import { Row } from "@/ui/parts/row";
import { Section } from "@/ui/parts/section";
import { type StopRead, stopTold } from "@/ui/parts/stops";
import { bridgeTold, step } from "@/ui/text/bridge";
import { figure, kg, twoSided, withReach } from "@/ui/text/figures";
import { words } from "@/ui/text/weighing";

interface Props {
  readonly book: Book;
  readonly entry: Entry;
  readonly found: Comparison;
}

export function Readings({ book, entry, found }: Props): JSX.Element {
  const seats = entry.body.state?.seats ?? [];
  const notes = readingNotes(found);
  return (
    <Section title={words.readings}>
      {entry.body.readings.map((one: Entry["body"] & StopRead) => {
        const note = one.struck_out ? words.setAside(one.struck_out) : noteText(notes.get(one.id));
        return (
          <Row
            key={one.id}
            label={stopTold(book, seats, one)}
            figure={kg(one.value_kg)}
            {...(note ? { note } : {})}
          />
        );
      })}
      <BridgeRows bridge={entry.body.bridge} />
      <Warmth state={entry.body.state ?? {}} />
    </Section>
  );
}

/** How warm the fuel was, where somebody said so. */
function Warmth({ state }: { readonly state: Entry["body"] }): JSX.Element | null {
  const { fuel_temperature_c: warm, fuel_temperature_u_c: u } = state;
  if (warm == null) return null;
  return <Row label={words.warm} figure={`${withReach(warm, twoSided(u ?? TOLD_U_C))}\u202f°C`} />;
}

function noteText(note: ReadingNote | undefined): string {
  if (!note) return "";
  const { light, averaged } = note;
  const told = averaged ? [words.averaged(averaged.count, kg(averaged.value_kg))] : [];
  return [...told, ...(light ? [words.light] : [])].join(" ");
}

function BridgeRows({ bridge }: { readonly bridge: Entry["body"] }): JSX.Element {
  const { form, accuracy_class, percent, max_kg, name, site_number, interval_kg } = bridge;
  const told = {
    form: form ?? "single_deck",
    accuracy_class: accuracy_class ?? null,
    percent: percent == null ? null : String(percent),
    max: max_kg == null ? null : `${figure(max_kg / 1000, max_kg % 1000 === 0 ? 0 : 1)}\u202ft`,
  };
  const site = site_number && site_number !== name ? `, ${site_number}` : "";
  return (
    <>
      <Row
        label={words.bridge}
        said={name ? `${name}${site}` : (site_number ?? words.noName)}
        note={bridgeTold(told)}
      />
      <Row label={words.interval} figure={step(interval_kg ?? ASSUMED_KG)} />
    </>
  );
}

const ASSUMED_KG = 20; // the common public truck bridge (common practice, no source)
