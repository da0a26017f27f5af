/** What is asked: which state, which levels, what is to be least, and what must stay aboard. */
import type { JSX } from "preact";
import type { Book, State } from "@/services/answers";
import { keptNames, usualReserve, WATER_DAYS, WATER_L } from "@/services/change";
import { ChoiceField, NumberField, YesNo } from "@/ui/parts/forms";
import { Section } from "@/ui/parts/section";
import { LevelsField, StateField } from "@/ui/parts/states";
import { words } from "@/ui/text/change";
import { kg } from "@/ui/text/figures";
import { type Asked, leastCouplingKg, type ReadAsked } from "./wish";

interface Props {
  readonly book: Book;
  readonly state: State;
  readonly asked: Asked;
  readonly errors: ReadAsked["errors"];
  /** The day of the weighing whose state is offered. */
  readonly weighed: string | null;
  readonly onChange: (asked: Asked) => void;
}

export function Choices({ book, asked, weighed, onChange }: Props): JSX.Element {
  const put = (change: Partial<Asked>) => onChange({ ...asked, ...change });
  return (
    <>
      <StateField
        trailers={book.trailers}
        value={asked.state}
        first={weighed ? [{ value: "weighed", label: words.asWeighed(weighed) }] : []}
        onChange={(state) => put({ state })}
      />
      {book.tanks.length > 0 ? (
        <LevelsField
          worst={asked.tanks === "worst"}
          onChange={(worst) => put({ tanks: worst ? "worst" : "as_is" })}
        />
      ) : null}
      <ChoiceField
        label={words.objective}
        value={asked.objective}
        options={[
          { value: "moves", label: words.fewest },
          { value: "off", label: words.leastOff },
        ]}
        onChange={(objective) => put({ objective })}
      />
    </>
  );
}

/** Reserves, each with where its usual figure comes from. */
export function Kept({ book, state, asked, errors, onChange }: Props): JSX.Element {
  const put = (change: Partial<Asked>) => onChange({ ...asked, ...change });
  const least = leastCouplingKg(book, state);
  const kept = keptNames(book, state);
  const holds = (what: string) =>
    asked.tanks === "as_is" && book.tanks.some((row) => row.body.holds === what);
  return (
    <Section title={words.kept}>
      {holds("water") ? (
        <NumberField
          label={words.reserve}
          hint={words.reserveHint(usualReserve(book, state), WATER_L, WATER_DAYS)}
          value={asked.reserve}
          units={["L"]}
          error={errors.reserve}
          onChange={(reserve) => put({ reserve })}
        />
      ) : null}
      {holds("fuel") ? (
        <>
          <YesNo question={words.fuel} value={asked.fuel} onChange={(fuel) => put({ fuel })} />
          {asked.fuel ? <p class="hint">{words.fuelHint}</p> : null}
        </>
      ) : null}
      {state.trailers_on.length > 0 ? (
        <NumberField
          label={words.coupling}
          hint={words.couplingHint(least > 0 ? kg(least) : null)}
          value={asked.coupling}
          units={["kg"]}
          error={errors.coupling}
          onChange={(coupling) => put({ coupling })}
        />
      ) : null}
      <p class="hint">{words.never}</p>
      {kept.length > 0 ? <p class="hint">{words.keptAboard(kept)}</p> : null}
    </Section>
  );
}
