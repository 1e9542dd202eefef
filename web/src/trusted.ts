// The page's policy refuses script addresses made from text, except those that are let through here.

declare const SCRIPT_FILES: string[];

interface TrustedTypes {
  createPolicy(
    name: string,
    rules: { createScriptURL(url: string): string },
  ): {
    createScriptURL(url: string): string;
  };
}

const isOurs = (url: string) =>
  SCRIPT_FILES.some((file) => new URL(file, document.baseURI).href === url);

function admit(url: string): string {
  if (!isOurs(url)) throw new TypeError(`Not a script of this site: ${url}`);
  return url;
}

const trustedTypes = (globalThis as { trustedTypes?: TrustedTypes }).trustedTypes;
const policy = trustedTypes?.createPolicy("footwell", { createScriptURL: admit });

/** The address of one of our own worker scripts, in the form that the browser asks for. */
export const scriptUrl = (url: URL): string => policy?.createScriptURL(url.href) ?? admit(url.href);
