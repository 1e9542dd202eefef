// Where things lie. Everything that a build makes is under the git-ignored folders named here.

import { join } from "node:path";
import { fileURLToPath } from "node:url";

export const ROOT = fileURLToPath(new URL("../..", import.meta.url));

/** @param {string[]} parts */
export const fromRoot = (...parts) => join(ROOT, ...parts);

export const CACHE = fromRoot(".cache");
export const VENV = fromRoot(".venv");
const windows = process.platform === "win32";
export const VENV_PYTHON = windows
  ? join(VENV, "Scripts", "python.exe")
  : join(VENV, "bin", "python");
export const SITE = fromRoot("web", "dist");
export const NEXT_SITE = fromRoot("web", "dist.next");
export const WEB = fromRoot("web");
export const CORE = fromRoot("py", "footwell");
export const PYODIDE = fromRoot("node_modules", "pyodide");
