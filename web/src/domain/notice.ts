/** Noticing that consumption has changed: a second bank that does not follow the change away (Page 1954). */
import { type Bank, bankPrior } from "./bank";
import { type DomainEvent, isObservation } from "./events";
import type { Model } from "./filter";
import { innovationMixed } from "./mixed";
import { bankOf, type Stack, stackAdvance, stackOf } from "./stack";

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
  const watch = watchOf(notice);
  noticeOn(watch, event);
  return noticeOf(watch);
}

/** `Notice` as a log is run: the bank as a stack, changed in place. */
export interface Watch {
  readonly stack: Stack;
  seen: number;
  more: number;
  less: number;
  alarm: Notice["alarm"];
  z: number | null;
}

/** A notice to be run on; the given one stays as it is. */
export function watchOf({ bank, ...rest }: Notice): Watch {
  return { stack: stackOf(bank), ...rest };
}

/** Where a watch stands now. */
export function noticeOf({ stack, ...rest }: Watch): Notice {
  return { bank: bankOf(stack), ...rest };
}

/** The watch after one event; its alarm, if it gives one. */
export function noticeOn(watch: Watch, event: DomainEvent): Notice["alarm"] {
  watch.alarm = null;
  watch.z = isObservation(event) ? innovationMixed(watch.stack, event).z : null;
  stackAdvance(watch.stack, event);
  if (watch.z === null) return null;
  watch.seen += 1;
  if (watch.seen <= SKIP) return null;
  watch.more = Math.max(0, watch.more - watch.z - SLACK);
  watch.less = Math.max(0, watch.less + watch.z - SLACK);
  watch.alarm = alarmOf(watch.more, watch.less, watch.z);
  if (watch.alarm) {
    watch.more = 0;
    watch.less = 0;
  }
  return watch.alarm;
}

function alarmOf(more: number, less: number, z: number): "more" | "less" | null {
  if (more > ALARM || z < -SINGLE) return "more";
  return less > ALARM || z > SINGLE ? "less" : null;
}
