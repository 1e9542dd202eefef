"""The circuit of a job goes out as files and comes back: nothing is half taken over."""

from pathlib import Path

from no_diagram import Fingers, first_check
from playwright.sync_api import Page, expect


def saved(page: Page, key: str) -> str:
    """The text of the file that a key saves."""
    with page.expect_download() as download:
        page.get_by_role("button", name=key, exact=True).tap()
    return Path(download.value.path()).read_text("utf-8")


def given(page: Page, label: str, name: str, text: str) -> None:
    """Choose a file of this text."""
    file = {"name": name, "mimeType": "text/csv", "buffer": text.encode()}
    page.get_by_label(label, exact=True).and_(page.locator("input")).set_input_files(file)


def test_lists_and_sheets_go_out_and_come_back_and_a_slip_takes_nothing_over(page: Page) -> None:
    fingers = Fingers(page)
    first_check(fingers, "Lamp", positions="2", relay=False)
    fingers.tap("More")
    fingers.tap("Circuit as a file", then="Wiring list (CSV)")
    wires = saved(page, "Wiring list (CSV)")
    assert wires.startswith("wire,from,to,colour,mm2,length m")
    assert ".op" in saved(page, "For a simulator (SPICE)")

    painted = wires.replace(",,,", ",RD,0.75,")
    first, second, third, *others = painted.splitlines(keepends=True)
    name, start, *_ = third.split(",")
    slipped = "".join([first, second.replace("RD", "RX"), f"{name},{start},X99.1,,,\r\n", *others])
    given(page, "Open a wiring list", "bad.csv", slipped)
    expect(page.get_by_role("alert")).to_contain_text("“bad.csv” was not taken in")
    expect(page.get_by_text("line 2, column 4 (colour)").first).to_be_visible()
    expect(page.get_by_text("line 3, column 3 (to)").last).to_be_visible()
    assert ",RD," not in saved(page, "Wiring list (CSV)")

    given(page, "Open a wiring list", "good.csv", painted)
    fingers.tap("Take it over")
    expect(page.get_by_text("Taken over.")).to_be_visible()
    assert saved(page, "Wiring list (CSV)") == painted
    sheet = saved(page, "Circuit (JSON)")

    fingers.tap("Back")
    fingers.tap("All jobs")
    fingers.tap("New job", then="Open a circuit file")
    given(page, "Open a circuit file", "photo.json", "%PDF-1.7")
    # Below the last key of a long list, and in view all the same.
    expect(page.get_by_role("alert")).to_be_in_viewport(ratio=0.9)
    expect(page.get_by_role("alert")).to_contain_text("“photo.json” was not taken in")
    given(page, "Open a circuit file", "cut.json", sheet[: len(sheet) // 2])
    expect(page.get_by_role("alert")).to_contain_text("Part of the file is missing")
    with page.expect_file_chooser() as chooser:
        fingers.tap("Open a circuit file", then="Open a circuit file")
    # Two bytes a sign, as some editors save.
    file = {"name": "s.json", "mimeType": "", "buffer": sheet.encode("utf-16")}
    chooser.value.set_files(file)
    expect(page.get_by_text("One colour more than once in a plug")).to_be_in_viewport()
    fingers.tap("Use it as it is", then="Start", leads_on=True)
