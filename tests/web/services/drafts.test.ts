import { describe, expect, it } from "vitest";
import { createForms } from "@/services/forms";
import { Browser, user } from "./browser";
import { FakeServer } from "./fake_server";

describe("drafts", () => {
  it("come back as last typed, also to another tab", async () => {
    const phone = new Browser(new FakeServer());
    const me = await phone.signedIn("Ada");
    const draft = me.draft<string>("weigh:b");
    expect(await draft.found).toBeNull();
    for (const text of ["1", "17", "173"]) draft.keep(text);
    phone.elapse(250);
    await draft.settled();
    expect(await user(await phone.tab()).draft("weigh:b").found).toBe("173");
    await draft.drop();
    expect(await me.draft("weigh:b").found).toBeNull();
  });

  it("give way to what is typed before they have been read", async () => {
    const phone = new Browser(new FakeServer());
    const me = await phone.signedIn("Ada");
    const before = me.draft<string>("room:b");
    before.keep("40");
    await before.settled();
    const draft = me.draft<string>("room:b");
    draft.keep("forty");
    expect(await draft.found).toBe("forty");
    await draft.settled();
    expect(await me.draft("room:b").found).toBe("forty");
    const left = me.draft<string>("room:b");
    const dropped = left.drop();
    expect(await left.found).toBeNull();
    await dropped;
    expect(await me.draft("room:b").found).toBeNull();
  });
});

describe("forms", () => {
  it("are dirty while any of them is", () => {
    const forms = createForms();
    const [one, other] = [forms.open(), forms.open()];
    one.setDirty(true);
    other.setDirty(true);
    one.setDirty(false);
    expect(forms.dirty.value).toBe(true);
    other.close();
    expect(forms.dirty.value).toBe(false);
  });
});
