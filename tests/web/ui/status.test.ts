import { describe, expect, it } from "vitest";
import type { StatusLine } from "@/services/status";
import { StorageTrouble } from "@/store/trouble";
import { whyNot } from "@/ui/text/forms";
import { statusWords } from "@/ui/text/status";

const now = new Date(2026, 2, 4, 17, 30);
const at = (day: number, hour: number) => new Date(2026, 2, day, hour, 5).toISOString();
const full = new StorageTrouble("full", null);

describe("the status line", () => {
  it.each<[StatusLine, string]>([
    [{ kind: "reading" }, ""],
    [{ kind: "new" }, "saved on this phone"],
    [{ kind: "waiting", count: 3 }, "saved on this phone · 3 waiting"],
    [{ kind: "synced", at: at(4, 9) }, "synced 09:05"],
    [{ kind: "synced", at: at(3, 9) }, "synced 3 Mar"],
    [{ kind: "attention", count: 1, waiting: 0 }, "1 entry needs attention"],
    [{ kind: "attention", count: 2, waiting: 3 }, "2 entries need attention · 3 waiting"],
    [{ kind: "sign_in", name: "Ada", waiting: 0 }, "sign in as Ada"],
    [{ kind: "sign_in", name: "Ada", waiting: 2 }, "sign in as Ada to send 2"],
    [{ kind: "too_old", waiting: 2 }, "update the app to send 2"],
    [{ kind: "storage", trouble: full }, "this phone is full"],
  ])("%j", (line, words) => {
    expect(statusWords(line, "phone", now)).toBe(words);
  });
});

describe("why something was not saved", () => {
  it("is said in words that lead on", () => {
    expect(whyNot(full)).toMatch(/no room left.*still here/);
    expect(whyNot(new StorageTrouble("newer", null))).toMatch(/Load this page again/);
    expect(whyNot(new RangeError("ours"))).toBe("ours");
    expect(whyNot("odd")).toBe("odd");
  });
});
