/** Planned against weighed per axle, in the state of the day: kg, ± two-sided 95 %; the screen says so beside it. */
import type { JSX } from "preact";
import type { Comparison } from "@/services/answers";
import { signed, twoSided, withReach } from "@/ui/text/figures";
import { ratingName } from "@/ui/text/ratings";
import { words } from "@/ui/text/weighing";

const SINGLE_WHEEL = /_(left|right)$/; // wheels have a table of their own

export function GapTable({ gaps }: { readonly gaps: Comparison["gaps"] }): JSX.Element {
  const axles = gaps.filter((gap) => !SINGLE_WHEEL.test(gap.row));
  return (
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
        {axles.map((gap) => (
          <tr key={gap.row}>
            <th scope="row">{ratingName(gap.row, null)}</th>
            <td>{withReach(gap.planned_kg, twoSided(gap.planned_u_kg))}</td>
            <td>{withReach(gap.weighed_kg, twoSided(gap.weighed_u_kg))}</td>
            <td>
              {signed(gap.gap_kg)} ±&nbsp;{Math.round(twoSided(gap.gap_u_kg))}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
