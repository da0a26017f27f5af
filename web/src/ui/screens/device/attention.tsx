/** What the server refused, each with its reason. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { type Refused, refusedEntries } from "@/services/attention";
import { useUser } from "@/ui/context";
import { Confirm } from "@/ui/parts/confirm";
import { Row } from "@/ui/parts/row";
import { Section } from "@/ui/parts/section";
import { useWatched } from "@/ui/parts/watch";
import { words } from "@/ui/text/device";

export function Attention(): JSX.Element | null {
  const list = useWatched((user) => user.watch(refusedEntries), []);
  if (!list || list.length === 0) return null;
  return (
    <Section title={words.attention}>
      <p>{words.attentionWhy}</p>
      {list.map((one) => (
        <RefusedEntry key={one.mut} refused={one} />
      ))}
    </Section>
  );
}

function RefusedEntry({ refused }: { readonly refused: Refused }): JSX.Element {
  const { records } = useUser();
  const [asking, setAsking] = useState(false);
  const name = typeof refused.mutation.body.name === "string" ? ` ${refused.mutation.body.name}` : "";
  return (
    <div>
      <Row label={refused.mutation.kind + name} note={reasonOf(refused)} onTouch={() => setAsking(!asking)} />
      {asking ? (
        <Confirm
          question={words.sure}
          yes={words.giveUpYes}
          no={words.giveUpNo}
          onYes={() => records.giveUp(refused.mut)}
          onNo={() => setAsking(false)}
        />
      ) : null}
    </div>
  );
}

function reasonOf({ error, because_of }: Refused): string {
  if (error.code === "gone") return words.gone;
  const fields = Object.entries(error.fields).map(([name, list]) => `${name}: ${list.join(" ")}`);
  const said = [error.message, ...fields].join(" ");
  return because_of === null ? said : `${words.becauseOf} ${said}`;
}
