/** Where the figures under the supports stand, and how far each support can be touched: nothing ever overlaps. */

export interface Label {
  readonly x: number;
  readonly width: number;
}

export interface Placed {
  /** Middle of the figure. */
  readonly x: number;
  /** 0 directly under the support, each further one a line below. */
  readonly row: number;
}

/** More than a space, so that two figures never read as one. */
const GAP = 18;
/** How far inside its figure a support stays. */
const INSET = 16;
/** What a line from a support down to its figure keeps clear of. */
const CLEAR = 5;
const ROW_COST = 60;

interface Try extends Placed {
  readonly width: number;
  readonly mark: number;
}

/** Figures as high and as near to their supports as can be; `labels` come from left to right. */
export function placeLabels(labels: readonly Label[], width: number): Placed[] {
  const best = search(labels, width, [], 0, { cost: Number.POSITIVE_INFINITY, found: null });
  return best.found ?? labels.map((label, row) => ({ x: inside(label.x, label.width, width), row }));
}

interface Best {
  readonly cost: number;
  readonly found: readonly Placed[] | null;
}

function search(
  labels: readonly Label[],
  width: number,
  placed: readonly Try[],
  cost: number,
  best: Best,
): Best & { found: Placed[] | null } {
  if (cost >= best.cost) return best as Best & { found: Placed[] | null };
  const label = labels[placed.length];
  if (!label) return { cost, found: placed.map(({ x, row }) => ({ x, row })) };
  let kept = best;
  for (let row = 0; row < labels.length; row += 1)
    for (const x of spots(labels, placed.length, width)) {
      const next = { x, row, width: label.width, mark: label.x };
      if (!fits(next, placed)) continue;
      kept = search(labels, width, [...placed, next], cost + row * ROW_COST + Math.abs(x - label.x), kept);
    }
  return kept as Best & { found: Placed[] | null };
}

/** Under the support, or pushed aside until it clears its neighbours' lines or figures. */
function spots(labels: readonly Label[], index: number, width: number): number[] {
  const { x, width: own } = labels[index]!;
  const before = labels[index - 1];
  const after = labels[index + 1];
  const inset = Math.min(INSET, own / 4);
  const wanted = [x, x - own / 2 + inset, x + own / 2 - inset];
  if (after) wanted.push(after.x - CLEAR - own / 2, after.x - after.width / 2 - GAP - own / 2);
  if (before) wanted.push(before.x + CLEAR + own / 2, before.x + before.width / 2 + GAP + own / 2);
  return [...new Set(wanted.map((one) => inside(one, own, width)))].filter(
    (one) => Math.abs(one - x) <= own / 2 - Math.min(INSET, own / 4) + 0.001,
  );
}

function fits(next: Try, placed: readonly Try[]): boolean {
  return placed.every((one) => {
    const apart = Math.abs(one.x - next.x) >= (one.width + next.width) / 2 + GAP;
    if (one.row === next.row) return apart;
    const [high, low] = one.row < next.row ? [one, next] : [next, one];
    return Math.abs(low.mark - high.x) >= high.width / 2 + CLEAR - 0.001;
  });
}

function inside(x: number, own: number, width: number): number {
  return Math.min(Math.max(x, own / 2), width - own / 2);
}

export interface Span {
  readonly from: number;
  readonly to: number;
}

/** How far each support can be touched: up to its neighbours' middle, and never less than `least` where there is room. */
export function touchSpans(xs: readonly number[], width: number, reach = 48, least = 50): Span[] {
  const middles = xs.slice(1).map((x, k) => (x + xs[k]!) / 2);
  return xs.map((x, k) => {
    const low = k === 0 ? 0 : middles[k - 1]!;
    const high = k === xs.length - 1 ? width : middles[k]!;
    const from = Math.max(low, Math.min(x - reach, high - least));
    return { from, to: Math.min(high, Math.max(x + reach, from + least)) };
  });
}
