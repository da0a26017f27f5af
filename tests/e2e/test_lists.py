"""Lists in and out, offline: sixty items with decimal commas and pounds come in, what is wrong is put right there."""

import re
from collections.abc import Callable

from e2e.device import Device
from e2e.host import Account
from playwright.sync_api import FilePayload, Locator, expect

THIN = "\u202f"


def offline_book(phone: Device) -> str:
    """A new vehicle's book, and no signal."""
    book = phone.new_vehicle("Wren", gross="3000")
    phone.synced()
    phone.ready_offline()
    phone.offline()
    return book


def a_file(name: str, content: bytes) -> FilePayload:
    return {"name": name, "mimeType": "text/csv", "buffer": content}


def choose(phone: Device, content: bytes, name: str = "build.csv") -> None:
    phone.page.get_by_label("A file with columns (CSV)").set_input_files(a_file(name, content))


def preview(phone: Device) -> Locator:
    title = phone.page.get_by_role("heading", name="As they will be kept")
    return phone.page.locator(".section").filter(has=title)


def sixty() -> bytes:
    """Items as a spreadsheet of a country with decimal commas writes them, in the old code page."""
    rows = [f"Crate {i};{20 + i},{i % 10};1,{50 + i % 40}" for i in range(1, 60)]
    return "\r\n".join(["Item;Mass (lb);Place (m)", "Driver\u2019s box;132,3;1,45", *rows]).encode("cp1252")


def test_sixty_items_with_decimal_commas_and_pounds(phone: Device) -> None:
    book = offline_book(phone)
    page = phone.page
    phone.open(f"/b/{book}/plan")
    page.get_by_role("link", name="Lists in and out").click()
    choose(phone, sixty())
    expect(page.get_by_text("build.csv, read as Windows-1252: 60 rows")).to_be_visible()
    expect(page.get_by_role("radio", name="Semicolon")).to_have_attribute("aria-checked", "true")
    expect(page.get_by_role("radio", name="Comma: 1,5")).to_have_attribute("aria-checked", "true")
    expect(page.get_by_label("Unit of Mass of one")).to_have_value("lb")
    page.get_by_role("group", name=re.compile("^Part or load")).get_by_role("radio", name="Load").click()
    expect(preview(phone)).to_contain_text("60 new")
    expect(preview(phone)).to_contain_text("Driver\u2019s box")
    expect(preview(phone)).to_contain_text("132.3 lb")
    page.wait_for_timeout(500)  # a draft is written a quarter of a second after the last touch
    phone.open(f"/b/{book}/import")  # and is there after the page was loaded anew
    phone.touch("Take 60 rows in")
    expect(page.get_by_text("60 rows are in.")).to_be_visible()
    page.get_by_role("link", name="To the plan").click()
    expect(page.locator(".row").filter(has_text="Driver\u2019s box")).to_contain_text(f"60{THIN}kg")
    expect(page.locator(".row").filter(has_text=re.compile("^Crate"))).to_have_count(59)
    phone.offline(False)
    phone.open(f"/b/{book}/plan")  # a page that is loaded sends at once
    phone.synced()


def test_what_is_wrong_is_put_right_in_its_place(phone: Device) -> None:
    book = offline_book(phone)
    page = phone.page
    phone.open(f"/b/{book}/import")
    phone.type("Or paste the rows here", "name\tmass\tnature\nBar\t1,234\tpart\nWinch\t28 stone\tpart\n")
    page.get_by_role("radio", name="1234", exact=True).click()
    expect(page.get_by_text("Not yet:")).to_be_visible()
    wrong = page.get_by_label("Row 3, Mass of one")
    expect(preview(phone)).to_contain_text(
        'Mass of one: "28 stone" ends in a unit that is not one of kg, t, g, lb.'
    )
    wrong.fill("28")
    expect(wrong).to_have_value("28")
    phone.touch("Take 2 rows in")
    expect(page.get_by_text("2 rows are in.")).to_be_visible()
    phone.type("Or paste the rows here", "name\tmass\nbar\t58,5\nWinch\t28\nRack\t30\n")
    page.get_by_role("group", name=re.compile("^Part or load")).get_by_role("radio", name="Part").click()
    expect(preview(phone)).to_contain_text("1 new, 1 changed, 1 the same as now")
    expect(preview(phone)).to_contain_text("Mass of one 1\u202f234 kg \u2192 58.5 kg")
    page.get_by_role("button", name=re.compile("^Bar")).click()
    expect(preview(phone)).to_contain_text("1 left out")
    phone.touch("Take 1 row in")
    expect(page.get_by_text("1 row is in.")).to_be_visible()
    phone.open(f"/b/{book}/plan")
    expect(page.locator(".row").filter(has_text=re.compile("^Bar"))).to_contain_text(f"1{THIN}234{THIN}kg")
    expect(page.locator(".row").filter(has_text=re.compile("^Rack"))).to_be_visible()


