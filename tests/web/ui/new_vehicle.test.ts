import { describe, expect, it } from "vitest";
import { emptyForm, type Rating, readVehicle } from "@/ui/screens/new_vehicle/form";

function form(name: string, ratings: Partial<Record<Rating, string>> = {}) {
  const blank = emptyForm("id");
  const typed = Object.entries(ratings).map(([rating, text]) => [rating, { text, unit: "kg" }]);
  return { ...blank, name, ratings: { ...blank.ratings, ...Object.fromEntries(typed) } };
}

describe("a new vehicle", () => {
  it("needs a name and nothing else", () => {
    expect(readVehicle(form(" Wren "))).toMatchObject({
      vehicle: { name: "Wren" },
      plate: null,
      doubt: null,
    });
    expect(readVehicle(form("  ")).vehicle).toBeNull();
    expect(readVehicle(form("  ")).errors.name).toMatch(/name/);
  });

  it("keeps a rating as typed, and leaves a blank one unknown", () => {
    expect(readVehicle(form("Wren", { gross_kg: "3.5 t" })).plate).toEqual({
      kind: "plate",
      body: {
        of: "vehicle",
        standing: "in_force",
        gross_kg: 3500,
        as_typed: { gross_kg: ["3.5", "t"] },
      },
    });
  });

  it("says what is wrong at its field, and asks about what could be two", () => {
    const { errors, vehicle } = readVehicle(form("Wren", { gross_kg: "3,500", rear_axle_kg: "x" }));
    expect(vehicle).toBeNull();
    expect(errors.ratings.rear_axle_kg).toMatch(/^Rear axle/);
    expect(errors.asks.gross_kg?.map((one) => one.label)).toEqual(["3.500 kg", "3500 kg"]);
  });

  it("doubts a gross rating above both axles together", () => {
    const ratings = { gross_kg: "3500", front_axle_kg: "1480", rear_axle_kg: "1800" };
    expect(readVehicle(form("Wren", ratings)).doubt).toMatch(/3.280/);
    expect(readVehicle(form("Wren", { ...ratings, rear_axle_kg: "2100" })).doubt).toBeNull();
  });
});
