/** When other phones were last heard: what they have logged since is in no figure here. */
import type { JSX } from "preact";
import { momentOf } from "@/ui/text/figures";
import { words } from "@/ui/text/fuel";
import { type BookView, useServices } from "./live";
import { Row } from "./row";
import { Section } from "./section";

export function Heard({ view }: { readonly view: BookView }): JSX.Element | null {
  const { clock } = useServices();
  if (view.heard.length === 0) return null;
  return (
    <Section title={words.heard}>
      {view.heard.map(({ name, at }) => (
        <Row key={name} label={name} note={words.heardAt(momentOf(at, clock.zone()))} />
      ))}
      <p class="hint">{words.notHeard}</p>
    </Section>
  );
}
