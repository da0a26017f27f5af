/** Planned against weighed per axle, in the state of the day. */
import type { JSX } from "preact";
import type { Comparison } from "@/services/answers";
import { Section } from "@/ui/parts/section";
import { figure, signedKg, twoSided, withReach } from "@/ui/text/figures";
import { ratingName, type Terms } from "@/ui/text/ratings";
import { words } from "@/ui/text/weighing";

interface Props {
  readonly gaps: Comparison["gaps"];
  readonly terms: Terms | null;
}

export function GapTable({ gaps, terms }: Props): JSX.Element {
  return (
    <Section title={words.compared}>
      <table>
        <thead>
          <tr>
            <th scope="col">{words.row}</th>
            <th scope="col">{words.planned}</th>
            <th scope="col">{words.weighed}</th>
            <th scope="col">{words.gap}</th>
          </tr>
        </thead>
        <tbody>
          {gaps.map((gap) => (
            <tr key={gap.row}>
              <th scope="row">{ratingName(gap.row, gap.row === "gross" ? null : terms)}</th>
              <td>{withReach(gap.planned_kg, twoSided(gap.planned_u_kg))}</td>
              <td>{figure(gap.weighed_kg)}</td>
              <td>
                {signedKg(gap.gap_kg)} ± {Math.round(twoSided(gap.gap_u_kg))}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p class="hint">{words.comparedHint}</p>
    </Section>
  );
}
