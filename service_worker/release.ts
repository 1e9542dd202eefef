// What the build knows of the release that this worker keeps.

export interface ListedFile {
  /** Relative to the site. */
  path: string;
  sha256: string;
  bytes: number;
  /** Part of the interpreter, which most releases have in common. */
  shared: boolean;
}

interface Release {
  release: string;
  interpreter: string;
  files: ListedFile[];
}

declare const RELEASE: Release;

export const { release, files } = RELEASE;

export const APP = "footwell-app-";
export const INTERPRETER = "footwell-interpreter-";
export const appCache = APP + release;
export const interpreterCache = INTERPRETER + RELEASE.interpreter;

export const cacheOf = (file: ListedFile) => (file.shared ? interpreterCache : appCache);

/** A page holds this lock while it is open. */
export const lockOf = (name: string) => `footwell-release-${name}`;
