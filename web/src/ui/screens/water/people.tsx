/** Who drinks of it: people and animals join and leave by date, each with a share of an adult's water. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import type { Drinker } from "@/services/water";
import { Action } from "@/ui/parts/action";
import { NumberField, TextField } from "@/ui/parts/forms";
import { type BookView, useServices } from "@/ui/parts/live";
import { Row } from "@/ui/parts/row";
import { Section } from "@/ui/parts/section";
import { figure } from "@/ui/text/figures";
import { words } from "@/ui/text/water";
import { readTyped } from "@/units/typed";

export function People({ view }: { readonly view: BookView }): JSX.Element {
  const { answers, clock } = useServices();
  const [picked, setPicked] = useState<string | null>(null);
  const drinkers = answers.drinkersAt(view.book, clock.now());
  return (
    <Section title={words.who}>
      {drinkers.map((one) => (
        <div key={one.id}>
          <Row
            label={one.name}
            said={one.aboard ? words.aboard : words.away}
            note={words.share(figure(one.share, one.share % 1 === 0 ? 0 : 2))}
            onTouch={() => setPicked(picked === one.id ? null : one.id)}
          />
          {picked === one.id ? <Change view={view} one={one} done={() => setPicked(null)} /> : null}
        </div>
      ))}
      <Row label={words.addPerson} to={`/b/${view.id}/plan/person/new`} />
    </Section>
  );
}

interface ChangeProps {
  readonly view: BookView;
  readonly one: Drinker;
  readonly done: () => void;
}

function Change({ view, one, done }: ChangeProps): JSX.Element {
  const { clock, records } = useServices();
  const today = clock.now().slice(0, 10);
  const [day, setDay] = useState(today);
  const [share, setShare] = useState({ text: String(one.share), unit: "1" });
  const [error, setError] = useState<string | null>(null);
  const move = async () => {
    // the hour of another day is not known: noon
    const at = day === today ? clock.now() : new Date(`${day}T12:00`).toISOString();
    await records.log(view.id, "aboard", {
      ...{ at, zone: clock.zone() },
      ...{ subject: "person", subject_id: one.id, aboard: !one.aboard },
    });
    done();
  };
  const keep = async () => {
    const read = readTyped(share, { dimension: "fraction", low: 0, high: 5, name: words.shareOf });
    if (read.kind !== "ok") return setError(read.kind === "wrong" ? read.message : words.needShare);
    await records.edit(view.id, "person", one.id, {
      ...{ water_share: read.base, as_typed: { water_share: read.as_typed } },
    });
    return done();
  };
  return (
    <>
      <TextField label={words.when} kind="date" value={day} onChange={setDay} />
      <Action
        label={one.aboard ? words.leaves(one.name) : words.joins(one.name)}
        kind="plain"
        onTouch={move}
      />
      {view.role === "owner" ? (
        <>
          <NumberField
            label={words.shareOf}
            hint={words.shareHint}
            value={share}
            error={error}
            onChange={setShare}
          />
          <Action label={words.keepShare} kind="plain" onTouch={keep} />
        </>
      ) : null}
    </>
  );
}
