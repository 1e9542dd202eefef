// Answering the page from what is stored.
import { appCache, interpreterCache } from "./release";
import { worker } from "./scope";

const PAGE = "index.html";

const MISSING = `<!doctype html><html lang="en"><meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1"><title>Footwell</title>
<h1>Footwell cannot start without a network now</h1>
<p>The browser has removed some of the files it had stored. Your jobs are kept apart from them.
Connect to a network once and open this page again.</p></html>`;

const scope = () => worker.registration.scope;

/** The address under which a request is stored: the start of the site is the page. */
function storedUrl(request: Request): string {
  const url = new URL(request.url);
  url.hash = "";
  url.search = "";
  return url.href === scope() ? new URL(PAGE, scope()).href : url.href;
}

/** Our own files first; a page of an earlier release finds its own in the older stores. */
async function stored(url: string): Promise<Response | undefined> {
  for (const name of [appCache, interpreterCache]) {
    const found = await (await caches.open(name)).match(url);
    if (found) return found;
  }
  return caches.match(url);
}

const missingPage = () =>
  new Response(MISSING, {
    status: 503,
    headers: {
      "content-type": "text/html; charset=utf-8",
      "content-security-policy": "default-src 'none'",
    },
  });

async function fromNetwork(request: Request): Promise<Response> {
  if (request.mode !== "navigate") return fetch(request);
  return fetch(request).catch(missingPage);
}

/** Whether this request is for the site's own files. */
export const isOurs = (request: Request) =>
  request.method === "GET" && request.url.startsWith(scope());

export async function serve(request: Request): Promise<Response> {
  return (await stored(storedUrl(request))) ?? fromNetwork(request);
}
