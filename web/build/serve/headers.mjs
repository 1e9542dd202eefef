// The headers that the site is to be served with, here and on any other host.
import { extname } from "node:path";

const POLICY = [
  "default-src 'none'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "worker-src 'self'",
  "connect-src 'self'",
  "style-src 'self'",
  "img-src 'self' blob: data:",
  "manifest-src 'self'",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
  "require-trusted-types-for 'script'",
  "trusted-types footwell",
].join("; ");

/** On every response: a worker does not inherit the policy of the page that starts it. */
export const SECURITY = {
  "content-security-policy": POLICY,
  "cross-origin-opener-policy": "same-origin",
  "permissions-policy": "camera=(self), microphone=(), geolocation=(), payment=(), usb=()",
  "referrer-policy": "no-referrer",
  "strict-transport-security": "max-age=31536000",
  "x-content-type-options": "nosniff",
};

/** @type {Record<string, string>} */
export const TYPES = {
  ".css": "text/css; charset=utf-8",
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".mjs": "text/javascript; charset=utf-8",
  ".png": "image/png",
  ".svg": "image/svg+xml",
  ".txt": "text/plain; charset=utf-8",
  ".wasm": "application/wasm",
  ".webmanifest": "application/manifest+json",
  ".whl": "application/zip",
  ".zip": "application/zip",
};

/** A name with a hash in it never changes its content. */
export const forEver = /^\/(assets|python)\//;

/** @param {string} path from the start of the site @returns {Record<string, string>} */
export const headersFor = (path) => ({
  ...SECURITY,
  "content-type": TYPES[extname(path)] ?? "application/octet-stream",
  "cache-control": forEver.test(path) ? "public, max-age=31536000, immutable" : "no-cache",
});
