/** Signs in the family of IEC 60617, each drawn along its axis from one end to the other. */

/** How far a sign reaches along its axis from the middle, and its outline around the middle. */
interface Sign {
  half: number;
  path: string;
}

/** In grid units; the axis runs downwards through (0, 0). */
const SIGNS: Record<string, Sign> = {
  battery: { half: 0.08, path: "M-.3 -.08 H.3 M-.15 .08 H.15" },
  "second battery": { half: 0.08, path: "M-.3 -.08 H.3 M-.15 .08 H.15" },
  fuse: { half: 0.3, path: "M-.14 -.3 H.14 V.3 H-.14 Z M0 -.3 V.3" },
  "thermal fuse": {
    half: 0.3,
    path: "M-.14 -.3 H.14 V.3 H-.14 Z M0 -.3 V.3 M-.3 .12 H-.14 M.14 -.12 H.3",
  },
  "fusible link": { half: 0.3, path: "M0 -.3 Q.2 -.15 0 0 Q-.2 .15 0 .3" },
  breaker: { half: 0.3, path: "M0 .3 V.2 A.2 .2 0 0 1 0 -.2 V-.3 M-.3 0 H-.2" },
  "unknown stretch": {
    half: 0.3,
    path: "M-.2 -.3 H.2 V.3 H-.2 Z M-.09 -.1 A.09 .09 0 1 1 .04 .01 Q0 .04 0 .1 M0 .16 V.2",
  },
  resistor: { half: 0.3, path: "M-.14 -.3 H.14 V.3 H-.14 Z" },
  "bus termination": { half: 0.3, path: "M-.14 -.3 H.14 V.3 H-.14 Z" },
  rheostat: {
    half: 0.3,
    path: "M-.14 -.3 H.14 V.3 H-.14 Z M-.3 .3 L.3 -.3 M.16 -.28 L.3 -.3 L.28 -.16",
  },
  ntc: { half: 0.3, path: "M-.14 -.3 H.14 V.3 H-.14 Z M-.38 .24 H-.24 L.24 -.26" },
  heater: {
    half: 0.32,
    path: "M-.16 -.32 H.16 V.32 H-.16 Z M-.16 -.16 H.16 M-.16 0 H.16 M-.16 .16 H.16",
  },
  "ptc heater": {
    half: 0.32,
    path: "M-.16 -.32 H.16 V.32 H-.16 Z M-.16 -.16 H.16 M-.16 0 H.16 M-.16 .16 H.16 M-.3 .3 H-.22 L.3 -.3",
  },
  "glow plug": {
    half: 0.3,
    path: "M-.14 -.3 H.14 V.1 H-.14 Z M0 .1 V.3 M-.14 -.1 H.14 M-.08 .3 H.08",
  },
  horn: { half: 0.26, path: "M-.1 -.26 H.06 V.26 H-.1 Z M.06 -.12 L.28 -.24 V.24 L.06 .12" },
  solenoid: { half: 0.2, path: "M-.28 -.2 H.28 V.2 H-.28 Z M-.12 .2 L.12 -.2 M.28 0 H.4" },
  lamp: { half: 0.28, path: `${circle(0.28)} M-.2 -.2 L.2 .2 M.2 -.2 L-.2 .2` },
  "led lamp": {
    half: 0.28,
    path: "M-.19 -.17 H.19 L0 .17 Z M-.19 .17 H.19 M0 -.28 V-.17 M0 .17 V.28 M.22 -.08 L.36 -.2 M.26 .06 L.4 -.06",
  },
  motor: { half: 0.3, path: `${circle(0.3)} M-.12 .13 V-.13 L0 .05 L.12 -.13 V.13` },
  "charging source": {
    half: 0.3,
    path: `${circle(0.3)} M.12 -.09 A.15 .15 0 1 0 .14 .06 H.02`,
  },
  "reversing motor": {
    half: 0.3,
    path: `${circle(0.3)} M-.1 .08 V-.14 L0 0 L.1 -.14 V.08 M-.16 .16 H.16 M-.1 .11 L-.16 .16 L-.1 .21 M.1 .11 L.16 .16 L.1 .21`,
  },
  make: { half: 0.24, path: "M0 .24 L-.22 -.22" },
  break: { half: 0.24, path: "M0 .24 L.14 -.28 M0 -.24 H.2" },
  "reed switch": {
    half: 0.32,
    path: "M-.16 -.18 A.16 .16 0 0 1 .16 -.18 V.18 A.16 .16 0 0 1 -.16 .18 Z M0 -.32 V-.12 M0 .32 V.12 L-.11 -.12",
  },
  coil: { half: 0.15, path: "M-.28 -.15 H.28 V.15 H-.28 Z M-.1 .15 L.1 -.15" },
  diode: { half: 0.17, path: "M-.19 -.17 H.19 L0 .17 Z M-.19 .17 H.19" },
  zener: { half: 0.17, path: "M-.19 -.17 H.19 L0 .17 Z M-.19 .26 V.17 H.19 V.08" },
  "standing load": { half: 0.3, path: "M-.3 -.3 H.3 V.3 H-.3 Z M-.12 -.1 H.12 L-.12 .1 H.12" },
  output: { half: 0.3, path: "M-.3 -.3 H.3 V.3 H-.3 Z M-.14 .1 L0 -.12 L.14 .1" },
  "low side output": { half: 0.3, path: "M-.3 -.3 H.3 V.3 H-.3 Z M-.14 -.1 L0 .12 L.14 -.1" },
  way: { half: 0.1, path: "M-.14 -.12 L0 .02 L.14 -.12 M-.14 .04 L0 .18 L.14 .04" },
  "half way": { half: 0.06, path: "M-.14 -.1 L0 .04 L.14 -.1" },
  loose: { half: 0.1, path: "M-.12 -.12 L.12 .12 M.12 -.12 L-.12 .12" },
};

function circle(radius: number): string {
  return `M${radius} 0 A${radius} ${radius} 0 1 1 -${radius} 0 A${radius} ${radius} 0 1 1 ${radius} 0 Z`;
}

/** A sign for a kind that has none of its own. */
const BOX: Sign = { half: 0.3, path: "M-.3 -.3 H.3 V.3 H-.3 Z" };

export const signOf = (kind: string): Sign => SIGNS[kind] ?? BOX;

/** The earth sign stands below its upper end. */
export const EARTH = "M-.3 0 H.3 M-.2 .13 H.2 M-.1 .26 H.1";
