/** The helper beside the page: rounds and answers of the newest question alone. */
import { describe, expect, it } from "vitest";
import { type Advice, advise, type Problem } from "@/domain/advice";
import { createSolver, type Helper } from "@/services/solver";

const box = (id: string, kg: number) => ({
  id,
  mass_kg: kg,
  options: [
    { id: "here", loads_kg: [kg], variances_kg2: [0] },
    { id: "off", loads_kg: [0], variances_kg2: [0], off_kg: kg },
  ],
});
const problem = (limit_kg: number): Problem => ({
  limits: [{ id: "rear", limit_kg, fixed_kg: 950 }],
  items: [box("a", 50), box("b", 20)],
  confidence: 0.5,
});

/** A helper in the hands of the test: it answers when told. */
class Hand implements Helper {
  onmessage: Helper["onmessage"] = null;
  onerror: Helper["onerror"] = null;
  asked: Problem | null = null;
  ended = false;
  postMessage = (asked: Problem) => {
    this.asked = asked;
  };
  terminate = () => {
    this.ended = true;
  };
  answer(): Advice {
    const rounds: number[] = [];
    const advice = advise(this.asked!, (round) => rounds.push(round));
    for (const round of rounds) this.onmessage?.({ data: { round } });
    this.onmessage?.({ data: { advice } });
    return advice;
  }
}

function hands() {
  const made: Hand[] = [];
  const make = () => {
    made.push(new Hand());
    return made.at(-1)!;
  };
  return { made, solver: createSolver(make) };
}

describe("the solver", () => {
  it("tells its rounds and resolves with the answer", async () => {
    const { made, solver } = hands();
    const rounds: number[] = [];
    const asked = solver(problem(1000), (round) => rounds.push(round));
    made[0]!.answer();
    expect((await asked).picks).toEqual([0, 1]);
    expect(rounds).toEqual([0, 1]);
  });

  it("keeps its helper for the next question", async () => {
    const { made, solver } = hands();
    const first = solver(problem(1000), () => {});
    made[0]!.answer();
    await first;
    const second = solver(problem(990), () => {});
    made[0]!.answer();
    expect((await second).picks).toEqual([1, 0]);
    expect(made).toHaveLength(1);
    expect(made[0]!.ended).toBe(false);
  });

  it("leaves an old question that is still being looked at", async () => {
    const { made, solver } = hands();
    let settled = false;
    void solver(problem(1000), () => {}).finally(() => {
      settled = true;
    });
    const newest = solver(problem(960), () => {});
    expect(made.map((one) => one.ended)).toEqual([true, false]);
    made[1]!.answer();
    expect((await newest).picks).toEqual([1, 1]);
    expect(settled).toBe(false);
  });

  it("rejects with what was refused, and works again", async () => {
    const { made, solver } = hands();
    const bad = solver(problem(1000), () => {});
    made[0]!.onmessage?.({ data: { refused: "limit_kg is 0" } });
    await expect(bad).rejects.toThrow("limit_kg is 0");
    const good = solver(problem(1020), () => {});
    made[0]!.answer();
    expect((await good).word).toBe("within");
  });
});
