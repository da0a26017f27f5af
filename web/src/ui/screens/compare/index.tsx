/** Two plans of one vehicle side by side: days, stages, with a trailer or without, and every record between them. */
import type { JSX } from "preact";
import { useMemo, useState } from "preact/hooks";
import { comparedPlans, daysToCompare, type Version } from "@/services/compare";
import { Cautions } from "@/ui/parts/cautions";
import { ChoiceField } from "@/ui/parts/forms";
import { type BookView, useBook, useServices } from "@/ui/parts/live";
import { Screen } from "@/ui/parts/screen";
import { words } from "@/ui/text/compare";
import { words as states } from "@/ui/text/states";
import { Chooser } from "./chooser";
import "./compare.css";
import { Differences } from "./differences";
import { Levels } from "./levels";
import { SideView } from "./side";

export default function CompareScreen({ book }: { readonly book: string }): JSX.Element | null {
  const view = useBook(book);
  return view ? <Compare view={view} /> : null;
}

const BOTH = [0, 1] as const;

function Compare({ view }: { readonly view: BookView }): JSX.Element {
  const { answers, clock } = useServices();
  const { book } = view;
  const now = clock.now();
  const { days, first } = useMemo(() => daysToCompare(book, now), [book]);
  const [chosen, choose] = useState<readonly [Version, Version]>([{ day: first || null }, {}]);
  const [logged, setLogged] = useState(false);
  const state = useMemo(() => (logged ? answers.stateAt(book, now) : null), [book, logged]);
  const found = useMemo(() => comparedPlans(book, chosen, now.slice(0, 10), state), [book, chosen, state]);
  const set = (side: 0 | 1, version: Version) =>
    choose(side === 0 ? [version, chosen[1]] : [chosen[0], version]);
  return (
    <Screen title={view.name} back={`/b/${view.id}/plan`} aside={words.title}>
      <div class="columns">
        {BOTH.map((side) => (
          <Chooser
            key={side}
            title={words.sides[side]}
            version={chosen[side]}
            days={days}
            trailers={book.trailers}
            onChange={(version) => set(side, version)}
          />
        ))}
      </div>
      <ChoiceField
        label={words.state}
        hint={words.alone}
        value={logged ? "now" : "full"}
        options={[
          { value: "full", label: states.full },
          { value: "now", label: states.asLogged },
        ]}
        onChange={(value) => setLogged(value === "now")}
      />
      <div class="columns">
        {BOTH.map((side) => (
          <SideView
            key={side}
            shown={found.sides[side]}
            version={chosen[side]}
            title={words.sides[side]}
            terms={view.terms}
          />
        ))}
      </div>
      <Levels sides={found.sides} versions={chosen} />
      <Differences book={book} found={found} />
      <Cautions />
    </Screen>
  );
}
