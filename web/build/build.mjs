// `npm run build`: the static site, in web/dist.
import { withLock } from "./setup/lock.mjs";
import { checkNode, ensureNodeModules } from "./setup/node.mjs";
import { command, isMain, say } from "./setup/say.mjs";

export async function build() {
  checkNode();
  await withLock(async () => {
    ensureNodeModules();
    // These need the packages that were installed just now.
    const { ensureBase } = await import("./python/base.mjs");
    const { ensureBundle } = await import("./python/core.mjs");
    const { makeSite } = await import("./site/site.mjs");
    const { writeHostFiles } = await import("./serve/hosts.mjs");
    const base = await ensureBase();
    await makeSite(base, await ensureBundle(base));
    writeHostFiles();
  });
  say("The site is in web/dist");
}

if (isMain(import.meta.url)) {
  await command(build);
  // The interpreter of the build keeps the process alive.
  process.exit(0);
}
