// The page itself and the files that are copied as they are.
import { cpSync, existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { write } from "../files.mjs";
import { NEXT_SITE, WEB } from "../paths.mjs";

/** @param {{ scripts: string[], styles: string[] }} built */
export function writePage({ scripts, styles }) {
  const links = styles.map((path) => `<link rel="stylesheet" href="${path}">`);
  const tags = scripts.map((path) => `<script type="module" src="${path}"></script>`);
  const template = readFileSync(join(WEB, "index.html"), "utf8");
  const page = template
    .replace("<!-- styles -->", links.join("\n    "))
    .replace("<!-- scripts -->", tags.join("\n    "));
  write(join(NEXT_SITE, "index.html"), page);
}

/** Everything below web/public stands in the site under the same name. */
export function copyPublic() {
  const folder = join(WEB, "public");
  if (existsSync(folder)) cpSync(folder, NEXT_SITE, { recursive: true });
}
