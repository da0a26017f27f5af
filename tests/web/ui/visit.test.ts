import { describe, expect, it } from "vitest";
import {
  choose,
  chooseSide,
  differ,
  layOut,
  newVisit,
  nextStop,
  openVisit,
  repeatOf,
  stopsOf,
  strikeOut,
  take,
  takeBack,
  touch,
  type Visit,
} from "@/ui/screens/weigh/visit";

const AT = "2026-11-25T00:00:00.000Z";
let serial = 0;

function read(visit: Visit, value_kg: number, towing = false, interval_kg: number | null = 20): Visit {
  serial += 1;
  const figure = { id: `r${serial}`, value_kg, typed: [String(value_kg), "kg"] as const };
  return take(visit, figure, { at: AT, towing, interval_kg });
}

const standing = ({ on_deck, uncoupled }: Visit) => ({ on_deck, uncoupled });

describe("the usual order of stops", () => {
  it("is front, whole, rear without a trailer", () => {
    const first = read(newVisit, 1340);
    const second = read(first, 3560);
    expect(standing(newVisit)).toEqual({ on_deck: ["front"], uncoupled: false });
    expect(standing(first).on_deck).toEqual(["front", "rear"]);
    expect(standing(second).on_deck).toEqual(["rear"]);
    expect(standing(read(second, 2220)).on_deck).toEqual([]);
  });

  it("is front, vehicle, all, then the vehicle uncoupled when towing", () => {
    const seen: unknown[] = [];
    let visit = newVisit;
    for (const value_kg of [1320, 3720, 5080, 3560]) {
      seen.push(standing(visit));
      visit = read(visit, value_kg, true);
    }
    expect(seen).toEqual([
      { on_deck: ["front"], uncoupled: false },
      { on_deck: ["front", "rear"], uncoupled: false },
      { on_deck: ["front", "rear", "trailer"], uncoupled: false },
      { on_deck: ["front", "rear"], uncoupled: true },
    ]);
    expect(standing(visit)).toEqual({ on_deck: [], uncoupled: false });
    expect(visit.readings.map((one) => one.differs.uncoupled)).toEqual([false, false, false, true]);
  });

  it("goes on where it was left when another stop came first", () => {
    const whole = read(choose(newVisit, stopsOf(false)[1]!), 3560);
    expect(standing(whole).on_deck).toEqual(["front"]);
    expect(nextStop(read(whole, 1340).readings, false).on_deck).toEqual(["rear"]);
  });

  it("asks for a stop again once its reading is set aside", () => {
    const visit = read(read(newVisit, 1340), 3560);
    const aside = strikeOut(visit, visit.readings[0]!.id, "it rolled", false);
    expect(aside.on_deck).toEqual(["front"]);
    expect(strikeOut(aside, visit.readings[0]!.id, null, false).on_deck).toEqual(["front"]);
  });
});

describe("axles touched", () => {
  it("roll on and off the deck", () => {
    expect(touch(newVisit, "rear").on_deck).toEqual(["front", "rear"]);
    expect(touch(touch(newVisit, "trailer"), "front").on_deck).toEqual(["trailer"]);
  });

  it("count as the rear when both of a pair stand on it", () => {
    const first = touch({ ...newVisit, on_deck: [] }, "rear_1");
    const both = touch(first, "rear_2");
    expect(first.on_deck).toEqual(["rear_1"]);
    expect(both.on_deck).toEqual(["rear"]);
    expect(touch(both, "rear_1").on_deck).toEqual(["rear_2"]);
  });
});

describe("what differs", () => {
  it("stays with the reading, and a person who is out stays out until touched again", () => {
    const visit = read(differ(newVisit, { seats_empty: ["s1"] }), 1250);
    expect(visit.readings[0]!.differs).toEqual({ uncoupled: false, seats_empty: ["s1"] });
    expect(visit.seats_empty).toEqual(["s1"]);
    expect(read(differ(visit, { seats_empty: [] }), 3560).readings[1]!.differs.seats_empty).toEqual([]);
  });

  it("comes back with a reading that is typed again", () => {
    const visit = read(differ({ ...newVisit, on_deck: ["rear"] }, { uncoupled: true }), 2200, true);
    const back = takeBack(visit, visit.readings[0]!.id);
    expect(back).toMatchObject({ on_deck: ["rear"], uncoupled: true, text: "2200", readings: [] });
  });

  it("makes another stop of the same axles, so that neither repeats the other", () => {
    const first = read(newVisit, 1340);
    const second = read(differ({ ...first, on_deck: ["front"] }, { seats_empty: ["s1"] }), 1250);
    const third = read({ ...second, on_deck: ["front"] }, 1260);
    expect(second.doubted).toBeNull();
    expect(repeatOf(second.readings, second.readings[1]!)).toBeNull();
    expect(repeatOf(third.readings, third.readings[2]!)).toBe(second.readings[1]!.id);
  });
});

