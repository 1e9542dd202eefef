// The parts of the test run, each with the command that runs it.
import { mkdirSync, rmSync } from "node:fs";
import { availableParallelism } from "node:os";
import { dirname, join } from "node:path";
import { filesBelow } from "../../web/build/files.mjs";
import { CACHE, fromRoot, VENV_PYTHON } from "../../web/build/paths.mjs";
import { openly } from "../../web/build/setup/run.mjs";
import { buildNodeTests } from "./node_tests.mjs";
import { countsOf } from "./report.mjs";

/** @typedef {import("./report.mjs").Counts} Counts */
/** @typedef {{ name: string, run: () => Promise<Counts> }} Part */

const CONFIG = "py/pyproject.toml";
const PYTHON_SOURCES = ["py", "tests", "web/build"];
/** Colours belong on a terminal, not into a file. */
const PLAIN = process.stdout.isTTY ? [] : ["--colors=off"];
/** The core's own types are held to the strictest rules; so are the scripts of the build. */
const TYPED = ["py/footwell", "web/build/python", "web/build/types"];

/** @param {string} name @param {string[][]} commands each a program with its arguments @returns {Part} */
const check = (name, commands) => ({
  name,
  run: async () => {
    let failed = 0;
    for (const [program = "", ...args] of commands) failed += (await openly(program, args)) ? 1 : 0;
    return { passed: commands.length - failed, failed, skipped: 0 };
  },
});

/** @param {string[]} args */
const python = (...args) => [VENV_PYTHON, "-m", ...args];

/** @param {string} tool @param {string[]} args */
const nodeTool = (tool, ...args) => [fromRoot("node_modules", ".bin", tool), ...args];

const checks = () => [
  check("ruff", [
    python("ruff", "check", "-q", "--config", CONFIG, ...PYTHON_SOURCES),
    python("ruff", "format", "-q", "--check", "--config", CONFIG, ...PYTHON_SOURCES),
  ]),
  check("mypy", [python("mypy", "--config-file", CONFIG, ...TYPED)]),
  check("biome", [nodeTool("biome", "ci", ...PLAIN, "--max-diagnostics=50", ".")]),
  check("tsc", [nodeTool("tsc", "-p", "."), nodeTool("tsc", "-p", "service_worker")]),
  check("page types", [[process.execPath, "web/build/types/types.mjs", "--check"]]),
];

const report = (/** @type {string} */ name) => join(CACHE, "reports", `${name}.xml`);

/** @param {string} name @param {string[]} args @returns {Part} */
const pytest = (name, ...args) => ({
  name,
  run: async () => {
    rmSync(report(name), { force: true });
    const common = ["pytest", "-q", "-c", CONFIG, "--rootdir", ".", `--junitxml=${report(name)}`];
    const [program = "", ...rest] = python(...common, ...args);
    return countsOf(report(name), await openly(program, rest));
  },
});

/** Parts that take minutes: their tests are shared out among processes, one test after the other. */
const LONG = ["core", "parity", "browser"];

/** A browser's test waits for much of its time, so there is room for one more. @param {string} folder */
function sharedOut(folder) {
  const inBrowser = folder === "browser";
  const processes = availableParallelism() + (inBrowser ? 1 : 0);
  return ["-n", String(processes), "--maxschedchunk=1", ...(inBrowser ? ["--draw"] : [])];
}

/** Every folder of tests that holds tests of Python is a part of its own; the long ones come last. */
function pythonFolders() {
  const files = filesBelow(fromRoot("tests"), (path) => /(^|\/)test_\w+\.py$/.test(path));
  const folders = [...new Set(files.map((path) => path.split("/")[0] ?? ""))].sort();
  return folders.sort((a, b) => LONG.indexOf(a) - LONG.indexOf(b));
}

/** @param {string} folder */
const pythonPart = (folder) =>
  pytest(folder, ...(LONG.includes(folder) ? sharedOut(folder) : []), join("tests", folder));

/** @returns {Part} */
const nodeTests = () => ({
  name: "page",
  run: async () => {
    rmSync(report("page"), { force: true });
    mkdirSync(dirname(report("page")), { recursive: true });
    const files = await buildNodeTests();
    const toFile = ["--test-reporter=junit", `--test-reporter-destination=${report("page")}`];
    const toScreen = ["--test-reporter=spec", "--test-reporter-destination=stdout"];
    const code = await openly(process.execPath, ["--test", ...toFile, ...toScreen, ...files]);
    return countsOf(report("page"), code);
  },
});

/** @returns {Part[]} */
export const allParts = () => [
  ...checks(),
  pytest("examples", "--doctest-modules", "py/footwell"),
  nodeTests(),
  ...pythonFolders().map(pythonPart),
];
