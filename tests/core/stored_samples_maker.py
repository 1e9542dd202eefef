"""Writes one sample of every format in which jobs and sheets leave a phone, this release's and newer ones.

`npm run samples` calls it. A file that is there is never written again: once a release has made such
files, they must open for ever.
"""

from __future__ import annotations

import hashlib
import json
from pathlib import Path

from footwell.job import links
from footwell.sheet.models import SHEET_FORMAT

from .job_rig import DEVICE, FOLDER, JOB, MINIBUS, MIRRORED, Data, Job, compact, sheet
from .job_road import road_of
from .links_rig import holding
from .sample_photo import JPEG, photographed

FIXTURES = FOLDER.parent
JOB_FILE = FIXTURES / "jobs" / "1.jsonl"
KINDS_FILE = FIXTURES / "jobs" / "1-every-kind.jsonl"
LATER_FILE = FIXTURES / "jobs" / "1-old-plug.jsonl"
"""Kinds of entry that came after the file before."""

ENDS_FILE = FIXTURES / "jobs" / "1-wire-ends.jsonl"
"""Kinds of entry that came after that one, and the engine that was started for one look."""

PHOTO_FILE = FIXTURES / "jobs" / "1-photo.jsonl"
"""The kind that names a photo, and the field that carries it."""

LINK_FILE = FIXTURES / "links" / f"F{links.FORMAT}.txt"
SHEET_FILE = FIXTURES / "sheets" / f"{SHEET_FORMAT}.json"
"""Named by their format."""

NEWER = FIXTURES / "newer"
NEWER_TITLE = "Fan with a photo"
LATER_BODY = '{"text" : "caf\\u00e9",  "later":[1.50,{"deep":null}],"n":12345678901234567890}'
"""JSON that no writer of ours would write in this way."""


def hashed(event: Data) -> Data:
    return event | {"sha256": hashlib.sha256(event["body"].encode()).hexdigest()}


def exported(*jobs: Job, count: int | None = None) -> str:
    """Jobs as the first releases exported them: a heading, an event a line with the hash of its body."""
    rows = [hashed(event) for job in jobs for event in job.events]
    heading = {"footwell": "events", "format": 1, "count": len(rows) if count is None else count}
    return "".join(f"{compact(row)}\n" for row in [heading, *rows])


def every_kind() -> Job:
    """One entry of each kind. What happened is made up; every name is on the sheet."""
    job = Job(MINIBUS).add("sitting begun", engine="off", supply_volts=25.1)
    job.tools("meter", "test lamp", "clamp")
    job.add(
        "story told",
        words="Dead since the switch was changed.",
        dead_now="yes",
        renewed=["S1"],
        rewired=["X2"],
        seen=[{"where": "X2", "what": "green"}],
    )
    job.dead().add("caution passed", hazard="moving fan")
    job.add("sheet edited", changes=[{"element": "W3", "field": "metres", "value": 1.4}])
    listed = {
        "id": "W4",
        "start": "X2.3.a",
        "end": "X1.2.a",
        "colour": "GN/BK",
        "mm2": 2.5,
        "metres": 1.5,
    }
    job.add("wires listed", wires=[listed])
    job.add("place found", inside="W6", what="splice", at="behind the left A-pillar")
    job.add("wiring found", connector="X2", half="a", found=MIRRORED, loose=[])
    mended = {"1": "W2", "2": "W3", "3": "W4", "4": "W5", "5": None, "6": None}
    job.add("wiring corrected", connector="X2", half="a", now=mended)
    job.add("check skipped", check="look X3.1", reason="cannot reach", asked="Look at X3 way 1")
    outcomes = [["In the band", "Points past plug X2."]]
    shown = {
        "goal": "Is there feed?",
        "do": "Red lead on X2.",
        "low": 24.0,
        "high": 25.5,
        "unit": "V",
    }
    shown |= {"outcomes": outcomes, "verdict": "As expected", "release": "0.1.0"}
    job.volts("X2.1.a", 24.9, "2", typed="24.9 V", check="volts X2.1.a earth S1=2", shown=shown)
    job.volts("X4.1.a", 3.0, "2").withdraw(len(job.events))
    job.add("note made", text="The customer waits.")
    job.add("repair done", element="R1", mode="open", what="renewed", note="from stock")
    return job.add("practice begun", faults=[{"element": "M1", "mode": "open"}], wired=[])


