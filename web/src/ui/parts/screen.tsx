/** The page: where one is, the way back, the truthful status line, and what the screen is about. */
import type { ComponentChildren, JSX } from "preact";
import { useEffect } from "preact/hooks";
import { words } from "@/ui/text/forms";
import { Link } from "./link";
import { StatusLine } from "./status";

export interface ScreenProps {
  readonly title: string;
  readonly back?: string;
  readonly aside?: string;
  readonly narrow?: boolean;
  readonly children: ComponentChildren;
}

export function Screen({ title, back, aside, narrow, children }: ScreenProps): JSX.Element {
  useEffect(() => {
    document.title = `${title} · Tareway`;
  }, [title]);
  return (
    <div class="screen">
      <header class="screen-head">
        <div class="screen-title">
          {back ? (
            <Link to={back} class="screen-back" label={words.back}>
              ←
            </Link>
          ) : null}
          <h1 tabIndex={-1}>{title}</h1>
        </div>
        <div class="screen-aside">
          {aside ? <div>{aside}</div> : null}
          <StatusLine />
        </div>
      </header>
      <main class={narrow ? "screen-body narrow" : "screen-body"}>{children}</main>
    </div>
  );
}
