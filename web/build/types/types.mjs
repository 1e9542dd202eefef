// `npm run types`: write the page's types from the core's models. With --check: only compare.
import { existsSync, readFileSync } from "node:fs";
import { write } from "../files.mjs";
import { fromRoot, VENV_PYTHON } from "../paths.mjs";
import { checkNode, ensureNodeModules } from "../setup/node.mjs";
import { ensureTestPackages } from "../setup/python.mjs";
import { quietly } from "../setup/run.mjs";
import { command, Stop, say } from "../setup/say.mjs";

const TARGET = fromRoot("web", "src", "generated", "messages.ts");
const BANNER = "// Made from the core's models by `npm run types`. Not to be edited.";

async function generated() {
  const { compile } = await import("json-schema-to-typescript");
  const script = fromRoot("web", "build", "types", "schema.py");
  const because = "The core's models could not be read.";
  const schema = JSON.parse(quietly(VENV_PYTHON, [script], { because }));
  const text = await compile(schema, "Calls", {
    additionalProperties: false,
    bannerComment: BANNER,
    maxItems: 0,
    style: { printWidth: 100 },
    unreachableDefinitions: true,
  });
  return withoutOrigins(text);
}

/** The generator says of every type where it was referred to; only the description is of use. */
function withoutOrigins(/** @type {string} */ text) {
  const origin = / \* This (interface|type) was referenced by .*\n \* via the `definition` .*\n/g;
  return text
    .replace(origin, "")
    .replace(/ \*\n \*\//g, " */")
    .replace(/\/\*\*\n \*\/\n/g, "");
}

/** @param {string} fresh */
function compare(fresh) {
  const committed = existsSync(TARGET) ? readFileSync(TARGET, "utf8") : "";
  if (committed === fresh) return say("The page's types are the core's.");
  throw new Stop(
    "web/src/generated/messages.ts differs from the core's models: run `npm run types`.",
  );
}

await command(async () => {
  checkNode();
  ensureNodeModules();
  ensureTestPackages();
  const fresh = await generated();
  if (process.argv.includes("--check")) return compare(fresh);
  write(TARGET, fresh);
  say("Wrote web/src/generated/messages.ts");
});
