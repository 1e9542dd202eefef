"""How long a save takes until it is said; the figure is recorded, never asserted."""

from __future__ import annotations

from collections.abc import Callable

from counts import counted
from storage_rig import Phone, texts

SAVES = counted(100, 1_000, 1_000)
TIMED = """async (saves) => {
    const taken = [];
    for (let i = 0; i < saves; i += 1) {
        const begun = performance.now();
        await store.append("job", "note made", { text: `${i}` });
        taken.push(performance.now() - begun);
    }
    return taken.sort((a, b) => a - b)[Math.ceil(saves * 0.99) - 1];
}"""


def test_saves_in_a_row_are_all_kept(
    phone: Callable[..., Phone], record_property: Callable[[str, object], None]
) -> None:
    tab = phone().tab()
    record_property("p99 ms", round(tab.evaluate(TIMED, SAVES), 1))
    record_property("saves", SAVES)
    assert texts(tab, "job") == [str(i) for i in range(SAVES)]
