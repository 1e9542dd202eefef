// Starting other programs.
import { spawn, spawnSync } from "node:child_process";
import { ROOT } from "../paths.mjs";
import { Stop } from "./say.mjs";

/**
 * Run a program and wait; its output is kept and shown only if it fails.
 * @param {string} program
 * @param {string[]} args
 * @param {{ because?: string, env?: NodeJS.ProcessEnv }} [options] `because`: what to say if it fails
 * @returns {string} what it printed
 */
export function quietly(program, args, { because, env } = {}) {
  const result = tried(program, args, env);
  if (result.ok) return result.output;
  throw new Stop(`${because ?? `${program} ${args.join(" ")} failed.`}\n${result.output}`);
}

/**
 * Run a program that may fail.
 * @param {string} program
 * @param {string[]} args
 * @param {NodeJS.ProcessEnv} [env]
 */
export function tried(program, args, env = process.env) {
  const result = spawnSync(program, args, { cwd: ROOT, env, encoding: "utf8", maxBuffer: 1 << 26 });
  const output = `${result.stdout ?? ""}${result.stderr ?? ""}${result.error?.message ?? ""}`;
  return { ok: result.status === 0, output };
}

/**
 * Run a program whose output goes straight to the terminal.
 * @param {string} program
 * @param {string[]} args
 * @param {NodeJS.ProcessEnv} [env]
 * @returns {Promise<number>} its exit code
 */
export function openly(program, args, env = process.env) {
  return new Promise((resolve) => {
    const child = spawn(program, args, { cwd: ROOT, env, stdio: ["ignore", "inherit", "inherit"] });
    child.on("error", () => resolve(127));
    child.on("close", (code) => resolve(code ?? 1));
  });
}
