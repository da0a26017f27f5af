/** Calls a function of the domain by the name that it has in Python: for vectors and parity. */

export type Module = Readonly<Record<string, unknown>>;
type Fn = (...args: unknown[]) => unknown;

/** Modules whose functions take their arguments in order, in both languages. */
const POSITIONAL: readonly string[] = ["linalg", "normal"];

export interface Call {
  readonly module: string;
  readonly function: string;
  readonly in?: Readonly<Record<string, unknown>>;
  readonly args?: readonly unknown[];
  readonly then?: readonly Readonly<Record<string, unknown>>[];
}

/** The function's result; each step of `then` calls a method of what came back. */
export function call(module: Module | undefined, asked: Call): unknown {
  const positional = POSITIONAL.includes(asked.module);
  const found = apply(module?.[camel(asked.function)], asked, positional, module);
  return (asked.then ?? []).reduce<unknown>((made, step) => {
    const method = (made as Module)[camel(String(step.call))];
    return apply(method, step as Omit<Call, "module" | "function">, false, made);
  }, found);
}

function apply(
  fn: unknown,
  { in: input, args }: Omit<Call, "module" | "function">,
  positional: boolean,
  self: unknown,
) {
  if (typeof fn !== "function") throw new TypeError("no such function");
  if (args) return (fn as Fn).apply(self, [...args]);
  return positional ? (fn as Fn)(...Object.values(input ?? {})) : (fn as Fn).call(self, input);
}

function camel(name: string): string {
  return name.replace(/_(\w)/g, (_, letter: string) => letter.toUpperCase());
}
