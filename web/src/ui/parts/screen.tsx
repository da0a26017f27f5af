/** The page: where one is, the way back, the truthful status line, and what the screen is about. */
import type { ComponentChildren, JSX } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { useGiven } from "@/ui/context";
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
  const heading = useRef<HTMLHeadingElement>(null);
  const arrived = useGiven().router.shown.value?.arrived === true;
  useEffect(() => {
    document.title = `${title} · Tareway`;
  }, [title]);
  useEffect(() => {
    // a new page is read out by its title, unless a field has asked for the focus
    if (arrived && document.activeElement?.tagName !== "INPUT") heading.current?.focus();
  }, []);
  return (
    <div class="screen">
      <header class="screen-head">
        <div class="screen-title">
          {back ? (
            <Link to={back} class="screen-back" label={words.back}>
              ←
            </Link>
          ) : null}
          <h1 tabIndex={-1} ref={heading}>
            {title}
          </h1>
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
