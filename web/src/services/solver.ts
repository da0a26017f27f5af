/** Asks for load advice beside the page, which stays live: the newest question is the one that is answered. */
import type { Advice, Problem, Told } from "../domain/advice";

/** Resolves with the answer, or never where a newer question came in between. */
export type Solver = (problem: Problem, told: Told) => Promise<Advice>;

/** What of a worker is used. */
export interface Helper {
  onmessage: ((event: { readonly data: Said }) => void) | null;
  onerror: ((event: unknown) => void) | null;
  readonly postMessage: (problem: Problem) => void;
  readonly terminate: () => void;
}

/** What the helper says: a round that begins, the answer, or why there is none. */
export type Said = { readonly round: number } | { readonly advice: Advice } | { readonly refused: string };

export function createSolver(make: () => Helper): Solver {
  let helper: Helper | null = null;
  let busy = false;
  return (problem, told) =>
    new Promise((resolve, reject) => {
      if (busy) {
        helper?.terminate();
        helper = null;
      }
      busy = true;
      helper ??= make();
      const settle = (then: () => void) => {
        busy = false;
        then();
      };
      helper.onmessage = ({ data }) => {
        if ("round" in data) told(data.round);
        else if ("advice" in data) settle(() => resolve(data.advice));
        else settle(() => reject(new Error(data.refused)));
      };
      helper.onerror = () => settle(() => reject(new Error("The helper stopped.")));
      helper.postMessage(problem);
    });
}
