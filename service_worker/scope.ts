// The global scope under its own type: the compiler knows only that of workers in general.
export const worker = globalThis as unknown as ServiceWorkerGlobalScope;
