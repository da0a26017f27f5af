/** A part that is drawn anew only when one of its properties is another: long lists stay still while one row changes. */
import { Component, type ComponentChild, type FunctionComponent, h } from "preact";

export function still<P extends object>(draw: FunctionComponent<P>): FunctionComponent<P> {
  class Still extends Component<P> {
    override shouldComponentUpdate(next: P): boolean {
      const names = Object.keys(next) as (keyof P)[];
      return names.some((name) => next[name] !== this.props[name]);
    }
    override render(props: P): ComponentChild {
      return h(draw as FunctionComponent<object>, props);
    }
  }
  return Still as unknown as FunctionComponent<P>;
}
