/** What is the matter with entries of the log, each with the answers that a person may give. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import type { Row as Entry } from "@/services/answers";
import type { Finding } from "@/services/consumption";
import { entryOf, findingWords, words } from "@/ui/text/findings";
import { Action } from "./action";
import { type BookView, type Services, useServices } from "./live";
import { Notice } from "./notice";
import { Row } from "./row";

interface Props {
  readonly view: BookView;
  readonly findings: readonly Finding[];
}

/** As many as a person reads at a time. */
const AT_ONCE = 20;

export function Findings({ view, findings }: Props): JSX.Element {
  const services = useServices();
  const [most, setMost] = useState(AT_ONCE);
  const further = findings.length - most;
  return (
    <>
      {findings.slice(0, most).map((finding) => (
        <div key={finding.entry_id + finding.code}>
          <Notice tone="warn">{findingWords(finding, view)}</Notice>
          <div class="confirm" role="group" aria-label={words.answers}>
            {choicesOf(view, finding, services).map(([label, answer]) => (
              <Action key={label} label={label} kind="plain" onTouch={answer} />
            ))}
          </div>
        </div>
      ))}
      {further > 0 ? <Row label={words.further(further)} onTouch={() => setMost(most + AT_ONCE)} /> : null}
    </>
  );
}

/** What is asked of the entry just saved comes at once, all else after the form. */
export function apart(findings: readonly Finding[], id: string | null) {
  const of = (own: boolean) => findings.filter((one) => (one.entry_id === id) === own);
  return [of(true), of(false)] as const;
}

type Choices = [label: string, answer: () => unknown][];

/** The answers to one finding: what was typed is right, or is corrected, or the two are one, or one is missing. */
function choicesOf(view: BookView, finding: Finding, { records, go }: Services): Choices {
  const { entry_id, code, missing_l } = finding;
  const entry = entryOf(view.book, entry_id);
  if (!entry) return [];
  const say = (body: Entry["body"]) => records.log(view.id, "correction", { of_id: entry_id, ...body });
  const same = { what: "same_as", other_id: finding.value };
  const to = (task: string) => () => go(`/b/${view.id}/${task}/${entry_id}`);
  const correct: Choices[number] = [words.correct, to("correct")];
  const keep = (label: string, beside: Entry["body"] = {}): Choices[number] => [
    label,
    () => say({ what: "kept", ...beside }),
  ];
  if (code === "alike") return [[words.one, () => say(same)], keep(words.two, { other_id: finding.value })];
  if (code === "twice_full")
    return [[words.one, () => say({ what: "struck_out", reason: words.one })], keep(words.two), correct];
  if (code.startsWith("uses_")) {
    const { at, odometer_km = null } = entry.body;
    if (isOfWater(view, entry)) {
      const since = (what: string) => () => records.log(view.id, "event", { at, what, rate_u: 0 });
      return [[words.hotter, since("heat")], [words.washing, since("washing")], keep(words.notChanged)];
    }
    const change = { at, odometer_km, what: "other" };
    const changed = () => records.log(view.id, "event", change);
    return entry.kind === "fill" || entry.kind === "dip"
      ? [[words.surface, to("correct")], [words.changed, changed], keep(words.notChanged)]
      : [keep(words.notChanged)];
  }
  if (finding.standing === "refused")
    return [correct, [words.strike, () => say({ what: "struck_out", reason: words.mistyped })]];
  if (entry.kind !== "fill" || missing_l === null) return [correct, keep(words.asTyped)];
  const missing = { ...entry.body, corrects: entry_id, missed_before: true };
  return [
    correct,
    [words.addMissing, to("before")],
    [words.oneMissing, () => records.log(view.id, "fill", missing)],
    keep(words.asTyped),
  ];
}

function isOfWater({ book }: BookView, { kind, body }: Entry): boolean {
  return (
    kind === "water" || book.tanks.some(({ id, body: tank }) => id === body.tank_id && tank.holds === "water")
  );
}
