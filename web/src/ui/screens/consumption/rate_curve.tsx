/** One rate over the way: its line between the two of its ±. */
import type { JSX } from "preact";
import type { ClassThen } from "@/services/past";
import { figure, km, twoSided } from "@/ui/text/figures";
import { words } from "@/ui/text/past";
import "./rate_curve.css";

interface Props {
  readonly name: string;
  readonly points: ClassThen["points"];
}

const [WIDTH, HEIGHT, LEFT, RIGHT, TOP, BOTTOM] = [340, 150, 38, 8, 12, 24];

export function RateCurve({ name, points }: Props): JSX.Element {
  const bounds = points.flatMap(({ l_per_100km, u }) => [
    l_per_100km - twoSided(u),
    l_per_100km + twoSided(u),
  ]);
  const [low, high] = [Math.max(Math.floor(Math.min(...bounds)), 0), Math.ceil(Math.max(...bounds))];
  const [first, last] = [points[0]!, points.at(-1)!];
  const way = last.at_km - first.at_km || 1;
  const x = (at: number) => LEFT + ((at - first.at_km) / way) * (WIDTH - LEFT - RIGHT);
  const y = (rate: number) => HEIGHT - BOTTOM - ((rate - low) / (high - low || 1)) * (HEIGHT - TOP - BOTTOM);
  const line = (of: (point: ClassThen["points"][number]) => number) =>
    points.map((one) => `${x(one.at_km).toFixed(1)},${y(of(one)).toFixed(1)}`).join(" ");
  const rates = points.map((one) => one.l_per_100km);
  const shown = (rate: number) => figure(rate, 1);
  const told = words.ranges(
    shown(Math.min(...rates)),
    shown(Math.max(...rates)),
    shown(last.l_per_100km),
    shown(twoSided(last.u)),
  );
  return (
    <figure class="rate-curve">
      <figcaption>
        <strong>{name}</strong>, {told}
      </figcaption>
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={`${name}, ${told}`}>
        {[low, (low + high) / 2, high].map((rate) => (
          <g key={rate}>
            <line class="rate-rule" x1={LEFT} x2={WIDTH - RIGHT} y1={y(rate)} y2={y(rate)} />
            <text x={LEFT - 5} y={y(rate) + 4} text-anchor="end">
              {figure(rate, rate % 1 === 0 ? 0 : 1)}
            </text>
          </g>
        ))}
        <polyline class="rate-reach" points={line((one) => one.l_per_100km + twoSided(one.u))} />
        <polyline class="rate-reach" points={line((one) => one.l_per_100km - twoSided(one.u))} />
        <polyline class="rate-line" points={line((one) => one.l_per_100km)} />
        <text x={LEFT} y={HEIGHT - 6}>
          {words.from(km(first.at_km))}
        </text>
        <text x={WIDTH - RIGHT} y={HEIGHT - 6} text-anchor="end">
          {km(last.at_km)}
        </text>
      </svg>
    </figure>
  );
}
