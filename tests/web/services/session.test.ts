import { describe, expect, it } from "vitest";
import { Browser, quiet, until, user } from "./browser";
import { FakeServer } from "./fake_server";

describe("signing in and out", () => {
  it("opens without asking and without a network from then on", async () => {
    const phone = new Browser(new FakeServer());
    await phone.signedIn("Ada");
    phone.network.fate = () => "request lost";
    const app = await phone.tab();
    expect(app.user.value?.account.name).toBe("Ada");
  });

  it("shows what the server says of a wrong password, and changes nothing", async () => {
    const phone = new Browser(new FakeServer());
    const app = await phone.tab();
    expect(app.user.value).toBeNull();
    expect(await app.signIn("Ada", "wrong")).toMatchObject({ kind: "refused", error: { status: 401 } });
    expect(app.user.value).toBeNull();
  });

  it("reaches the other tabs of this device", async () => {
    const phone = new Browser(new FakeServer());
    const [one, other] = [await phone.tab(), await phone.tab()];
    await one.signIn("Ada", "long enough");
    await until(() => expect(other.user.value?.account.name).toBe("Ada"));
    await quiet(user(other));
  });

  it("out needs the server, and then leaves nothing of the user here", async () => {
    const phone = new Browser(new FakeServer());
    const app = await phone.tab();
    await app.signIn("Ada", "long enough");
    await quiet(user(app));
    phone.network.fate = (_, method) => (method === "DELETE" ? "request lost" : "arrives");
    expect(await app.signOut()).toBe(false);
    expect(app.user.value?.account.name).toBe("Ada");
    phone.network.fate = () => "arrives";
    expect(await app.signOut()).toBe(true);
    expect(app.user.value).toBeNull();
    const left = await phone.engine.indexedDB.databases();
    expect(left.map((one) => one.name)).toEqual(["tareway"]);
  });
});

describe("two tabs", () => {
  it("send each entry once and see each other's", async () => {
    const server = new FakeServer();
    const phone = new Browser(server);
    const one = await phone.signedIn("Ada");
    const other = user(await phone.tab());
    const book = await one.records.newVehicle({ name: "Wren" });
    await Promise.all(
      [1, 2, 3, 4].map((n) => (n % 2 ? one : other).records.log(book, "dip", { tank_id: `t${n}` })),
    );
    await Promise.all([quiet(one), quiet(other)]);
    const sent = server.requests.flatMap((request) => request.mutations.map((mutation) => mutation.mut));
    expect(sent).toHaveLength(5);
    expect(new Set(sent).size).toBe(5);
    expect(other.status.line.value.kind).toBe("synced");
  });
});

describe("at rest", () => {
  it("nothing is asked and no timer runs", async () => {
    const phone = new Browser(new FakeServer());
    await quiet(await phone.signedIn("Ada"));
    const asked = phone.network.asked.length;
    phone.elapse(5 * 60_000);
    expect(phone.timers.filter((one) => !one.off)).toEqual([]);
    expect(phone.network.asked).toHaveLength(asked);
  });

  it("a device without a network and nothing to send waits for its return", async () => {
    const phone = new Browser(new FakeServer());
    await phone.signedIn("Ada");
    phone.network.fate = () => "request lost";
    phone.online = false;
    const me = user(await phone.tab());
    await quiet(me);
    expect(phone.timers.filter((one) => !one.off)).toEqual([]);
    phone.network.fate = () => "arrives";
    for (const wake of phone.wakes) wake();
    await until(() => expect(me.status.line.value.kind).toBe("synced"));
  });

  it("says how far the clock is off, when it is far", async () => {
    const phone = new Browser(new FakeServer());
    phone.now += 3_600_000;
    const me = await phone.signedIn("Ada");
    await quiet(me);
    await until(() => expect(me.status.clock_off_ms.value).toBeGreaterThan(3_500_000));
  });
});
