/** An edit onto a body, and back: the edit that leads from one body to another. */
import type { Body } from "./mutation";

type TypedFigures = Readonly<Record<string, readonly [string, string]>>;

/**
 * The body after an edit: its fields replace those of the base, `as_typed` is merged name by name, and a changed
 * figure without its own `as_typed` loses the old one.
 */
export function mergeEdit(base: Body, edit: Body): Body {
  const { as_typed: baseTyped, ...fields } = base;
  const { as_typed: editTyped, ...changes } = edit;
  const kept = Object.entries(typed(baseTyped)).filter(
    ([name]) => !(name in changes) || same(changes[name], fields[name]),
  );
  const figures = { ...Object.fromEntries(kept), ...typed(editTyped) };
  const body = { ...fields, ...changes };
  return Object.keys(figures).length > 0 ? { ...body, as_typed: figures } : body;
}

/** The least edit that turns one body into another that was made from it by edits. */
export function changeBetween(base: Body, body: Body): Body {
  const { as_typed: was, ...before } = base;
  const { as_typed: is, ...after } = body;
  const fields = Object.entries(after).filter(([name, value]) => !same(value, before[name]));
  const change = Object.fromEntries(fields);
  const figures = Object.entries(typed(is)).filter(
    ([name, pair]) => name in change || !same(pair, typed(was)[name]),
  );
  return figures.length > 0 ? { ...change, as_typed: Object.fromEntries(figures) } : change;
}

/** Equal as JSON values; the order of names does not matter. */
export function same(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return false;
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const [left, right] = [Object.entries(a), b as Record<string, unknown>];
  return (
    left.length === Object.keys(right).length &&
    left.every(([name, value]) => name in right && same(value, right[name]))
  );
}

function typed(value: unknown): TypedFigures {
  return (value ?? {}) as TypedFigures;
}
