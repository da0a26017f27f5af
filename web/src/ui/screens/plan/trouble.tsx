/** Why a cell cannot be kept, and what it might have meant. */
import type { JSX } from "preact";
import type { Trouble } from "./cells";
import type { Acts } from "./typing";

export function CellTrouble({
  trouble,
  act,
}: {
  readonly trouble: Trouble;
  readonly act: Acts;
}): JSX.Element {
  const take = (text: string) => {
    act.change(text);
    act.commit();
  };
  return (
    <div class="field-ask" role="alert">
      <span class="field-error">{trouble.message}</span>
      {trouble.asks.map(({ text, label }) => (
        <button key={text} type="button" onClick={() => take(text)}>
          {label}
        </button>
      ))}
    </div>
  );
}
