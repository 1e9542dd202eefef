"""Storage that the browser refuses is told in a sentence."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from chromium import own_browser
from playwright.sync_api import Playwright
from storage_bugs import Bug, script
from storage_rig import Phone, append, failure, state

NewPhone = Callable[..., Phone]

REFUSED_IS_FINE = Bug("index.ts", "this.state.value = { failed: sentenceOf(fault) };", "")


REFUSALS = {
    "no database at all": "delete Window.prototype.indexedDB; delete window.indexedDB;",
    "opening throws": """
        IDBFactory.prototype.open = () => { throw new DOMException("no", "SecurityError"); };
    """,
}


def storage_is_refused(phone: Phone, refusal: str) -> None:
    tab = phone.tab(refusal)
    assert state(tab) != "opening", "the refusal was not told"
    assert "does not let Footwell store anything" in state(tab)["failed"]
    sentence = failure(tab, "store.append('job', 'note made', { text: 'x' })")
    assert "does not let Footwell store anything" in sentence


@pytest.mark.parametrize("refusal", REFUSALS.values(), ids=REFUSALS.keys())
def test_refused_storage_is_told(phone: NewPhone, refusal: str) -> None:
    storage_is_refused(phone(), refusal)


def test_a_store_that_keeps_a_refusal_to_itself_is_found_out(phone: NewPhone) -> None:
    with pytest.raises(AssertionError, match="was not told"):
        storage_is_refused(phone(REFUSED_IS_FINE), REFUSALS["no database at all"])


def test_a_browser_set_to_keep_no_site_data_is_told(browsers: Playwright, tmp_path: Path) -> None:
    settings = {"profile": {"default_content_setting_values": {"cookies": 2}}}
    (tmp_path / "Default").mkdir()
    (tmp_path / "Default/Preferences").write_text(json.dumps(settings))
    context = own_browser(browsers, tmp_path)
    tab = Phone(context, script()).tab()
    shown = state(tab)
    context.close()
    assert "does not let Footwell store anything" in shown["failed"]


def test_a_newer_release_in_another_tab_is_told(phone: NewPhone) -> None:
    here = phone()
    tab = here.tab()
    append(tab, "job", "before")
    here.blank().evaluate("""() => new Promise((done, fail) => {
        const request = indexedDB.open("footwell", 99);
        request.onsuccess = () => done();
        request.onerror = fail;
    })""")
    assert "A newer Footwell" in failure(tab, "store.append('job', 'note made', { text: 'x' })")
