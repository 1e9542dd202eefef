"""`python -m footwell`."""

from __future__ import annotations

import sys

from footwell.cli import main

if __name__ == "__main__":
    sys.exit(main())
