import type { ComponentChildren, JSX } from "preact";

export interface SectionProps {
  readonly title: string;
  readonly aside?: ComponentChildren;
  readonly children: ComponentChildren;
}

/** A heading and what belongs to it. */
export function Section({ title, aside, children }: SectionProps): JSX.Element {
  return (
    <section class="section">
      <div class="section-head">
        <h2>{title}</h2>
        {aside}
      </div>
      {children}
    </section>
  );
}
