import type { JSX } from "preact";
import { useGiven } from "@/ui/context";
import { statusWords } from "@/ui/text/status";
import { Link } from "./link";

/** Where the entries are: read out when it changes, and a way to what can be done about it. */
export function StatusLine(): JSX.Element {
  const { app, device } = useGiven();
  const line = app.user.value?.status.line.value;
  const to = line?.kind === "sign_in" ? "/sign-in" : "/device";
  // nothing is said while the device is being read, and a link without words is no link
  const words = line ? statusWords(line, device, new Date(app.environment.nowMs())) : "";
  return (
    <div role="status" class="frame-status">
      {words ? <Link to={to}>{words}</Link> : null}
    </div>
  );
}
