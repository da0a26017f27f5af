import type { ComponentChildren, JSX } from "preact";
import { useGiven } from "@/ui/context";

export interface LinkProps {
  readonly to: string;
  readonly class?: string;
  /** Read out instead of what is drawn. */
  readonly label?: string;
  readonly children: ComponentChildren;
}

/** A real link, so that a long press, a middle click and a new tab work as anywhere. */
export function Link({ to, label, children, ...rest }: LinkProps): JSX.Element {
  const { router } = useGiven();
  const follow = (event: MouseEvent) => {
    if (event.button !== 0 || event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return;
    event.preventDefault();
    router.go(to);
  };
  return (
    <a href={to} onClick={follow} {...(label ? { "aria-label": label } : {})} {...rest}>
      {children}
    </a>
  );
}
