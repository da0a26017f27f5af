import { describe, expect, it, vi } from "vitest";
import { createForms } from "@/services/forms";
import { createInstall } from "@/services/install";
import { createPersist } from "@/services/persist";
import { createUpdates, TAKE_OVER } from "@/services/updates";
import * as worker from "../../../service_worker/messages";

describe("a new version", () => {
  const world = () => {
    const workers = Object.assign(new EventTarget(), { controller: {}, register: vi.fn() });
    const waiting = { postMessage: vi.fn() };
    const registration = Object.assign(new EventTarget(), { waiting, installing: null, update: vi.fn() });
    workers.register.mockResolvedValue(registration);
    const forms = createForms();
    const reload = vi.fn();
    const environment = { nowMs: () => 0, onReturn: () => () => {} };
    const container = workers as unknown as ServiceWorkerContainer;
    const updates = createUpdates({
      workers: container,
      trusted: (url) => `trusted ${url}`,
      forms,
      reload,
      environment,
    });
    return { workers, waiting, forms, reload, updates };
  };

  it("is offered and taken only when asked for", async () => {
    const { updates, waiting, workers, reload } = world();
    await updates.start();
    expect(workers.register).toHaveBeenCalledWith("trusted /sw.js", { scope: "/", updateViaCache: "none" });
    expect(updates.offered.value).toBe(true);
    expect(waiting.postMessage).not.toHaveBeenCalled();
    updates.accept();
    expect(waiting.postMessage).toHaveBeenCalledWith({ type: TAKE_OVER });
    workers.dispatchEvent(new Event("controllerchange"));
    expect(reload).toHaveBeenCalledOnce();
  });

  it("never reloads a tab with something unsaved", async () => {
    const { updates, workers, forms, reload } = world();
    await updates.start();
    forms.open().setDirty(true);
    workers.dispatchEvent(new Event("controllerchange"));
    expect(reload).not.toHaveBeenCalled();
    expect(updates.stale.value).toBe(true);
  });

  it("is asked for in the word that the worker listens to", () => {
    expect(TAKE_OVER).toBe(worker.TAKE_OVER);
  });
});

describe("asking the browser", () => {
  it("to keep the entries: once, after the first save", async () => {
    const storage = { persisted: vi.fn(async () => false), persist: vi.fn(async () => true) };
    const persist = createPersist(storage);
    expect(persist.keeping.value).toBe("not asked");
    await persist.afterSave();
    await persist.afterSave();
    expect(storage.persist).toHaveBeenCalledOnce();
    expect(persist.keeping.value).toBe("kept");
  });

  it("to install, where it offers that", async () => {
    const page = new EventTarget();
    const install = createInstall(page as unknown as Window);
    const event = Object.assign(new Event("beforeinstallprompt", { cancelable: true }), { prompt: vi.fn() });
    page.dispatchEvent(event);
    expect(install.possible.value).toBe(true);
    await install.ask();
    expect(event.prompt).toHaveBeenCalledOnce();
    expect(install.possible.value).toBe(false);
  });
});
