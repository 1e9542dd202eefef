"""Photos beside the wiring check: taken, kept, shown, handed on by a file, removed and erased."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from pictures import MARKER, as_file, lying_jpeg, png
from playwright.sync_api import BrowserContext, Page, expect
from screen_probe import faults_of_access, faults_of_size
from walk import CIRCUIT, Walk

OpenAtPad = Callable[..., Walk]

HALF = "switch plug X2, wire side"
SPOKEN_IN_FULL = "label-content-name-mismatch at ['.way:"
"""A way of the face shows colours in short, and is read out in sentences."""

TEXT_SIZE = "(size) => { document.documentElement.style.fontSize = size; }"
SIZE = "(image) => [image.naturalWidth, image.naturalHeight]"
KEPT = """new Promise((done) => {
    const asked = indexedDB.open("footwell");
    asked.onsuccess = () => {
        const all = asked.result.transaction("photos").objectStore("photos").getAll();
        all.onsuccess = () => {
            asked.result.close();
            done(all.result.map((bytes) => new TextDecoder("latin1").decode(bytes)));
        };
    };
})"""
CORNERS = """async (image) => {
    const canvas = document.createElement("canvas");
    canvas.width = canvas.height = 3;
    const pen = canvas.getContext("2d");
    pen.drawImage(image, 0, 0, 3, 3);
    return [pen.getImageData(0, 1, 1, 1).data[0] > 128, pen.getImageData(2, 1, 1, 1).data[0] > 128];
}"""


def at_plug(walk: Walk) -> None:
    """From any view of a job to the half of its plug."""
    walk.tap("More", exact=True)
    walk.tap("Wiring")
    walk.tap(HALF)
    walk.key("Take a photo").wait_for()


def take(page: Page, content: bytes, said: str = "Photo saved on this phone.") -> None:
    page.locator("input[capture]").set_input_files(as_file("plug.png", content))
    expect(page.get_by_text(said)).to_be_visible()


def small(page: Page, count: int) -> None:
    """So many photos stand beside the face, and are drawn."""
    expect(page.locator("img.photo-small")).to_have_count(count)
    sizes = page.locator("img.photo-small").evaluate_all(
        "(all) => Promise.all(all.map((it) => it.decode().then(() => it.naturalWidth)))"
    )
    assert all(sizes)


def back_to_bar(walk: Walk) -> None:
    while not walk.key("Path", exact=True).is_visible():
        walk.tap("Back")


def shared(walk: Walk) -> tuple[str, str]:
    """The job as a link, which says what it leaves out, and as the text of a file."""
    page = walk.page
    walk.tap("More", exact=True)
    walk.tap("Share this job")
    expect(page.get_by_text("A link carries no photos: it leaves out the 2 photos")).to_be_visible()
    link = page.get_by_label("Footwell job").input_value()
    with page.expect_download() as saved:
        walk.tap("Save as a file")
    walk.tap("Back")
    return link, saved.value.path().read_text("utf-8")


def opened_by_link_and_file(page: Page, link: str, file: str) -> None:
    """On another phone: the link's job tells what is missing, the file's shows it."""
    walk = Walk(page, link, lambda name: None)
    page.goto(link)
    expect(page.get_by_text("The 2 photos of this job did not come")).to_be_visible()
    walk.go("Take over as a new job")
    walk.key("Suspects").wait_for()
    at_plug(walk)
    expect(page.locator(".photo-key", has_text="not here")).to_have_count(2)
    back_to_bar(walk)
    walk.tap("More", exact=True)
    walk.tap("Settings")
    page.locator("input[type=file]").set_input_files(
        as_file("job.jsonl", file.encode(), "text/plain")
    )
    expect(page.get_by_text("and 2 photos added from the file")).to_be_visible()
    walk.tap("Back")
    walk.tap("All jobs")
    walk.tap(CIRCUIT)
    walk.key("Suspects").wait_for()
    at_plug(walk)
    small(page, 2)


def erased(walk: Walk) -> None:
    walk.tap("More", exact=True)
    walk.tap("Settings")
    walk.tap("Erase a job or this phone")
    walk.tap(CIRCUIT)
    with walk.page.expect_event("load"):
        walk.tap("Erase this job")
    walk.key("New job").wait_for()


def removed_and_brought_back(walk: Walk) -> None:
    page = walk.page
    page.locator(".photo-key").first.tap()
    walk.go("Remove photo")
    expect(page.get_by_role("heading", name="Photo removed")).to_be_visible()
    walk.go("Bring it back")
    expect(page.locator(".photo-large")).to_be_visible()
    walk.tap("Larger")
    fits(page)
    walk.tap("Whole")
    walk.tap("Back")
    small(page, 2)
    fits(page)


def fits(page: Page) -> None:
    """What stands there can be pressed, read and heard, also with double text."""
    page.evaluate("Promise.all(document.getAnimations().map((turn) => turn.finished))")
    faults = faults_of_size(page) + faults_of_access(page)
    assert [fault for fault in faults if SPOKEN_IN_FULL not in fault] == []
    page.evaluate(TEXT_SIZE, "200%")
    assert faults_of_size(page) == []
    page.evaluate(TEXT_SIZE, "")


def test_photos_of_a_plug_stay_go_along_in_a_file_come_back_by_undo_and_are_erased(
    at_pad: OpenAtPad, new_phone: Callable[..., BrowserContext]
) -> None:
    walk = at_pad()
    page = walk.page
    walk.tap("Back")
    at_plug(walk)
    take(page, png(2400, 1600, busy=True))
    page.reload()
    small(page, 1)
    width, height = page.locator("img.photo-small").evaluate(SIZE)
    assert (width <= 1600, round(width / height, 2)) == (True, 1.5)
    walk.tap("Read it off the old plug")
    take(page, lying_jpeg(page, 800, 600))
    assert page.locator("img.photo-small").evaluate(SIZE) == [600, 800]
    assert page.locator("img.photo-small").evaluate(CORNERS) == [False, True]
    walk.tap("Back")
    small(page, 2)
    kept = page.evaluate(KEPT)
    assert [len(photo) <= 190_000 for photo in kept] == [True, True]
    assert not any(MARKER.decode() in photo for photo in kept)
    removed_and_brought_back(walk)
    back_to_bar(walk)
    walk.tap("More", exact=True)
    walk.tap("Report")
    expect(page.get_by_text(f"2 photos kept with the job: {HALF} (1); old plug")).to_be_visible()
    opened_by_link_and_file(new_phone().new_page(), *shared(walk))
    erased(walk)
    assert page.evaluate(KEPT) == []


NO_DECODER = "delete globalThis.createImageBitmap;"


@pytest.mark.parametrize("script", ["", NO_DECODER], ids=["able", "no decoder"])
def test_what_cannot_become_a_photo_is_said_and_the_check_goes_on(
    at_pad: OpenAtPad, script: str
) -> None:
    walk = at_pad(script)
    page = walk.page
    walk.tap("Back")
    at_plug(walk)
    if script:
        take(page, png(40, 30), "This browser cannot make photos small")
    else:
        take(page, b"<svg xmlns='http://www.w3.org/2000/svg'/>", "this file is no photo")
        take(page, png(40, 30)[:60], "cannot be read here")
        page.locator("input[capture]").dispatch_event("cancel")
        expect(page.get_by_text("If the camera does not open, allow it")).to_be_visible()
    assert page.evaluate(KEPT) == []
    walk.tap("All as they should be")
    walk.key("Keep what I found").wait_for()
