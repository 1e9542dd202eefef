"""Make the archive of compiled files that the browser's Python starts from.

Runs inside Pyodide under Node, so that the compiled files carry the browser's magic number.
"""

import ast
import fnmatch
import importlib.util
import marshal
import tomllib
import zipfile
from collections.abc import Iterable, Iterator
from pathlib import Path, PurePosixPath
from typing import Any

STDLIB = Path("/lib/python314.zip")
PACKAGES = Path("/lib/python3.14/site-packages")
UNCHECKED_HASH = 0b01  # flags of a compiled file that is taken without asking for its source
DOCUMENTED = (ast.Module, ast.ClassDef, ast.FunctionDef, ast.AsyncFunctionDef)
SAME_DATE = (1980, 1, 1, 0, 0, 0)  # the same sources give the same archive, byte for byte


def without_docstrings(source: bytes, name: str) -> ast.Module:
    """Return the tree of a source file without the texts that only people read.

    Python's own switch for this would also drop every assertion.
    """
    tree = ast.parse(source, name)
    for node in ast.walk(tree):
        if isinstance(node, DOCUMENTED) and ast.get_docstring(node, clean=False) is not None:
            node.body = node.body[1:] or [ast.copy_location(ast.Pass(), node.body[0])]
    return tree


def compiled(source: bytes, name: str) -> bytes:
    """Return the content of the .pyc file for a source file."""
    code = compile(without_docstrings(source, name), name, "exec", dont_inherit=True)
    head = importlib.util.MAGIC_NUMBER + UNCHECKED_HASH.to_bytes(4, "little")
    return head + importlib.util.source_hash(source) + marshal.dumps(code)


def add(archive: zipfile.ZipFile, name: str, content: bytes) -> None:
    """Store one file; compressed, since many hosts do not compress archives on the way."""
    entry = zipfile.ZipInfo(name, SAME_DATE)
    entry.compress_type = zipfile.ZIP_DEFLATED
    archive.writestr(entry, content, compresslevel=9)


def add_all(archive: zipfile.ZipFile, files: Iterable[tuple[str, bytes]]) -> None:
    """Store sources compiled and everything else as it is."""
    for name, content in sorted(files):
        if name.endswith(".py"):
            add(archive, f"{name}c", compiled(content, name))
        else:
            add(archive, name, content)


def is_denied(name: str, rules: list[str]) -> bool:
    """Tell whether the last rule that matches a path leaves it out; "!" takes a path back in."""
    denied = False
    for rule in rules:
        if fnmatch.fnmatchcase(name, rule.removeprefix("!")):
            denied = not rule.startswith("!")
    return denied


def stdlib_files() -> Iterator[tuple[str, bytes]]:
    """Yield the files of the standard library."""
    with zipfile.ZipFile(STDLIB) as archive:
        for name in archive.namelist():
            if not name.endswith("/"):
                yield name, archive.read(name)


def folder_files(folder: Path, prefix: str = "") -> Iterator[tuple[str, bytes]]:
    """Yield the files of a folder of packages, without metadata and shared libraries."""
    for path in folder.rglob("*"):
        name = path.relative_to(folder).as_posix()
        unwanted = ".dist-info/" in name or "__pycache__" in name or path.suffix in (".so", ".pyc")
        if path.is_file() and not unwanted:
            yield prefix + name, path.read_bytes()


def wanted(files: Iterable[tuple[str, bytes]], rules: list[str]) -> list[tuple[str, bytes]]:
    """Return the files that the rules do not leave out."""
    return [(name, content) for name, content in files if not is_denied(name, rules)]


def write_base(target: str, boot: str, rules: list[str]) -> None:
    """Write standard library, installed packages and the module that the worker starts with."""
    files = wanted([*stdlib_files(), *folder_files(PACKAGES)], rules)
    with zipfile.ZipFile(target, "w") as archive:
        add_all(archive, [*files, (Path(boot).name, Path(boot).read_bytes())])


def write_bundle(base: str, core: str, target: str, rules: list[str]) -> None:
    """Write the base with the core added to it."""
    files = wanted(folder_files(Path(core), "footwell/"), rules)
    Path(target).write_bytes(Path(base).read_bytes())
    with zipfile.ZipFile(target, "a") as archive:
        refuse_missing(files, set(archive.namelist()))
        add_all(archive, files)


def write_wheel(core: str, pyproject: str, folder: str) -> str:
    """Write the core as a wheel of sources and return its file name."""
    project = tomllib.loads(Path(pyproject).read_text())["project"]
    stem = f"{project['name']}-{project['version']}"
    files = [*folder_files(Path(core), "footwell/"), *metadata(project, f"{stem}.dist-info")]
    record = "".join(f"{name},,\n" for name, _ in files)
    name = f"{stem}-py3-none-any.whl"
    with zipfile.ZipFile(Path(folder, name), "w") as archive:
        for path, content in [*files, (f"{stem}.dist-info/RECORD", record.encode())]:
            add(archive, path, content)
    return name


def metadata(project: dict[str, Any], folder: str) -> Iterator[tuple[str, bytes]]:
    """Yield the descriptions that an installer of wheels asks for."""
    needs = "".join(f"Requires-Dist: {need}\n" for need in project["dependencies"])
    about = f"Metadata-Version: 2.1\nName: {project['name']}\nVersion: {project['version']}\n"
    yield f"{folder}/METADATA", (about + needs).encode()
    tags = "Wheel-Version: 1.0\nGenerator: footwell\nRoot-Is-Purelib: true\nTag: py3-none-any\n"
    yield f"{folder}/WHEEL", tags.encode()


def refuse_missing(files: Iterable[tuple[str, bytes]], there: set[str]) -> None:
    """Raise ImportError if the core imports a module that the base leaves out."""
    for name, content in files:
        if name.endswith(".py"):
            for module in imported(content, name):
                if is_left_out(module, there):
                    raise ImportError(
                        f"py/{name} imports {module}, which the bundle leaves out: "
                        "take it off web/build/python/left_out.txt"
                    )


def imported(source: bytes, name: str) -> Iterator[str]:
    """Yield the modules from outside the package that a source file names."""
    for node in ast.walk(ast.parse(source, name)):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.level == 0 and node.module:
            yield node.module


def is_left_out(module: str, there: set[str]) -> bool:
    """Tell whether a module exists here in the build but not in the archive."""
    path = PurePosixPath(*module.split("."))
    kept = f"{path}.pyc" in there or f"{path}/__init__.pyc" in there
    if kept or module.split(".")[0] == "footwell":
        return False
    spec = importlib.util.find_spec(module)
    return spec is None or bool(spec.origin and spec.origin.startswith(str(STDLIB)))
