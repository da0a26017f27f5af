import { describe, expect, it } from "vitest";
import { type Book, openBook } from "@/domain/book";
import { columnsOf, opened, readCell, told } from "@/ui/screens/plan/cells";
import { KINDS } from "@/ui/screens/plan/fields";
import { formOf, readForm } from "@/ui/screens/plan/form";

const body = {
  name: "Crate",
  nature: "load",
  mass_kg: 1200,
  x_m: 1.234,
  as_typed: { mass_kg: ["1.2", "t"], x_m: ["1.234", "m"] },
};
const trailer = { id: "t", kind: "trailer", rev: "1", body: { name: "Wagtail" } };
const book: Book = openBook({ rows: [trailer] });

function column(name: string, kind = "item") {
  return columnsOf(kind, book).find((one) => one.name === name)!;
}

describe("a cell of the plan's table", () => {
  it("shows a figure as it was typed, in its unit", () => {
    expect(told(column("mass_kg"), body, book)).toEqual({ text: "1.2 t", assumed: false });
    expect(opened(column("mass_kg"), body)).toBe("1.2 t");
  });

  it("changes nothing where nothing was typed, and never asks about what is stored", () => {
    expect(readCell(column("x_m"), "1.234", body)).toEqual({ change: null });
    expect(readCell(column("x_m"), { text: "1.234", unit: "m" }, body)).toEqual({ change: null });
  });

  it("asks about a newly typed sole group of three", () => {
    const { trouble } = readCell(column("x_m"), "2.345", body);
    expect(trouble?.message).toMatch(/Did you mean/);
    expect(trouble?.asks.map((one) => one.label)).toEqual(["2.345 m", "2345 m"]);
  });

  it("reads a bare figure in the column's unit, another one with its unit as typed", () => {
    const typed = (text: string) => readCell(column("mass_kg"), text, body);
    expect(typed("25")).toEqual({ change: { mass_kg: 25, as_typed: { mass_kg: ["25", "kg"] } } });
    expect(typed("0,5 t")).toEqual({ change: { mass_kg: 500, as_typed: { mass_kg: ["0.5", "t"] } } });
    expect(typed("")).toEqual({ change: { mass_kg: null } });
  });

  it("says the range of what cannot be", () => {
    expect(readCell(column("x_m"), "45", body).trouble?.message).toMatch(/-3 to 20 m/);
    expect(readCell(column("count"), "2,5", body).trouble?.message).toMatch(/whole number from 1 to 1000/);
  });

  it("shows the u that a mass has by how it is known, until somebody states it", () => {
    const light = { ...body, mass_kg: 30, as_typed: {} };
    const share = (known_by?: string) => told(column("mass_u_kg"), { ...light, known_by }, book);
    expect(["weighed", "data_sheet", "similar", "estimate", undefined].map((one) => share(one).text)).toEqual(
      [...["0.15", "1.5", "3", "4.5", "4.5"]],
    );
    expect(share().assumed).toBe(true);
    const own = { ...light, mass_u_kg: 2, as_typed: { mass_u_kg: ["2", "kg"] } };
    expect(told(column("mass_u_kg"), own, book)).toEqual({ text: "2", assumed: false });
  });

  it("puts an item on the roof or on a trailer, and back", () => {
    const put = (on: string, of = body as object) => readCell(column("on"), on, of as typeof body);
    expect(put("roof")).toEqual({ change: { roof: true } });
    expect(put("t")).toEqual({ change: { trailer_id: "t" } });
    expect(put("t", { ...body, roof: true })).toEqual({ change: { trailer_id: "t", roof: false } });
    expect(put("", { ...body, trailer_id: "t" })).toEqual({ change: { trailer_id: null } });
    expect(put("", body)).toEqual({ change: null });
  });
});

describe("a record's form", () => {
  it("does not ask about the figures that it was opened with", () => {
    const spec = KINDS.item!;
    const { errors, fields } = readForm(spec, formOf(spec, body), body);
    expect(errors).toEqual({});
    expect(fields).toMatchObject({ x_m: 1.234, mass_kg: 1200, as_typed: body.as_typed });
    const typed = { ...formOf(spec, body), x_m: { text: "1.235", unit: "m" } };
    expect(readForm(spec, typed, body).errors.x_m).toMatch(/Did you mean/);
  });
});
