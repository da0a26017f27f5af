import type { JSX } from "preact";
import { Action } from "./action";
import { Notice } from "./notice";

export interface ConfirmProps {
  /** What will happen, as a question. */
  readonly question: string;
  readonly yes: string;
  readonly no: string;
  readonly onYes: () => unknown;
  readonly onNo: () => void;
}

/** A question before something that cannot be taken back; it stands where it was asked, not over the page. */
export function Confirm({ question, yes, no, onYes, onNo }: ConfirmProps): JSX.Element {
  return (
    <div class="confirm" role="group" aria-label={question}>
      <Notice tone="warn">{question}</Notice>
      <Action label={no} kind="plain" onTouch={onNo} />
      <Action label={yes} onTouch={onYes} />
    </div>
  );
}