def add_tank(phone: Device, book: str, name: str, holds: str = "Fuel") -> None:
    phone.open(f"/b/{book}/plan/tank/new")
    phone.type("Name", name)
    phone.page.get_by_role("radio", name=holds, exact=True).click()
    phone.type("Capacity to the shut-off", "80")
    phone.touch("Save on this phone")
    expect(phone.page.get_by_role("heading", name="Tanks")).to_be_visible()


def test_a_fuel_log_comes_in_and_the_same_again_adds_nothing(phone: Device) -> None:
    book = offline_book(phone)
    add_tank(phone, book, "Main")
    page = phone.page
    phone.open(f"/b/{book}/log")
    page.get_by_role("link", name="Lists in and out").click()
    page.get_by_role("radio", name="Fuel log").click()
    rows = ["Date;Odometer;Litres;Full"] + [
        f"0{i}/03/2026;{80_000 + 400 * i};{38 + i},5;yes" for i in range(1, 7)
    ]
    choose(phone, "\n".join(rows).encode(), "fuel.csv")
    page.get_by_role("radio", name="Day, month, year").click()
    expect(preview(phone)).to_contain_text("6 new")
    expect(preview(phone)).to_contain_text("2026-03-06")
    phone.touch("Take 6 rows in")
    expect(page.get_by_text("6 rows are in.")).to_be_visible()
    page.get_by_role("radio", name="Fuel log").click()
    choose(phone, "\n".join([*rows, "09/03/2026;83000;41,5;yes"]).encode(), "fuel.csv")
    page.get_by_role("radio", name="Day, month, year").click()
    expect(preview(phone)).to_contain_text("1 new, 6 already there")
    phone.touch("Take 1 row in")
    expect(page.get_by_text("1 row is in.")).to_be_visible()
    page.get_by_role("link", name="To the log").click()
    expect(page.locator(".entry")).to_have_count(7)
    expect(page.locator(".entry").first).to_contain_text("9 Mar 2026")
    phone.offline(False)
    phone.open(f"/b/{book}/plan")  # a page that is loaded sends at once
    phone.synced()


def test_what_went_out_comes_in_elsewhere_as_the_same(phone: Device) -> None:
    book = offline_book(phone)
    page = phone.page
    phone.open(f"/b/{book}/import")
    choose(phone, sixty())
    page.get_by_role("group", name=re.compile("^Part or load")).get_by_role("radio", name="Load").click()
    phone.touch("Take 60 rows in")
    expect(page.get_by_text("60 rows are in.")).to_be_visible()
    with page.expect_download() as waiting:
        page.get_by_role("button", name=re.compile("^Items")).click()
    assert waiting.value.suggested_filename == "Wren items.csv"
    content = waiting.value.path().read_bytes()
    first, second = content.decode().split("\r\n")[:2]
    assert first.startswith("\ufeffName,Part or load,Mass of one (kg)"), first
    assert float(second.split(",")[3]) == 132.3 * 0.45359237, second  # "Load, may be left" stands in quotes
    choose(phone, content)
    expect(preview(phone)).to_contain_text("0 new, 60 the same as now")
    expect(page.get_by_role("button", name="No row to take in")).to_be_disabled()


