/** The helper beside the page: it gets a problem of load advice and says its rounds and its answer. */
import { advise, type Problem } from "./domain/advice";
import type { Said } from "./services/solver";

const say = (said: Said) => postMessage(said);

addEventListener("message", ({ data }: MessageEvent<Problem>) => {
  try {
    say({ advice: advise(data, (round) => say({ round })) });
  } catch (error) {
    say({ refused: error instanceof Error ? error.message : String(error) });
  }
});
