"""A connection that the browser takes away is opened again, and nothing is lost or doubled."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from counts import counted
from storage_bugs import Bug
from storage_rig import Phone, adopt, append, events, failure, foreign, texts

NewPhone = Callable[..., Phone]

NOT_REPEATED = Bug("database.ts", "if (!isLostConnection(fault)) throw", "throw")
REPEATED_BLINDLY = Bug("append.ts", "(again && (await alreadyStored(tx, drafts))) ||", "")
REPEATED_FOR_EVER = Bug(
    "database.ts",
    "return this.useAgain(work);",
    "return this.use(work);",
)


CLOSE_NOW_AND_THEN = """(seed) => {
    const original = IDBDatabase.prototype.transaction;
    let last;
    IDBDatabase.prototype.transaction = function (...arguments_) {
        last = { db: this, tx: original.apply(this, arguments_) };
        return last.tx;
    };
    let state = seed;
    const chance = () => (state = (state * 48271) % 2147483647) / 2147483647;
    globalThis.losses = 0;
    let quiet = 0;
    steps.at = (step) => {
        quiet -= 1;
        // At most one loss in a save: a second in a row may be told instead of repeated.
        if (quiet > 0 || chance() > 0.1 || ["complete", "witness written"].includes(step)) return;
        quiet = 14;
        losses += 1;
        last?.db.close();
        if (chance() < 0.5 && step !== "asked" && step !== "hashed" && step !== "others told") {
            last?.tx.abort();
        }
    };
}"""


def connection_closes_now_and_then(phone: Phone, saves: int) -> None:
    tab = phone.tab()
    tab.evaluate(CLOSE_NOW_AND_THEN, 11)
    words = [str(i) for i in range(saves)]
    refused = tab.evaluate(
        """async (words) => {
            let refused = 0;
            for (const text of words) {
                await store.append("job", "note made", { text }).catch(() => { refused += 1; });
            }
            return refused;
        }""",
        words,
    )
    assert tab.evaluate("losses") > saves / 20
    assert refused == 0, "a lost connection was not repeated"
    assert texts(tab, "job") == words
    assert [event["n"] for event in events(tab, "job")] == list(range(1, saves + 1))


def test_saves_go_on_when_the_connection_is_closed_at_random(phone: NewPhone) -> None:
    connection_closes_now_and_then(phone(), counted(250, 1_000, 10_000))


def test_a_store_that_gives_up_at_once_is_found_out(phone: NewPhone) -> None:
    with pytest.raises(AssertionError, match="was not repeated"):
        connection_closes_now_and_then(phone(NOT_REPEATED), 100)


def the_answer_to_a_save_is_lost(phone: Phone) -> None:
    tab = phone.tab()
    append(tab, "job", "twin")
    tab.evaluate("loseConnection('complete', 1)")
    [first, second] = append(tab, "job", "twin", "twin")
    assert [first["n"], second["n"]] == [2, 3]
    assert texts(tab, "job") == ["twin"] * 3


def test_a_save_whose_answer_was_lost_is_not_stored_twice(phone: NewPhone) -> None:
    the_answer_to_a_save_is_lost(phone())


def test_a_save_repeated_blindly_is_found_out(phone: NewPhone) -> None:
    with pytest.raises(AssertionError):
        the_answer_to_a_save_is_lost(phone(REPEATED_BLINDLY))


def the_answer_to_an_adoption_is_lost(phone: Phone) -> None:
    tab = phone.tab()
    tab.evaluate("loseConnection('complete', 1)")
    taken = adopt(tab, "taken", [foreign(n, "note made", '{"text":"twin"}') for n in (1, 2)])
    assert [event["n"] for event in taken] == [1, 2]
    assert texts(tab, "taken") == ["twin"] * 2


def test_a_job_taken_over_whose_answer_was_lost_is_not_stored_twice(phone: NewPhone) -> None:
    the_answer_to_an_adoption_is_lost(phone())


def test_a_job_taken_over_again_blindly_is_found_out(phone: NewPhone) -> None:
    with pytest.raises(AssertionError):
        the_answer_to_an_adoption_is_lost(phone(REPEATED_BLINDLY))


def test_a_fault_of_the_code_is_told_as_it_is_and_not_as_a_lost_connection(phone: NewPhone) -> None:
    assert failure(phone().tab(), "store.events(NaN)").startswith("DataError: ")


def the_connection_is_lost_twice(phone: Phone) -> None:
    tab = phone.tab()
    append(tab, "job", "before")
    tab.evaluate("loseConnection('number taken', 2)")
    sentence = failure(tab, "store.append('job', 'note made', { text: 'lost' })")
    assert sentence.startswith("StorageProblem: Not saved: the browser closed the store twice")
    assert texts(tab, "job") == ["before"]
    append(tab, "job", "after")
    assert texts(tab, "job") == ["before", "after"]


def test_a_connection_lost_twice_in_a_row_is_told_and_nothing_is_half_stored(
    phone: NewPhone,
) -> None:
    the_connection_is_lost_twice(phone())


def test_a_store_that_never_tells_is_found_out(phone: NewPhone) -> None:
    with pytest.raises(AssertionError):
        the_connection_is_lost_twice(phone(REPEATED_FOR_EVER))
