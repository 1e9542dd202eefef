/** Small pictures that stand beside a word, never alone. */

const PATHS = {
  now: "M12 2 V8 M12 16 V22 M12 8 a4 4 0 1 0 .01 0",
  circuit: "M4 3 V9 H14 V21 M14 9 H20 V15 M2 3 H6 M10 21 H18",
  suspects: "M12 3 V21 M7 6 H17 M9 11 H15 M7 16 H17",
  path: "M6 4 V20 M6 5 h.01 M11 5 H20 M11 12 H20 M11 19 H20",
  more: "M4 6 H20 M4 12 H20 M4 18 H20",
  delete: "M9 5 H21 V19 H9 L3 12 Z M12 9 L18 15 M18 9 L12 15",
  fits: "M3 12 L9 18 L21 5",
  differs: "M3 8 H21 M3 16 H21 M17 3 L7 21",
  noted: "M12 5 a7 7 0 1 0 .01 0",
} as const;

export type IconName = keyof typeof PATHS;

export function Icon({ name }: { name: IconName }) {
  return (
    <svg class="icon" viewBox="0 0 24 24" width="24" height="24" aria-hidden="true">
      <path d={PATHS[name]} />
    </svg>
  );
}
