/** What a build sheet leaves out: how much, where, what it does to each load, and whether the plan counts it. */
import type { JSX } from "preact";
import { useMemo } from "preact/hooks";
import { forgottenIn, type Planned } from "@/services/plan";
import { YesNo } from "@/ui/parts/forms";
import type { BookView } from "@/ui/parts/live";
import { Row } from "@/ui/parts/row";
import { Section } from "@/ui/parts/section";
import { signedKg, twoSided, withReach } from "@/ui/text/figures";
import { words } from "@/ui/text/plan";
import { ratingName } from "@/ui/text/ratings";
import { fieldOf } from "./cells";
import type { Edits } from "./edits";
import { InPlace } from "./list";
import { useCells } from "./typing";

interface Props {
  readonly view: BookView;
  readonly edits: Edits;
  readonly found: Planned;
  readonly ordered: boolean;
}

export function ForgottenMass({ view, edits, found, ordered }: Props): JSX.Element | null {
  const cells = useCells(view, edits, "plan-forgotten");
  const said = useMemo(() => forgottenIn(view.book, found, ordered), [view.book, found, ordered]);
  const { vehicle } = view.book;
  if (!said || !vehicle) return null;
  const { share, counted, part, effect } = said;
  const put = (forgotten_share: number | null) =>
    edits.put("vehicle", vehicle, { forgotten_share }, words.forgotten);
  return (
    <Section title={words.forgotten}>
      <p class="hint">{words.forgottenWhy}</p>
      <Row
        label={words.ofAdded(`${Number((share * 100).toPrecision(3))} %`)}
        figure={`${withReach(part.mass_kg, twoSided(part.mass_u_kg))}\u202fkg`}
        note={words.forgottenAt(`${withReach(part.x_m, twoSided(part.x_u_m ?? 0), 2)}\u202fm`)}
      />
      {effect.rows.map((row, k) => (
        <Row key={row} label={ratingName(row, view.terms)} figure={signedKg(effect.mean_kg[k]!)} />
      ))}
      {view.role === "co_driver" ? null : (
        <YesNo
          question={words.countIt}
          value={counted}
          yes={words.counted}
          no={words.notIn}
          onChange={(yes) => void put(yes ? share : null)}
        />
      )}
      {counted && view.role !== "co_driver" ? (
        <InPlace kind="vehicle" row={vehicle} column={fieldOf("vehicle", "forgotten_share")} cells={cells} />
      ) : null}
    </Section>
  );
}
