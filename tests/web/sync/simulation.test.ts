import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { SyncAnswer, SyncRequest } from "@/sync/mutation";
import { ModelDevice, ModelServer } from "./world";

type Step =
  | { do: "save"; device: number; record: number; log: boolean; value: number }
  | { do: "sync"; device: number; fate: "arrives" | "request lost" | "answer lost" | "late twice" };

const step: fc.Arbitrary<Step> = fc.oneof(
  fc.record({
    do: fc.constant("save" as const),
    device: fc.nat(2),
    record: fc.nat(3),
    log: fc.boolean(),
    value: fc.nat(9),
  }),
  fc.record({
    do: fc.constant("sync" as const),
    device: fc.nat(2),
    fate: fc.constantFrom("arrives", "request lost", "answer lost", "late twice"),
  }),
);

class World {
  readonly server = new ModelServer();
  readonly devices = ["d0", "d1", "d2"].map((name, index) => new ModelDevice(name, index === 2 ? "v" : "u"));
  private readonly late: (() => void)[] = [];
  private entries = 0;

  play(one: Step): void {
    const device = this.devices[one.device] as ModelDevice;
    if (one.do === "save") this.save(device, one);
    else this.sync(device, one.fate);
  }

  private save(device: ModelDevice, { log, record, value }: Extract<Step, { do: "save" }>): void {
    this.entries += 1;
    if (log) device.save("fill", `f${this.entries}`, { litres_l: value });
    else if (device.shown.has(`r${record}`)) device.save("item", `r${record}`, { [`f${value % 3}`]: value });
    else device.save("item", `r${record}`, { name: `${device.name} ${value}` });
  }

  private sync(device: ModelDevice, fate: Extract<Step, { do: "sync" }>["fate"]): void {
    const request = structuredClone(device.request());
    if (fate === "request lost") return;
    const answer = this.send(request, device);
    if (fate === "late twice") this.late.push(() => this.send(request, device));
    if (fate !== "answer lost") device.take(answer);
    device.nextRound();
  }

  private send(request: SyncRequest, device: ModelDevice): SyncAnswer {
    return structuredClone(this.server.answer(request, device.user));
  }

  /** A fair network at last: the late copies arrive, and each device syncs until nothing is left. */
  settle(): number {
    for (const arrive of this.late) arrive();
    let requests = 0;
    for (let round = 0; round < 3; round += 1) {
      for (const device of this.devices) requests += this.syncAll(device);
    }
    return requests;
  }

  private syncAll(device: ModelDevice): number {
    for (let requests = 1; requests < 500; requests += 1) {
      const answer = this.server.answer(device.request(), device.user);
      device.take(answer);
      if (!answer.books[0]?.more && device.request().mutations.length === 0) return requests;
    }
    throw new Error(`${device.name} never ends`);
  }
}

const revs = (device: ModelDevice) => [...device.shown.values()].map((one) => `${one.id} ${one.rev}`).sort();

function played(steps: readonly Step[]): World {
  const world = new World();
  for (const one of steps) world.play(one);
  world.settle();
  return world;
}

describe("devices and a server on bad days", () => {
  const any = fc.array(step, { maxLength: 60 });

  it("end alike: every mutation once at the server, none lost, the same rows everywhere", () => {
    fc.assert(
      fc.property(any, (steps) => {
        const { server, devices } = played(steps);
        const kept = server.versions.map((one) => one.rev).sort();
        expect(kept).toEqual(devices.flatMap((one) => [...one.said]).sort());
        for (const device of devices) {
          expect([...device.outbox.values()]).toEqual([]);
          expect(revs(device)).toEqual(revs(devices[0] as ModelDevice));
          const plan = server.versions.filter((one) => one.kind === "item");
          expect([...device.versions.values()].map((one) => one.rev).sort()).toEqual(
            plan.map((one) => one.rev).sort(),
          );
        }
      }),
      { numRuns: 400 },
    );
  });

  it("show each own entry from the moment it is saved until it has come back", () => {
    fc.assert(
      fc.property(any, (steps) => {
        const world = new World();
        for (const one of steps) {
          world.play(one);
          for (const device of world.devices) {
            const fills = [...device.said].filter((mut) => device.outbox.get(mut)?.kind === "fill");
            for (const mut of fills) {
              expect([...device.shown.values()].some((row) => row.rev === mut)).toBe(true);
            }
          }
        }
      }),
      { numRuns: 200 },
    );
  });

  it("stop for a refused mutation only there", () => {
    fc.assert(
      fc.property(any, fc.nat(9), (steps, poison) => {
        const world = new World();
        world.server.refuses = ({ body }) => body.litres_l === poison;
        for (const one of steps) world.play(one);
        world.settle();
        for (const device of world.devices) {
          expect(device.outbox.size).toBe(0);
          const refused = [...device.attention.values()].filter((one) => one.because_of === null);
          expect(refused.every((one) => one.mutation.body.litres_l === poison)).toBe(true);
        }
        const total = world.devices.reduce((sum, one) => sum + one.said.size - one.attention.size, 0);
        expect(world.server.versions).toHaveLength(total);
      }),
      { numRuns: 200 },
    );
  });
});
