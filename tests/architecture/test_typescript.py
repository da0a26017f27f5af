"""The scanner that the rules for TypeScript rest on."""

import pytest
from architecture.typescript import blank, exported, functions, imports

IMPORTS = """
import { a } from "./a";
import type { B } from "@/b";
import { type C, type D } from './c';
import { type E, f } from "./e";
import "./style.css";
export { g } from "./g";
export * from "./h";
// import { no } from "./comment";
export const word = "from";
const url = import.meta.url + "./not";
const lazy = () => import("./lazy");
import {
  long,
} from "long-package/part";
"""


def test_imports_of_every_form() -> None:
    assert [(one.path, one.line, one.types_only) for one in imports(IMPORTS)] == [
        ("./a", 2, False),
        ("@/b", 3, True),
        ("./c", 4, True),
        ("./e", 5, False),
        ("./style.css", 6, False),
        ("./g", 7, False),
        ("./h", 8, False),
        ("long-package/part", 13, False),
        ("./lazy", 12, False),
    ]


@pytest.mark.parametrize(
    ("source", "wanted"),
    [
        ("a // {b}\nc", "a       \nc"),
        ("a /* { \n } */ c", "a      \n      c"),
        ("'{' + \"}\"", "' ' + \" \""),
        (r"'\'{' + a", "'   ' + a"),
        ("`{${ f({a: `}`}) }}`", "` ${ f({a: ` `}) } `"),
        ("x = /[/{]\\}/g;", "x = /      /g;"),
        ("a / b / {c}", "a / b / {c}"),
        ("<p>Don't {stop}\n</p>", "<p>Don't {stop}\n</p>"),
        ("const u = 'http://x';", "const u = '        ';"),
    ],
)
def test_words_and_comments_are_blanked(source: str, wanted: str) -> None:
    assert blank(source) == wanted


@pytest.mark.parametrize(
    ("source", "lines"),
    [
        ("function f() {\n  a;\n  b;\n}", [2]),
        ("function f(o: { a: number }): { b: number } {\n  a;\n}", [1]),
        ("export async function f<T>(a: T): Promise<{ b: T }> {\n  a;\n}", [1]),
        ("class A {\n  m(): void {\n    a;\n    b;\n    c;\n  }\n}", [3]),
        ("const f = () => {\n  a;\n};", [1]),
        ("const f = () => (\n  a\n);", [3]),
        ("list.map((x) =>\n  g(x),\n);", [1]),
        ("list.map((x) =>\n  g(x)\n    .h(),\n);", [2]),
        ("if (a) {\n  b;\n}\nfor (;;) {\n  c;\n}", []),
        ("const x = a ? f(b) : { c: 1 };", []),
        ("const t: Record<A, (b: B) => C> = {\n  a: 1,\n};", []),
        ("const f = (a: A) =>\n  a < 2 && a > 1 ? (\n    <b>\n    </b>\n  ) : g<C>(a);", [4]),
        ('describe("all", () => {\n  it("one", () => {\n    a;\n  });\n});', [1]),
        ('it("one", async () => {\n  a;\n  b;\n});', [2]),
    ],
)
def test_function_bodies_are_counted(source: str, lines: list[int]) -> None:
    assert [one.body_lines for one in functions(source)] == lines


def test_lost_brackets_are_said() -> None:
    with pytest.raises(ValueError, match="line 2"):
        functions("function f() {\n  (a];\n}")


def test_exported_functions() -> None:
    source = (
        "export function a() {}\nfunction b() {}\nexport const c = (x: number) => x;\n"
        "export const d = { e: () => 1 };\nexport async function f() {}\n"
    )
    assert set(exported(source)) == {"a", "c", "f"}
