/** What is picked on the drawing: its name, its mass and how well that is known, its place to be typed. */
import type { JSX } from "preact";
import { massUOf } from "@/services/plan";
import type { Arrow } from "@/ui/parts/drawing/beam";
import type { BookView } from "@/ui/parts/live";
import { Row } from "@/ui/parts/row";
import { kg, metres, twoSided, withReach } from "@/ui/text/figures";
import { words } from "@/ui/text/plan";
import type { Picked } from "./bench";
import { fieldOf, told } from "./cells";
import type { Edits } from "./edits";
import { figureOf, labelOf } from "./lines";
import { InPlace } from "./list";
import { placed } from "./moving";
import { useCells } from "./typing";

interface Props {
  readonly view: BookView;
  readonly edits: Edits;
  readonly picked: Picked;
  /** Where it is at the moment. */
  readonly x_m: number | null;
}

export function Panel({ view, edits, picked, x_m }: Props): JSX.Element | null {
  const cells = useCells(view, edits, "plan-picked");
  const found = placed(view, picked.id);
  if (!found || picked.by !== "drawing") return null;
  const { kind, row } = found;
  const { body } = row;
  const known = kind === "item" && body.mass_kg != null;
  const mass = known ? `${withReach(body.mass_kg, twoSided(massUOf(body)))}\u202fkg` : figureOf(kind, body);
  const how = known ? told(fieldOf(kind, "known_by"), body, view.book).text : "";
  return (
    <div class="plan-panel">
      <Row
        label={labelOf(kind, body)}
        figure={mass}
        note={[x_m === null ? words.noPlace : words.at(metres(x_m)), how].filter(Boolean).join(", ")}
        to={`/b/${view.id}/plan/${kind}/${row.id}`}
      />
      <InPlace kind={kind} row={row} column={fieldOf(kind, "x_m")} cells={cells} />
      <p class="hint">{words.moveHint}</p>
    </div>
  );
}

interface SpreadProps {
  readonly members: readonly Arrow[];
  readonly onPick: (id: string) => void;
}

/** Several things in one place, to choose from. */
export function Spread({ members, onPick }: SpreadProps): JSX.Element {
  return (
    <div class="choice" role="group" aria-label={words.which(members.length)}>
      <p>{words.which(members.length)}</p>
      <div class="choice-options">
        {members.map(({ id, label, mass_kg }) => (
          <button key={id} type="button" onClick={() => onPick(id)}>
            {label} {kg(mass_kg)}
          </button>
        ))}
      </div>
    </div>
  );
}
