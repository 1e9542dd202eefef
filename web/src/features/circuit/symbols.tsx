/** Symbols in the family of IEC 60617, drawn upright in one grid square around their middle. */

import type { ComponentChildren } from "preact";

const BOX = "M-.12 -.3 H.12 V.3 H-.12 Z";
const UP_DOWN = "M0 -.5 V-.3 M0 .3 V.5";
const CIRCLE = "M.28 0 A.28 .28 0 1 1 -.28 0 A.28 .28 0 1 1 .28 0 Z";
const ROUND_ENDS = "M0 -.5 V-.28 M0 .28 V.5";

/** Outline paths by kind of part; a kind without one is a box with its name. */
const SHAPES: Record<string, string> = {
  battery: "M0 -.5 V-.1 M-.28 -.1 H.28 M-.14 .1 H.14 M0 .1 V.5",
  fuse: `${BOX} M0 -.5 V.5`,
  resistor: `${BOX} ${UP_DOWN}`,
  heater: `${BOX} ${UP_DOWN} M-.12 -.15 H.12 M-.12 0 H.12 M-.12 .15 H.12`,
  lamp: `${CIRCLE} ${ROUND_ENDS} M-.2 -.2 L.2 .2 M.2 -.2 L-.2 .2`,
  motor: `${CIRCLE} ${ROUND_ENDS} M-.12 .12 V-.12 L0 .04 L.12 -.12 V.12`,
  switch: "M0 -.5 V-.25 M0 .25 V.5 M0 .25 L-.22 -.22",
  contact: "M0 -.5 V-.25 M0 .25 V.5 M0 .25 L-.22 -.22",
  coil: "M-.28 -.15 H.28 V.15 H-.28 Z M-.1 .15 L.1 -.15 M0 -.5 V-.15 M0 .15 V.5",
  diode: "M-.2 .16 H.2 L0 -.16 Z M-.2 -.16 H.2 M0 -.5 V.5",
  splice: "M0 -.5 V.5 M-.07 0 A.07 .07 0 1 0 .07 0 A.07 .07 0 1 0 -.07 0",
  connector: "M0 -.5 V-.06 M0 .06 V.5 M-.14 -.14 L0 0 L.14 -.14 M-.14 0 L0 .14 L.14 0",
  earth: "M0 -.5 V0 M-.28 0 H.28 M-.18 .12 H.18 M-.08 .24 H.08",
};

/** Kinds drawn with the shape of another. */
const LIKE: Record<string, string> = {
  relay: "coil",
  "relay coil": "coil",
  "relay contact": "contact",
  "thermal fuse": "fuse",
  "stepped resistor": "resistor",
  "resistor pack": "resistor",
  "earth point": "earth",
};

export function SymbolShape({ kind }: { kind: string }): ComponentChildren {
  const path = SHAPES[LIKE[kind] ?? kind];
  return (
    <>
      <rect class="symbol-ground" x="-.3" y="-.3" width=".6" height=".6" />
      <path class="symbol-line" d={path ?? `M-.3 -.3 H.3 V.3 H-.3 Z ${UP_DOWN}`} />
    </>
  );
}
