/** Noticing that consumption has changed: a second bank that does not follow the change away (Page 1954). */
import { type Bank, bankAdvance, bankInnovation, bankPrior } from "./bank";
import { type DomainEvent, isObservation } from "./events";
import type { Model } from "./filter";

/** Drift of the reference bank; its classes do not drift alone (assumed). */
export const REFERENCE_WALK = 0.01;
/** The first readings only tell the rate. */
export const SKIP = 3;
/** Of the sums, and of one reading alone. */
export const SLACK = 0.5;
export const ALARM = 5;
export const SINGLE = 3.5;

/** The reference bank, readings seen, and the two sums (more used, less used). */
export interface Notice {
  readonly bank: Bank;
  readonly seen: number;
  readonly more: number;
  readonly less: number;
  readonly alarm: "more" | "less" | null;
  readonly z: number | null;
}

export interface NoticePrior {
  readonly model: Model;
  readonly kappas: readonly number[];
}

/** The reference bank before the first entry: as the main one, but hardly drifting. */
export function noticePrior({ model, kappas }: NoticePrior): Notice {
  const settings = { ...model.settings, walk: REFERENCE_WALK, walk_class: 0 };
  const bank = bankPrior({ model: { ...model, settings }, kappas });
  return { bank, seen: 0, more: 0, less: 0, alarm: null, z: null };
}

export interface NoticeAdvance {
  readonly notice: Notice;
  readonly event: DomainEvent;
}

/** The reference bank after one event; `alarm` is for this event alone; negative z means more was used than expected. */
export function noticeAdvance({ notice, event }: NoticeAdvance): Notice {
  const bank = bankAdvance({ bank: notice.bank, event });
  if (!isObservation(event)) return { ...notice, bank, alarm: null, z: null };
  const { z } = bankInnovation({ bank: notice.bank, event });
  const seen = notice.seen + 1;
  if (seen <= SKIP) return { ...notice, bank, seen, alarm: null, z };
  const more = Math.max(0, notice.more - z - SLACK);
  const less = Math.max(0, notice.less + z - SLACK);
  const alarm = alarmOf(more, less, z);
  return alarm ? { bank, seen, more: 0, less: 0, alarm, z } : { bank, seen, more, less, alarm, z };
}

function alarmOf(more: number, less: number, z: number): "more" | "less" | null {
  if (more > ALARM || z < -SINGLE) return "more";
  return less > ALARM || z > SINGLE ? "less" : null;
}
