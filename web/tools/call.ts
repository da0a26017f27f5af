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

/** The modules of the domain, by file name. */
export type Modules = (name: string) => Module | undefined;

/** The function's result; each step of `then` calls a method of what came back. */
export function call(modules: Modules, asked: Call): unknown {
  const module = modules(asked.module);
  const found = apply(
    modules,
    module?.[camel(asked.function)],
    asked,
    POSITIONAL.includes(asked.module),
    module,
  );
  return (asked.then ?? []).reduce<unknown>((made, step) => {
    const method = (made as Module)[camel(String(step.call))];
    return apply(modules, method, step as Arguments, false, made);
  }, found);
}

type Arguments = Pick<Call, "in" | "args">;

function apply(
  modules: Modules,
  fn: unknown,
  { in: input, args }: Arguments,
  positional: boolean,
  self: unknown,
) {
  if (typeof fn !== "function") throw new TypeError("no such function");
  if (args) return (fn as Fn).apply(self, [...args]);
  const made = Object.fromEntries(
    Object.entries(input ?? {}).map(([name, one]) => [name, resolve(modules, one)]),
  );
  return positional ? (fn as Fn)(...Object.values(made)) : (fn as Fn).call(self, made);
}

/** {"$call": case} stands for what that call gives. */
function resolve(modules: Modules, value: unknown): unknown {
  const asked = value !== null && typeof value === "object" ? (value as { $call?: Call }).$call : undefined;
  return asked ? call(modules, asked) : value;
}

function camel(name: string): string {
  return name.replace(/_(\w)/g, (_, letter: string) => letter.toUpperCase());
}
