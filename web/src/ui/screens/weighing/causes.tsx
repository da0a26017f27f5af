/** Entries and readings that could explain the gap: a shortlist, never a culprit. */
import type { JSX } from "preact";
import { useMemo } from "preact/hooks";
import { type Book, type Row as Entry, type Explanation, explained } from "@/services/answers";
import { Row } from "@/ui/parts/row";
import { Section } from "@/ui/parts/section";
import { stopTold } from "@/ui/parts/stops";
import { kg, signedKg } from "@/ui/text/figures";
import { words } from "@/ui/text/weighing";
import { partName } from "./names";

interface Props {
  readonly book: Book;
  readonly entry: Entry;
  /** Weighed and planned differ by more than their doubt. */
  readonly real: boolean;
}

type Causes = NonNullable<Explanation["causes"]>;

export function CauseList({ book, entry, real }: Props): JSX.Element | null {
  const { causes, possible } = useMemo(() => explained(book, entry.id), [book, entry.id]);
  if (!causes || (!real && !causes.found)) return null;
  return (
    <Section title={words.causes.title}>
      <p class="hint">{causes.found ? words.causes.intro : words.causes.weak}</p>
      {byEffect(causes.entries).map((one) => (
        <Row
          key={one.id}
          label={partName(book, one.id.replace(`${entry.id}:`, ""))}
          figure={signedKg(one.possible_kg)}
        />
      ))}
      {causes.readings.length > 0 ? (
        <p>{words.causes.readings(readingNames(book, entry, causes.readings))}</p>
      ) : null}
      {possible.map((one) => (
        <p key={one.id}>{words.causes.possible(partName(book, one.id), kg(Math.round(one.possible_kg)))}</p>
      ))}
    </Section>
  );
}

/** Those that would have to be wrong by the least come first: small errors are the commoner ones (assumed). */
function byEffect(entries: Causes["entries"]): Causes["entries"] {
  return [...entries].sort((a, b) => Math.abs(a.possible_kg) - Math.abs(b.possible_kg));
}

function readingNames(book: Book, entry: Entry, readings: Causes["readings"]): string[] {
  const taken: Entry["body"][] = entry.body.readings;
  return readings.flatMap(({ id }) => {
    const found = taken.find((one) => id === `${entry.id}:${one.id}`);
    return found ? [stopTold(book, entry.body.state?.seats ?? [], found as never).toLowerCase()] : [];
  });
}
