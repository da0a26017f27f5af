/** What each tank holds in either plan: full, or as the log has it now. */
import type { JSX } from "preact";
import type { Shown, Version } from "@/services/compare";
import { Section } from "@/ui/parts/section";
import { words } from "@/ui/text/compare";
import { twoSided } from "@/ui/text/figures";
import { words as tank } from "@/ui/text/tank";

interface Props {
  readonly sides: readonly [Shown, Shown];
  readonly versions: readonly [Version, Version];
}

export function Levels({ sides, versions }: Props): JSX.Element | null {
  if (sides.some((one) => one.loads === null)) return null;
  const [first, second] = sides;
  const names = new Map([...second.book.tanks, ...first.book.tanks].map(({ id, body }) => [id, body.name]));
  if (names.size === 0) return null;
  return (
    <Section title={words.levels}>
      <table class="compare-lines compare-levels">
        <thead>
          <tr>
            <th scope="col">{words.tank}</th>
            {words.sides.map((side) => (
              <th key={side} scope="col">
                {side}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {[...names].map(([id, name]) => (
            <tr key={id}>
              <th scope="row">{name}</th>
              {sides.map((side, k) => (
                <td key={k}>{told(side, versions[k]!, id)}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </Section>
  );
}

function told({ book, levels }: Shown, { trailer_id = null }: Version, id: string): string {
  const body = book.tanks.find((one) => one.id === id)?.body;
  if (!body || (body.trailer_id && body.trailer_id !== trailer_id)) return words.notThere;
  const level = levels.find((one) => one.tank_id === id && one.known_from !== "prior");
  const capacity_l: number | null = body.capacity_l ?? null;
  if (capacity_l === null || !level) return words.noLevel;
  const [litres, reach] = [level.level * capacity_l, twoSided(level.level_u) * capacity_l];
  return tank.reads({ litres, reach }, capacity_l);
}