def later_kinds() -> Job:
    """A plug that was read before it was looked into, and put right as it had been."""
    job = Job(MINIBUS).tools("meter").add("story told", rewired=["X2"]).dead()
    colours = {"1": "RD/BK", "2": "GN/BK", "3": "GN/WH", "4": "GN/RD", "5": None, "6": "OG"}
    job.add("old plug read", connector="X2", half="a", read_off="old plug", colours=colours)
    job.add("wiring found", connector="X2", half="a", found=MIRRORED, loose=[])
    mended = {"1": "W2", "2": "W4", "3": "W3", "4": "W5", "5": None, "6": "spare OG"}
    job.add("wiring corrected", connector="X2", half="a", now=mended)
    return job.positions("me", p1="runs", p2="runs", p3="runs")


def with_ends() -> Job:
    """A wire that ran to the wrong place and was put back."""
    job = Job(MINIBUS).tools("meter").dead()
    job.add("wire followed", wire="W9", start="X3.3.a", end="E1.1").add("wire put back", wire="W9")
    states = [{"controls": {"S1": "3"}, "load": "M1", "state": "runs"}]
    job.add("positions tried", seen_by="me", engine="on", states=states)
    return job.positions("me", p1="runs", p2="runs", p3="runs")


def with_photos() -> str:
    """A plug photographed from both sides, and the old one; one was removed, and its photo stayed there."""
    job = Job(MINIBUS).tools("meter").dead()
    for half, shows in (("a", "half"), ("b", "half"), ("a", "old plug")):
        job.add("connector photographed", **photographed("X2", half, shows))
    job.withdraw(5)
    events = json.loads(of_another_phone(compact(job.events), "c"))
    lines = [compact(hashed(e) | ({"jpeg": JPEG} if e["n"] in (4, 6) else {})) for e in events]
    content = "".join(f"{line}\n" for line in lines)
    whole = hashlib.sha256(content.encode()).hexdigest()
    heading = {"footwell": "events", "format": 1, "count": len(lines), "sha256": whole}
    return f"{compact(heading)}\n{content}"


def newer_job() -> str:
    """A job file of a later release: entries of unknown kind, format and fields, in unusual spaces."""
    job = Job(MINIBUS).dead().add_text("photo taken", LATER_BODY).add_text("note made", LATER_BODY)
    job.events[0]["body"] = compact({"title": NEWER_TITLE, "sheet": sheet(MINIBUS)})
    first, *rest = [hashed(event) for event in job.events]
    lines = [compact(first)]
    for event in rest:
        text = json.dumps(event | {"format": 7}, separators=(" ,", " : "))
        lines.append(text[:-1] + ', "photo":["ab",1.0], "signed": {"by":"x"} }')
    heading = {"footwell": "events", "format": 1, "count": len(lines), "later": True}
    return "".join(f"{line}\n" for line in [compact(heading), *lines])


def newer_link() -> str:
    """A link of this format with more beside its entries than this release knows."""
    first, *rest = Job(MINIBUS).dead().add_text("photo taken", LATER_BODY).events
    return holding(first, *(event | {"signed": {"by": "x"}} for event in rest), later=[1.50])


def next_format(link: str) -> str:
    return link.replace(f"F{links.FORMAT}.", f"F{links.FORMAT + 1}.", 1)


def of_another_phone(text: str, mark: str) -> str:
    """The same under names of its own: no two samples claim the same number of one phone."""
    return text.replace(DEVICE, mark + DEVICE[1:]).replace(JOB, mark + JOB[1:])


def write_missing(file: Path, text: str) -> None:
    if file.exists():
        return
    file.parent.mkdir(exist_ok=True)
    file.write_text(text, encoding="utf-8")
    print(f"Wrote {file.relative_to(FIXTURES.parent)}")


def write_all() -> None:
    job = road_of(MINIBUS)
    link = links.make(job.stored())
    samples = {
        JOB_FILE: exported(job),
        KINDS_FILE: of_another_phone(exported(every_kind()), "e"),
        LATER_FILE: of_another_phone(exported(later_kinds()), "d"),
        ENDS_FILE: of_another_phone(exported(with_ends()), "b"),
        PHOTO_FILE: with_photos(),
        LINK_FILE: link + "\n",
        SHEET_FILE: json.dumps(sheet(MINIBUS), ensure_ascii=False, indent=2) + "\n",
        NEWER / "job.jsonl": of_another_phone(newer_job(), "f"),
        NEWER / "job-format-2.jsonl": newer_job().replace('"format":1', '"format":2', 1),
        NEWER / "link.txt": newer_link() + "\n",
        NEWER / "link-format-2.txt": next_format(link) + "\n",
        NEWER / "sheet-format-2.json": compact(sheet(MINIBUS) | {"format": SHEET_FORMAT + 1})
        + "\n",
    }
    for file, text in samples.items():
        write_missing(file, text)


if __name__ == "__main__":
    write_all()