describe("a stop read twice", () => {
  const twice = (value_kg: number, interval_kg: number | null = 20) =>
    read({ ...read(newVisit, 1340), on_deck: ["front"] }, value_kg, false, interval_kg);

  it("is asked about beyond two intervals, and not at two", () => {
    expect(twice(1380).doubted).toBeNull();
    const visit = twice(1400);
    expect(visit.doubted).toBe(visit.readings[0]!.id);
  });

  it("keeps both unless a person says otherwise", () => {
    const visit = twice(1500);
    expect(visit.readings.map((one) => one.struck_out)).toEqual([null, null]);
    expect(read(visit, 3560).doubted).toBeNull();
    const aside = strikeOut(visit, visit.doubted!, "read again", false);
    expect(aside.readings.map((one) => one.struck_out)).toEqual(["read again", null]);
    expect(aside.doubted).toBeNull();
    expect(aside.on_deck).toEqual(["front", "rear"]);
  });

  it("takes the interval that the figures suggest where the bridge's is not known", () => {
    expect(twice(1375, null).doubted).not.toBeNull(); // 5 kg
    expect(twice(1380, null).doubted).toBeNull(); // 20 kg
  });
});

describe("a visit kept by an earlier version", () => {
  it("opens with nothing different, and goes on", () => {
    const reading = { id: "r", on_deck: ["front"], value_kg: 1340, typed: ["1340", "kg"], struck_out: null };
    const kept = { at: AT, on_deck: ["front", "rear"], text: "35", unit: "kg", readings: [reading] };
    const visit = openVisit(kept as unknown as Partial<Visit>);
    expect(visit).toMatchObject({ ...kept, uncoupled: false, seats_empty: [], doubted: null });
    expect(visit.readings[0]!.differs).toEqual({ uncoupled: false, seats_empty: [] });
    expect(read(visit, 3560).on_deck).toEqual(["rear"]);
  });
});

describe("pads and several decks", () => {
  const pads = layOut(newVisit, { form: "pads" }, false);

  it("are read wheel by wheel, and group by group", () => {
    const order = (form: "pads" | "multi_deck", towing: boolean) =>
      stopsOf(towing, form).map((one) => one.on_deck.join("+"));
    expect(order("pads", false)).toEqual(["front_left", "front_right", "rear_left", "rear_right"]);
    expect(order("multi_deck", true)).toEqual(["front", "rear", "trailer"]);
    expect(standing(pads).on_deck).toEqual(["front_left"]);
    expect(standing(read(pads, 640)).on_deck).toEqual(["front_right"]);
    expect(standing(layOut(pads, { form: "single_deck" }, false)).on_deck).toEqual(["front"]);
  });

  it("stay with what was chosen when one pad is said to be moved", () => {
    const second = read(pads, 640);
    expect(standing(layOut(second, { one_pad: true }, false)).on_deck).toEqual(["front_right"]);
  });

  it("take both wheels, the left or the right of what stands there", () => {
    expect(pads.side).toBe("left");
    expect(chooseSide(pads, "both").on_deck).toEqual(["front"]);
    const right = touch(chooseSide(pads, "right"), "rear");
    expect(right.on_deck).toEqual(["front_right", "rear_right"]);
    expect(touch(right, "front").on_deck).toEqual(["rear_right"]);
    expect(chooseSide(touch({ ...pads, on_deck: [] }, "trailer"), "left").on_deck).toEqual(["trailer"]);
  });

  it("open from a draft that does not know of them", () => {
    const { form: _form, one_pad: _pad, side: _side, ...old } = read(newVisit, 1340);
    expect(openVisit(old)).toMatchObject({ form: "single_deck", one_pad: false, side: "both" });
  });
});
