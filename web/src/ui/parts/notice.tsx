import type { ComponentChildren, JSX } from "preact";

export interface NoticeProps {
  readonly tone?: "note" | "warn";
  readonly children: ComponentChildren;
}

/** A sentence that stands out by its rule at the side, not by colour alone. */
export function Notice({ tone = "note", children }: NoticeProps): JSX.Element {
  return (
    <p class={tone === "warn" ? "notice notice-warn" : "notice"} role={tone === "warn" ? "alert" : "note"}>
      {children}
    </p>
  );
}
