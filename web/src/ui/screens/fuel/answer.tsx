/** How far on what is left: the count-on figure first, the likely one second, and what both rest on. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import type { Book } from "@/services/answers";
import type { FuelAnswer } from "@/services/consumption";
import { ChoiceField, NumberField, YesNo } from "@/ui/parts/forms";
import { useServices } from "@/ui/parts/live";
import { Notice } from "@/ui/parts/notice";
import { Row } from "@/ui/parts/row";
import { Section } from "@/ui/parts/section";
import { km, litres, perHundred, twoSided } from "@/ui/text/figures";
import { entryOf } from "@/ui/text/findings";
import { reachWords, words } from "@/ui/text/fuel";
import { readTyped } from "@/units/typed";

interface Props {
  readonly answer: FuelAnswer;
  readonly book: Book;
}

/** The two distances, before anything is typed. */
export function FuelHeadline({ answer }: Pick<Props, "answer">): JSX.Element {
  return (
    <div role="status">
      <p class="answer">
        <strong>{words.countOn(km(answer.count_on_km))}</strong>
      </p>
      <p>{words.likelyOn(km(answer.likely_km), words.surfaces[answer.surface], answer.towing)}</p>
    </div>
  );
}

/** What the latest entry changed, if it came late. */
export function Late({ answer: { late }, book }: Props): JSX.Element | null {
  if (!late) return null;
  const at: number | null = entryOf(book, late.entry_id)?.body.odometer_km ?? null;
  const [before, after] = [km(late.before_km), km(late.after_km)];
  return <Notice>{words.late(at === null ? null : km(at), before, after)}</Notice>;
}

/** Another surface ahead, one distance to reach, and what the answer rests on. */
export function FuelRests({ answer, book }: Props): JSX.Element {
  const [surface, setSurface] = useState(answer.surface);
  const [towing, setTowing] = useState(answer.towing);
  const { answers } = useServices();
  const same = surface === answer.surface && towing === answer.towing;
  const shown = same ? answer : (answers.fuel(book, { surface, towing }) ?? answer);
  return (
    <div>
      <Section title={words.onward}>
        <ChoiceField
          label={words.ahead}
          value={surface}
          options={(["sealed", "gravel", "sand"] as const).map((value) => ({
            value,
            label: words.surfaces[value],
          }))}
          onChange={(value) => setSurface(value as FuelAnswer["surface"])}
        />
        {book.trailers.length > 0 ? (
          <YesNo question={words.towingAhead} value={towing} onChange={setTowing} />
        ) : null}
        <Row
          label={words.countOnRow}
          figure={km(shown.count_on_km)}
          note={words.likely(km(shown.likely_km))}
        />
        <Reach answer={shown} book={book} />
      </Section>
      <Section title={words.restsOn}>
        <Row
          label={words.left}
          figure={`${litres(shown.litres)} ± ${Math.round(twoSided(shown.litres_u))}`}
        />
        {shown.since_full ? (
          <Row
            label={words.sinceFull}
            figure={`${perHundred(shown.since_full.l_per_100km)} ± ${twoSided(shown.since_full.u).toFixed(1)}`}
          />
        ) : null}
        {shown.rates.map((rate) => (
          <Row
            key={rate.surface + rate.towing}
            label={words.rateOf(words.surfaces[rate.surface], rate.towing)}
            figure={`${perHundred(rate.l_per_100km)} ± ${twoSided(rate.u).toFixed(1)}`}
            note={words.fulls(rate.full_tanks, rate.way_km)}
          />
        ))}
        <Row label={words.reserve} figure={litres(shown.reserve_l)} note={words.oneSided(shown.confidence)} />
        <Row label={words.toDefaults} to={`/b/${book.vehicle?.id ?? ""}/defaults/fuel`} />
      </Section>
    </div>
  );
}

/** One typed distance: reached or not, with its probability. */
function Reach({ answer, book }: Props): JSX.Element {
  const { answers } = useServices();
  const [typed, setTyped] = useState({ text: "", unit: "km" });
  const read = readTyped(typed, { dimension: "distance", low: 0, high: 20_000, name: words.nextSupply });
  const p = read.kind === "ok" ? answers.reach(book, read.base, answer) : null;
  return (
    <>
      <NumberField
        label={words.nextSupply}
        value={typed}
        units={["km", "mi"]}
        onChange={setTyped}
        error={read.kind === "wrong" ? read.message : null}
        ask={read.kind === "ask" ? read.choices : null}
      />
      {p === null ? null : (
        <p role="status">
          <strong>{reachWords(p, answer.confidence)}</strong>
        </p>
      )}
    </>
  );
}
