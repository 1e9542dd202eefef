"""What is still missing or doubtful, in plain words, each at its place."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from footwell.sheet.building.closing import Closing, _number
from footwell.sheet.building.loom import Loom


@dataclass(frozen=True, slots=True)
class Problem:
    """`stops`: the sheet cannot be used before it is mended; others can wait, or only tell."""

    element: str
    sentence: str
    stops: bool = False


def problems(loom: Loom, closing: Closing) -> list[Problem]:
    """All of them, those that stop first."""
    found = [
        *_missing(loom),
        *_unfed(loom),
        *_open(loom, closing),
        *_ratings(loom, closing),
        *_colours(loom),
        *(Problem(name, note) for name, note in loom.notes.items()),
    ]
    return sorted(found, key=lambda each: not each.stops)


def _missing(loom: Loom) -> Iterator[Problem]:
    loads = [piece for piece in loom.pieces.values() if piece.load]
    if not loads:
        yield Problem("", "No load yet: put in the lamp, motor or whatever does not work.", True)
    if len(loads) > 12:
        yield Problem(
            loads[12].id, "More than 12 loads: leave out what this fault does not touch.", True
        )
    if sum(p.kind == "switch" for p in loom.pieces.values()) > 8:
        yield Problem("", "More than 8 switches: leave out what this fault does not touch.", True)


def _unfed(loom: Loom) -> Iterator[Problem]:
    for piece in loom.pieces.values():
        for come, _ in piece.ways:
            bare = [t for t in come if t not in piece.fed]
            if piece.what is None or not bare:
                continue
            if bare != list(come):
                words = "has" if len(bare) == 1 else "have"
                yield Problem(piece.id, f"{piece.id}: {', '.join(bare)} {words} no wire yet.")
            elif come == ("86",):
                yield Problem(
                    piece.id,
                    f"{piece.id}: nothing feeds its coil yet, so it could never pull in. Begin at the "
                    f"battery again and let that wire end at 86 of {piece.id}.",
                    True,
                )
            else:
                yield Problem(piece.id, f"{piece.id}: nothing leads to {', '.join(bare)} yet.")


def _open(loom: Loom, closing: Closing) -> Iterator[Problem]:
    for end in loom.ends:
        if closing.is_behind_load(end.point):
            yield Problem(
                loom.owner(end.point),
                f"{loom.place(end.point)} leads nowhere yet. Until it does, an unseen way to earth is "
                "taken.",
            )
        else:
            yield Problem(
                loom.owner(end.point),
                f"{loom.place(end.point)} leads nowhere yet. Until it does, it is left open.",
            )


def _ratings(loom: Loom, closing: Closing) -> Iterator[Problem]:
    for piece in loom.pieces.values():
        rating = _number(piece)
        amps = closing.behind(piece.id) if piece.kind == "fuse" else 0.0
        if rating is not None and amps > rating:
            yield Problem(
                piece.id,
                f"{piece.id} is rated {rating:g} A, and its loads take {amps:.1f} A. Look at the rating and "
                "the loads again.",
            )


def _colours(loom: Loom) -> Iterator[Problem]:
    """One colour twice in a plug is allowed, and told."""
    for plug in loom.plugs.values():
        mine = f"{plug.id}." if not plug.part else f"{plug.part}."
        for which in ("start", "end"):
            seen = Counter(
                w.colour
                for w in loom.wires.values()
                if w.colour and getattr(w, which).startswith(mine)
            )
            for colour, many in seen.items():
                if many > 1:
                    yield Problem(
                        plug.id,
                        f"{plug.id}: {many} wires of {colour} on one side. That may be so; tell them "
                        "apart by their ways.",
                    )
                    return
