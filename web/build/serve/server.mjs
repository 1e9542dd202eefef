// A small server for the built site, on this machine only.
import { readFile, stat } from "node:fs/promises";
import { createServer } from "node:http";
import { join, normalize } from "node:path";
import { promisify } from "node:util";
import { gzip } from "node:zlib";
import { sha256, short } from "../files.mjs";
import { headersFor } from "./headers.mjs";

const compress = promisify(gzip);
const HOST = "127.0.0.1";

/** @typedef {{ etag: string, plain: Buffer, packed: Buffer }} Stored */

/** Reads each file once, and again when it has changed. */
class Files {
  /** @type {Map<string, { stamp: string, file: Promise<Stored> }>} */
  #known = new Map();
  #folder;

  /** @param {string} folder */
  constructor(folder) {
    this.#folder = folder;
  }

  /** @param {string} path @returns {Promise<Stored>} rejects if there is no such file */
  async get(path) {
    const full = join(this.#folder, normalize(path));
    const { mtimeMs, size, ino } = await stat(full);
    const stamp = `${mtimeMs} ${size} ${ino}`;
    const known = this.#known.get(full);
    if (known?.stamp === stamp) return known.file;
    const file = load(full);
    this.#known.set(full, { stamp, file });
    return file;
  }
}

/** @param {string} full @returns {Promise<Stored>} */
async function load(full) {
  const plain = await readFile(full);
  const packed = await compress(plain);
  return { etag: `"${short(sha256(plain))}"`, plain, packed };
}

/** @param {string} url */
function pathOf(url) {
  const path = decodeURIComponent(new URL(url, "http://localhost").pathname);
  return path.endsWith("/") ? `${path}index.html` : path;
}

/**
 * @param {import("node:http").IncomingMessage} request
 * @param {Stored} file
 */
function bodyFor(request, file) {
  const mayPack = /\bgzip\b/.test(String(request.headers["accept-encoding"]));
  const isWorthIt = file.packed.length < file.plain.length;
  return mayPack && isWorthIt
    ? { body: file.packed, extra: { "content-encoding": "gzip", vary: "accept-encoding" } }
    : { body: file.plain, extra: { vary: "accept-encoding" } };
}

/**
 * @param {Files} files
 * @param {import("node:http").IncomingMessage} request
 * @param {import("node:http").ServerResponse} response
 */
async function respond(files, request, response) {
  const path = pathOf(request.url ?? "/");
  const file = await files.get(path);
  const { body, extra } = bodyFor(request, file);
  const headers = { ...headersFor(path), ...extra, etag: file.etag };
  if (request.headers["if-none-match"] === file.etag) return response.writeHead(304, headers).end();
  response.setHeader("content-length", body.length);
  response.writeHead(200, headers);
  return response.end(request.method === "HEAD" ? undefined : body);
}

/** @param {import("node:http").ServerResponse} response @param {number} status @param {string} text */
const refuse = (response, status, text) =>
  response.writeHead(status, headersFor("/text.txt")).end(`${text}\n`);

/**
 * @param {string} folder
 * @param {(line: { path: string, status: number, bytes: number }) => void} [log]
 */
const listener = (folder, log) => {
  const files = new Files(folder);
  return (
    /** @type {import("node:http").IncomingMessage} */ request,
    /** @type {import("node:http").ServerResponse} */ response,
  ) => {
    response.on("finish", () => log?.(about(request, response)));
    if (!["GET", "HEAD"].includes(request.method ?? "")) return refuse(response, 405, "Only GET.");
    return respond(files, request, response).catch(() => refuse(response, 404, "No such file."));
  };
};

/**
 * @param {import("node:http").IncomingMessage} request
 * @param {import("node:http").ServerResponse} response
 */
const about = (request, response) => ({
  path: request.url ?? "",
  status: response.statusCode,
  bytes: Number(response.getHeader("content-length") ?? 0),
});

/**
 * @param {string} folder
 * @param {number} port 0 takes a free one
 * @param {Parameters<typeof listener>[1]} [log]
 * @returns {Promise<string>} the address; rejects if the port is taken
 */
export function startServer(folder, port, log) {
  const server = createServer(listener(folder, log));
  return new Promise((resolve, reject) => {
    server.on("error", reject);
    server.listen(port, HOST, () => {
      const { port: taken } = /** @type {import("node:net").AddressInfo} */ (server.address());
      resolve(`http://${HOST}:${taken}/`);
    });
  });
}
