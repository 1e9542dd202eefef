// The headers of the site as files for the usual hosts of static files, made from the same table.
import { join } from "node:path";
import { filesBelow, write } from "../files.mjs";
import { fromRoot, SITE } from "../paths.mjs";
import { forEver, headersFor, SECURITY, TYPES } from "./headers.mjs";

const HOSTS = fromRoot("web", "hosts");
const CACHE = "cache-control";
const title = (/** @type {string} */ name) => name.replace(/\b[a-z]/g, (x) => x.toUpperCase());
const security = Object.entries(SECURITY).map(([name, value]) => [title(name), value]);
const seldom = headersFor("/index.html")[CACHE];
const hashed = headersFor("/assets/x")[CACHE];

/** `_headers`: such hosts join what several rules say, so each path gets its caching from one. */
function underscoreHeaders() {
  const tops = new Set(filesBelow(SITE).map((path) => path.replace(/\/.*/, "/*")));
  const rule = (/** @type {string} */ path, /** @type {string[][]} */ fields) =>
    [path, ...fields.map(([name, value]) => `  ${name}: ${value}`)].join("\n");
  const caching = ["", ...tops].map((top) => {
    const path = `/${top}`;
    return rule(path, [["Cache-Control", headersFor(path)[CACHE] ?? ""]]);
  });
  return `${[rule("/*", security), ...caching].join("\n")}\n`;
}

/** `.htaccess`, with mod_headers. */
function htaccess() {
  const always = security.map(([name, value]) => `Header always set ${name} "${value}"`);
  const added = Object.entries(TYPES).map(([ending, type]) => `AddType "${type}" ${ending}`);
  const caching = [
    `Header always set Cache-Control "${seldom}"`,
    `<If "%{REQUEST_URI} =~ m#${forEver.source.replace("^", "").replaceAll("\\/", "/")}#">`,
    `  Header always set Cache-Control "${hashed}"`,
    "</If>",
  ];
  return `${[...always, ...added, ...caching].join("\n")}\n`;
}

/** Locations to include in a server block; each repeats all, since an inner one inherits none. */
function nginx() {
  const always = security.map(([name, value]) => `  add_header ${name} "${value}" always;`);
  const place = (/** @type {string} */ path, /** @type {string | undefined} */ caching) =>
    [`location ${path} {`, ...always, `  add_header Cache-Control "${caching}" always;`, "}"].join(
      "\n",
    );
  const named = Object.entries(TYPES).map(
    ([ending, type]) => `  ${type.split(";")[0]} ${ending.slice(1)};`,
  );
  const known = ["types {", ...named, "}", "charset utf-8;"];
  return `${[...known, place("/", seldom), place("~ /(assets|python)/", hashed)].join("\n")}\n`;
}

/** To be laid beside the built site, or into it after it was copied to its host. */
export function writeHostFiles() {
  write(join(HOSTS, "_headers"), underscoreHeaders());
  write(join(HOSTS, ".htaccess"), htaccess());
  write(join(HOSTS, "nginx.conf"), nginx());
}
