/** What the reading of the fuel or water log takes for granted: each figure, whose it is, and the way to say it. */
import type { JSX } from "preact";
import { type LogDefault, logDefaultsOf } from "@/services/assumed";
import { type BookView, useBook, useServices } from "@/ui/parts/live";
import { Row } from "@/ui/parts/row";
import { Screen } from "@/ui/parts/screen";
import { Section } from "@/ui/parts/section";
import { words } from "@/ui/text/defaults";

interface Asked {
  readonly book: string;
  readonly holds: string;
}

export default function DefaultsScreen({ book, holds }: Asked): JSX.Element | null {
  const view = useBook(book);
  return view ? <Defaults view={view} holds={holds === "water" ? "water" : "fuel"} /> : null;
}

const GROUPS = ["guess", "reading", "asked"] as const;

interface Props {
  readonly view: BookView;
  readonly holds: "fuel" | "water";
}

function Defaults({ view, holds }: Props): JSX.Element {
  const { clock } = useServices();
  const list = logDefaultsOf(view.book, holds, clock.now());
  return (
    <Screen title={words.title} back={`/b/${view.id}/${holds}`} aside={view.name}>
      <p class="hint">{view.role === "co_driver" ? words.ownersChange : words.hint}</p>
      <div class="columns">
        {GROUPS.map((group) => (
          <Section key={group} title={words.groups[group]}>
            {list
              .filter((one) => one.group === group)
              .map((one) => (
                <Line key={one.code + (one.record_id ?? "")} {...{ view, holds, one }} />
              ))}
          </Section>
        ))}
      </div>
    </Screen>
  );
}

function Line({ view, holds, one }: Props & { readonly one: LogDefault }): JSX.Element {
  const { record_id, kind, field } = one;
  const tank = kind === "tank" ? view.book.tanks.find(({ id }) => id === record_id)?.body.name : null;
  const { label, figure, note } = words.say(one.code, one.value);
  const whose = one.own ? words.own : words.assumed;
  const to =
    field && view.role !== "co_driver"
      ? `/b/${view.id}/defaults/${holds}/${kind}/${record_id}/${field}`
      : null;
  return (
    <Row
      label={tank ? `${tank}: ${label}` : label}
      figure={figure}
      note={[whose, ...(note ? [note] : [])].join("; ")}
      {...(to ? { to } : {})}
    />
  );
}
