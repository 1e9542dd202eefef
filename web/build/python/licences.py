"""Read from wheels what they are, who may use them, and what is compiled into them.

Runs inside Pyodide under Node, in the build.
"""

import json
import zipfile
from email.message import Message
from email.parser import Parser
from pathlib import Path


def notice(wheel: Path) -> dict[str, str]:
    """Return name, version, licence and licence text of one wheel."""
    with zipfile.ZipFile(wheel) as archive:
        about = metadata(archive)
        return {
            "name": about["Name"],
            "version": about["Version"],
            "licence": about["License-Expression"] or about["License"],
            "text": "\n".join([*texts(archive), *crates(archive)]),
        }


def metadata(archive: zipfile.ZipFile) -> Message:
    """Return the wheel's own description."""
    name = next(n for n in archive.namelist() if n.endswith(".dist-info/METADATA"))
    return Parser().parsestr(archive.read(name).decode())


def texts(archive: zipfile.ZipFile) -> list[str]:
    """Return the texts of the licences."""
    names = [n for n in archive.namelist() if ".dist-info/licenses/" in n]
    return [archive.read(name).decode() for name in sorted(names)]


def crates(archive: zipfile.ZipFile) -> list[str]:
    """Return a line for each library that the wheel's bill of materials lists."""
    lines = []
    for name in archive.namelist():
        if name.endswith(".cyclonedx.json"):
            for part in json.loads(archive.read(name)).get("components", []):
                lines.append(f"  {part['name']} {part.get('version', '')}: {licence_of(part)}")
    return ["\nCompiled into it:", *sorted(lines)] if lines else []


def licence_of(part: dict[str, list[dict[str, object]]]) -> str:
    """Return the licence of an entry of a bill of materials, as an expression."""
    names = []
    for item in part.get("licenses", []):
        licence = item.get("license")
        by_id = licence.get("id") or licence.get("name") if isinstance(licence, dict) else None
        names.append(str(item.get("expression") or by_id))
    return " AND ".join(names) or "not stated"


def write_notices(wheels: list[str], target: str) -> None:
    """Write the notices of all wheels as JSON."""
    Path(target).write_text(json.dumps([notice(Path(wheel)) for wheel in wheels]))
