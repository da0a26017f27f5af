/** Each tank's outline with its level as a notch and whisker: hairlines, nothing that fills. */
import type { JSX } from "preact";
import { still } from "@/ui/parts/still";
import { type LaidTank, levelY } from "./tanks";

interface Props {
  readonly tanks: readonly LaidTank[];
  /** Their names stand over them. */
  readonly naming: boolean;
}

export const Tanks = still(function Tanks({ tanks, naming }: Props): JSX.Element {
  const named = naming ? clearOf(tanks) : [];
  return (
    <>
      {[...tanks].reverse().map((one) => (
        <g key={one.mark.id} class="beam-tank">
          <title>{one.mark.told}</title>
          <TankOutline tank={one} />
        </g>
      ))}
      {named.map(({ mark, x, y, width }) => (
        <text
          key={mark.id}
          class="beam-name beam-tank-name"
          aria-hidden="true"
          x={x + width / 2}
          y={y - 4}
          text-anchor="middle"
        >
          {mark.label}
        </text>
      ))}
    </>
  );
});

const NOTCH = { least: 2.5, most: 4.5, share: 0.35 }; // half its width, by the height of the outline

export function TankOutline({ tank }: { readonly tank: LaidTank }): JSX.Element {
  const { mark, x, y, width, height, scale_x } = tank;
  const { level, size } = mark;
  const notch = Math.min(NOTCH.most, Math.max(NOTCH.least, NOTCH.share * height));
  return (
    <>
      <rect
        class={size.assumed ? "beam-tank-body beam-assumed" : "beam-tank-body"}
        {...{ x, y, width, height }}
        rx={2}
      />
      {level ? (
        <>
          <path
            class="beam-tank-whisker"
            d={`M${scale_x} ${levelY(tank, level.share - level.reach)}V${levelY(tank, level.share + level.reach)}`}
          />
          <path class="beam-tank-notch" d={`M${scale_x - notch} ${levelY(tank, level.share)}h${2 * notch}`} />
        </>
      ) : null}
    </>
  );
}

const CHARACTER = 5.4; // width of one letter of the drawing's face at 10 units, with a little to spare

/** Those whose name has room over them. */
function clearOf(tanks: readonly LaidTank[]): LaidTank[] {
  const half = ({ mark }: LaidTank) => (mark.label.length * CHARACTER) / 2;
  const middle = ({ x, width }: LaidTank) => x + width / 2;
  const clear: LaidTank[] = [];
  for (const one of tanks) {
    const apart = (other: LaidTank) =>
      Math.abs(middle(other) - middle(one)) > half(one) + half(other) + 4 || Math.abs(other.y - one.y) > 11;
    if (clear.every(apart)) clear.push(one);
  }
  return clear;
}
