"""Opened again, a vehicle says how far at once, from what was kept; what is new is reckoned all the same."""

import re

from playwright.sync_api import Page, expect

# Reads what was kept, and puts another figure into it when one is given.
KEPT = """async (count_on_km) => {
  let found = null;
  for (const { name } of await indexedDB.databases()) {
    const db = await new Promise((done, fail) => {
      const asked = indexedDB.open(name);
      asked.onsuccess = () => done(asked.result);
      asked.onerror = () => fail(asked.error);
    });
    if (db.objectStoreNames.contains("records")) {
      const meta = db.transaction("meta", "readwrite").objectStore("meta");
      const all = await new Promise((done) => {
        meta.getAll().onsuccess = (event) => done(event.target.result);
      });
      const row = all.find((one) => one.key.startsWith("kept:") && location.pathname.includes(one.key.slice(5)));
      if (row) {
        found = row.value.answer.count_on_km;
        if (count_on_km !== null) {
          const answer = { ...row.value.answer, count_on_km };
          await new Promise((done) => {
            meta.put({ ...row, value: { ...row.value, answer } }).onsuccess = done;
          });
        }
      }
    }
    db.close();
  }
  return found;
}"""


def count_on(page: Page) -> str:
    row = page.get_by_role("link").filter(has_text="Count on")
    expect(row).to_be_visible()
    return row.inner_text()


def kept(page: Page, count_on_km: float | None = None) -> float:
    """What is kept of the vehicle's page, once it has been read."""
    for _ in range(50):
        found = page.evaluate(KEPT, count_on_km)
        if found is not None:
            return float(found)
        page.wait_for_timeout(100)
    raise AssertionError("nothing was kept")


def kept_anew(page: Page, was: float) -> float:
    """What is kept once the page has replaced it, which it does after it has answered."""
    for _ in range(50):
        if (found := kept(page)) != was:
            return found
        page.wait_for_timeout(100)
    return was


def test_what_was_kept_answers_and_the_log_answers_what_is_new(owner: Page) -> None:
    owner.context.set_offline(True)
    told = count_on(owner)
    figure = kept(owner)
    assert f"{figure:.0f}"[:2] in re.sub(r"\s", "", told)
    kept(owner, 7_000.0)  # a figure that no log gives: it is seen only where what was kept is asked
    owner.reload()
    assert "7\u202f000" in count_on(owner)
    vehicle = owner.url
    owner.goto(f"{vehicle}/log")
    owner.get_by_role("button", name=re.compile("^Fuel")).first.click()
    owner.get_by_label("Why is it wrong?").fill("the other vehicle's")
    owner.get_by_role("button", name="Strike it out").click()
    expect(owner.get_by_text(re.compile("the other vehicle's"))).to_be_visible()
    owner.goto(vehicle)
    assert "7\u202f000" not in count_on(owner)
    assert kept_anew(owner, 7_000) < 7_000