def test_a_water_log_goes_out_with_commas_and_gallons_and_comes_in_as_the_same(phone: Device) -> None:
    book = offline_book(phone)
    add_tank(phone, book, "Bladder", "Water")
    page = phone.page
    phone.open(f"/b/{book}/import")
    page.get_by_role("radio", name="Water log").click()
    phone.type(
        "Or paste the rows here",
        "Date\tTime\tWhat was done\tLitres\n2026-03-04\t08:10\tfilled\t60,5\n2026-03-04\t18:00\tdrawn\t7,25\n",
    )
    page.get_by_role("group", name=re.compile("^Drinkable")).get_by_role("radio", name="yes").click()
    expect(preview(phone)).to_contain_text("2 new")
    phone.touch("Take 2 rows in")
    expect(page.get_by_text("2 rows are in.")).to_be_visible()
    page.get_by_label("Volumes in").select_option("US gal")
    page.get_by_role("radio", name="Comma: 1,5").click()
    with page.expect_download() as waiting:
        page.get_by_role("button", name=re.compile("^Water log")).click()
    assert waiting.value.suggested_filename == "Wren water log.csv"
    content = waiting.value.path().read_bytes()
    head, first = content.decode().split("\r\n")[:2]
    assert head.startswith("\ufeffDate;Time;Tank;What was done;Litres (USgal)"), head
    assert first.startswith("2026-03-04;08:10:00;Bladder;filled;15,98"), first
    page.get_by_role("radio", name="Water log").click()
    choose(phone, content, "water.csv")
    expect(preview(phone)).to_contain_text("0 new, 2 already there")
    expect(page.get_by_role("button", name="No row to take in")).to_be_disabled()


def test_five_thousand_rows_come_in_and_are_told_of_as_they_go(phone: Device) -> None:
    book = offline_book(phone)
    add_tank(phone, book, "Main")
    page = phone.page
    phone.open(f"/b/{book}/import")
    page.get_by_role("radio", name="Fuel log").click()
    rows = [
        f"{1990 + i // 360}-{i // 30 % 12 + 1:02}-{i % 28 + 1:02},{i * 50},{20 + i % 50}.5,yes"
        for i in range(5000)
    ]
    choose(phone, "\n".join(["date,odometer,litres,full", *rows]).encode(), "long.csv")
    expect(preview(phone)).to_contain_text("5000 new", timeout=20_000)
    page.evaluate(
        """() => { window.told = new Set(); new MutationObserver(() => {
          for (const one of document.querySelectorAll("[role=status]")) window.told.add(one.textContent);
        }).observe(document.body, { childList: true, subtree: true, characterData: true }); }"""
    )
    phone.touch("Take 5000 rows in")
    expect(page.get_by_text("5000 rows are in.")).to_be_visible(timeout=60_000)
    told = [
        one for one in page.evaluate("() => [...window.told]") if re.fullmatch(r"\d+ of 5000 written", one)
    ]
    assert len(told) >= 10, told
    phone.open(f"/b/{book}/log")
    expect(page.get_by_text("Show earlier ones (4800 more)")).to_be_visible(timeout=20_000)


def test_a_correction_keeps_what_its_form_does_not_ask(
    phone: Device, account: Callable[[Device], Account]
) -> None:
    """A fill from a list states the u of its litres and a note; its surface is as before, for nobody told it."""
    book = phone.filled_up_offline("Wren")
    page = phone.page
    phone.open(f"/b/{book}/import")
    page.get_by_role("radio", name="Fuel log").click()
    rows = (
        "Date;Odometer;Litres;Full to the click;u of the litres;note\n2026-03-04;50400;44,5;yes;1,5;by can\n"
    )
    choose(phone, rows.encode(), "fuel.csv")
    phone.touch("Take 1 row in")
    expect(page.get_by_text("1 row is in.", exact=True)).to_be_visible()
    phone.open(f"/b/{book}/log")
    page.get_by_role("button", name=re.compile("44[.,]5")).click()
    page.get_by_role("link", name="Correct it", exact=True).click()
    phone.type("Litres", "45,5")
    phone.touch("Save this fill")
    expect(page.get_by_text("corrected")).to_be_visible()
    phone.offline(False)
    phone.open(f"/b/{book}/log")  # a page that is loaded sends at once
    phone.synced()
    now = account(phone).versions("fill")[-1]["body"]
    (line,) = now["lines"]
    assert (line["litres_l"], line["litres_u_l"]) == (45.5, 1.5)
    assert line["as_typed"] == {"litres_l": ["45.5", "L"], "litres_u_l": ["1.5", "L"]}
    assert (now["note"], now["surface"], now["odometer_km"]) == ("by can", None, 50_400)
