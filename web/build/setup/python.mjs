// A Python environment of the project's own, in a git-ignored folder.
import { existsSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { hashOfFiles, write } from "../files.mjs";
import { CACHE, fromRoot, VENV, VENV_PYTHON } from "../paths.mjs";
import { PINS_FILE, pythonPins, wheelVersion } from "../python/pins.mjs";
import { installDebian } from "./debian.mjs";
import { quietly, tried } from "./run.mjs";
import { Stop, say } from "./say.mjs";

const OLDEST = "3.11";
const CANDIDATES = ["python3", "python3.14", "python3.13", "python3.12", "python3.11", "python"];
/** Test packages that are installed without their dependencies. */
const ALONE = fromRoot("py", "test_alone.txt");
const IS_NEW_ENOUGH = `import sys; sys.exit(sys.version_info < (${OLDEST.replace(".", ", ")}))`;

export function systemPython() {
  const found = CANDIDATES.find((name) => tried(name, ["-c", IS_NEW_ENOUGH]).ok);
  if (found) return found;
  const present = CANDIDATES.map((name) => tried(name, ["--version"])).find((answer) => answer.ok);
  const seen = present ? `Only ${present.output.trim()} was found.` : "No Python was found.";
  throw new Stop(
    `Footwell needs Python ${OLDEST} or newer. ${seen} On Debian: sudo apt-get install python3 python3-venv`,
  );
}

/** @param {string} python */
function makeVenv(python) {
  rmSync(VENV, { recursive: true, force: true });
  if (!tried(python, ["-c", "import ensurepip, venv"]).ok) {
    installDebian(["python3-venv"], "to keep Footwell's Python packages apart from the system's");
  }
  quietly(python, ["-m", "venv", VENV], {
    because: "The Python environment in .venv could not be made.",
  });
}

const venvWorks = () =>
  existsSync(VENV_PYTHON) && tried(VENV_PYTHON, ["-m", "pip", "--version"]).ok;

export function ensureVenv() {
  if (venvWorks()) return;
  say("Making the Python environment in .venv");
  makeVenv(systemPython());
}

/** @param {string[]} args @param {string} because */
export const pip = (args, because) =>
  quietly(VENV_PYTHON, ["-m", "pip", "--disable-pip-version-check", ...args], { because });

/** The tests use the same pydantic as the browser. */
function constraintsFile() {
  const path = join(CACHE, "constraints.txt");
  const { wheels } = pythonPins();
  const lines = ["pydantic", "pydantic_core"].map(
    (name) => `${name}==${wheelVersion(wheels, name)}`,
  );
  write(path, `${lines.join("\n")}\n`);
  return path;
}

/** Install the core, editable, with what its tests need; does nothing when that is done already. */
export function ensureTestPackages() {
  ensureVenv();
  const stamp = join(VENV, "footwell-installed");
  const wanted = hashOfFiles([fromRoot("py", "pyproject.toml"), ALONE, PINS_FILE]);
  if (existsSync(stamp) && readFileSync(stamp, "utf8") === wanted) return;
  say("Installing the Python packages for the tests");
  const failed = "The Python packages for the tests could not be installed; is there a network?";
  pip(["install", "-q", "-e", `${fromRoot("py")}[test]`, "-c", constraintsFile()], failed);
  pip(["install", "-q", "--no-deps", "-r", ALONE], failed);
  writeFileSync(stamp, wanted);
}
