import { describe, expect, it } from "vitest";
import { createForms } from "@/services/forms";
import { Browser, user } from "./browser";
import { FakeServer } from "./fake_server";

describe("drafts", () => {
  it("come back as last typed, also to another tab", async () => {
    const phone = new Browser(new FakeServer());
    const me = await phone.signedIn("Ada");
    const draft = await me.draft<string>("weigh:b");
    expect(draft.found).toBeNull();
    for (const text of ["1", "17", "173"]) draft.keep(text);
    phone.elapse(250);
    await draft.settled();
    expect((await user(await phone.tab()).draft("weigh:b")).found).toBe("173");
    await draft.drop();
    expect((await me.draft("weigh:b")).found).toBeNull();
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
