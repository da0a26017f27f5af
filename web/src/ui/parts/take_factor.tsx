/** A new factor of the odometer, put into the vehicle: from now on, with an entry of the log, or for the whole of it. */
import type { JSX } from "preact";
import { words } from "@/ui/text/odometer";
import { Action } from "./action";
import { type BookView, useServices } from "./live";

interface Props {
  readonly view: BookView;
  readonly factor: number;
  readonly factor_u: number;
  /** What was changed, where it counts from now on. */
  readonly what: "tyres" | "other";
  readonly done?: () => unknown;
}

export function TakeFactor({ view, factor, factor_u, what, done }: Props): JSX.Element {
  const { records, clock } = useServices();
  const has: number | null = view.book.vehicle?.body.odometer_factor ?? null;
  if (view.role === "co_driver") return <p class="hint">{words.ownersOnly}</p>;
  const [factor_after, u] = [Number(factor.toFixed(4)), Number(factor_u.toFixed(4))];
  const change = { odometer_factor: factor_after, odometer_factor_u: u };
  const put = async () => {
    await records.edit(view.id, "vehicle", view.id, change);
    await done?.();
  };
  const fromNow = async () => {
    const event = { at: clock.now(), zone: clock.zone(), what, factor_before: has ?? 1, factor_after };
    const edits = { id: view.id, rev: view.book.vehicle!.rev };
    await records.takeIn(view.id, [
      { kind: "event", body: event },
      { kind: "vehicle", body: change, edits },
    ]);
    await done?.();
  };
  return (
    <div class="confirm">
      <p class="hint">{words.has(has)}</p>
      {view.role === "fitter" ? null : <Action kind="plain" label={words.fromNow} onTouch={fromNow} />}
      <Action kind="plain" label={words.allAlong} onTouch={put} />
    </div>
  );
}
