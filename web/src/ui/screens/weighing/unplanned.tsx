/** Weighed minus planned, with its place only when the maths allow one. */
import type { JSX } from "preact";
import type { Comparison } from "@/services/answers";
import { kg, metres, twoSided } from "@/ui/text/figures";
import { words } from "@/ui/text/weighing";
import "./unplanned.css";

interface Props {
  readonly unplanned: NonNullable<Comparison["unplanned"]>;
  readonly wheelbase_m: number;
}

export function UnplannedMass({ unplanned, wheelbase_m }: Props): JSX.Element {
  const { mass_kg, u_kg } = unplanned;
  return (
    <div class="unplanned">
      <p class="unplanned-mass">
        <strong>{mass_kg < 0 ? words.less(kg(-mass_kg)) : words.unplanned(kg(mass_kg))}</strong>{" "}
        <span>± {Math.round(twoSided(u_kg))}</span>
      </p>
      <p>{placeWords(unplanned, wheelbase_m)}</p>
    </div>
  );
}

/** On the trailer only the mass is told: its place on a trailer is a matter of the coupling. */
export function UnplannedTrailer({ unplanned }: Pick<Props, "unplanned">): JSX.Element {
  const { mass_kg, u_kg } = unplanned;
  return (
    <p>
      {mass_kg < 0 ? words.trailerLess(kg(-mass_kg)) : words.trailerMore(kg(mass_kg))}{" "}
      <span>± {Math.round(twoSided(u_kg))}</span>
    </p>
  );
}

function placeWords({ finding, zone }: Props["unplanned"], wheelbase_m: number): string {
  if (finding === "placed" && zone?.from_m != null && zone.to_m != null) {
    if (zone.from_m >= wheelbase_m) return words.behind(metres(zone.from_m), metres(zone.to_m));
    if (zone.to_m <= 0) return words.ahead(metres(-zone.to_m), metres(-zone.from_m));
    return words.between(metres(Math.max(zone.from_m, 0)), metres(zone.to_m));
  }
  return words.finding[finding] ?? "";
}
