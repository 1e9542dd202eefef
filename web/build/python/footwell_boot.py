"""Find pydantic's compiled core, which the worker loads before Python starts.

The rest of pydantic_core lies in an archive, where Python looks for no shared library.
"""

import importlib.machinery
import importlib.util
import sys
from typing import Any

NAME = "pydantic_core._pydantic_core"
PLACE = (
    "/lib/python3.14/site-packages/pydantic_core/_pydantic_core.cpython-314-wasm32-emscripten.so"
)


class PreloadedCore:
    """Answers for the one module that stands outside the archive."""

    @staticmethod
    def find_spec(name: str, path: Any = None, target: Any = None) -> Any:
        """Return where the module is, or None for every other name."""
        if name != NAME:
            return None
        loader = importlib.machinery.ExtensionFileLoader(name, PLACE)
        return importlib.util.spec_from_file_location(name, PLACE, loader=loader)


sys.meta_path.insert(0, PreloadedCore)


def restored() -> None:
    """Draw a new seed after a start from an image: it would deal the same numbers in every one."""
    if random := sys.modules.get("random"):
        random.seed()
