/** For how many days, and what that rests on: each tank, what may be drunk, people, rate, reserve. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import type { Heat, WaterAnswer } from "@/services/water";
import { ChoiceField } from "@/ui/parts/forms";
import { type BookView, useServices } from "@/ui/parts/live";
import { Row } from "@/ui/parts/row";
import { Section } from "@/ui/parts/section";
import { days, figure, litres, twoSided } from "@/ui/text/figures";
import { words } from "@/ui/text/water";

export function Headline({ answer }: { readonly answer: WaterAnswer }): JSX.Element {
  const { count_on_days, likely_days } = answer;
  return (
    <div role="status">
      <p class="answer">
        <strong>{count_on_days === null ? words.nobody : words.countOn(days(count_on_days))}</strong>
      </p>
      {likely_days === null ? null : <p>{words.likely(days(likely_days))}</p>}
    </div>
  );
}

interface Props {
  readonly answer: WaterAnswer;
  readonly view: BookView;
}

export function Rests({ answer, view }: Props): JSX.Element {
  const name = (id: string) => view.book.tanks.find((tank) => tank.id === id)?.body.name ?? "";
  const held = (mean: number, u: number) => `${litres(mean)} ± ${Math.round(twoSided(u))}`;
  return (
    <div>
      <Drinking answer={answer} />
      <Section title={words.restsOn}>
        <Row label={words.left} figure={held(answer.litres, answer.litres_u)} />
        {answer.tanks.map((tank) => (
          <Row
            key={tank.tank_id}
            label={name(tank.tank_id)}
            figure={tank.apart ? litres(tank.litres) : held(tank.litres, tank.litres_u)}
            note={[words.drinkable[tank.drinkable], tank.apart ? words.apart : ""].filter(Boolean).join("; ")}
          />
        ))}
        <Row label={words.people} figure={figure(answer.people, 1)} />
        <Row
          label={words.rate}
          figure={`${litres(answer.l_per_person_day, 1)} ± ${twoSided(answer.rate_u).toFixed(1)}`}
          note={words.readings(answer.readings)}
        />
        <Row label={words.reserve} figure={litres(answer.reserve_l)} />
        <Row label={words.toDefaults} to={`/b/${view.id}/defaults/water`} />
      </Section>
    </div>
  );
}

/** What is known to be drinkable, apart from the rest; how far it goes depends on heat and work. */
function Drinking({ answer }: Pick<Props, "answer">): JSX.Element | null {
  const { answers } = useServices();
  const [heat, setHeat] = useState<Heat>("rest");
  const alone = answer.drink_days[heat];
  if (alone === null) return null;
  return (
    <Section title={words.drinking}>
      {answer.drinkable === "yes" || answer.drinkable_days === null ? null : (
        <Row label={words.drinkableAlone} figure={days(answer.drinkable_days)} />
      )}
      <ChoiceField
        label={words.heat}
        value={heat}
        options={HEATS.map((value) => ({ value, label: words.heats[value] }))}
        onChange={(value) => setHeat(value as Heat)}
      />
      <Row
        label={words.drinkOnly(litres(answers.drinkRates[heat], 1))}
        figure={days(alone)}
        note={words.heatSources[heat]}
      />
    </Section>
  );
}

const HEATS: readonly Heat[] = ["rest", "road", "active", "work"];
