/** The shapes that cross between page and core, under the names the page uses. */

import type {
  CautionPassed,
  CheckSkipped,
  ConnectorPhotographed,
  EventWithdrawn,
  JobOpened,
  NoteMade,
  OldPlugRead,
  PlaceFound,
  PositionsTried,
  PracticeBegun,
  ReadingTaken,
  RepairDone,
  SheetEdited,
  SittingBegun,
  StoryTold,
  ToolsStated,
  WireFollowed,
  WirePutBack,
  WiresListed,
  WiringCorrected,
  WiringFound,
} from "../generated/messages";

export type * from "../generated/messages";

/** The body of each kind of event the page writes. */
export interface Bodies {
  "job opened": JobOpened;
  "sheet edited": SheetEdited;
  "place found": PlaceFound;
  "story told": StoryTold;
  "tools stated": ToolsStated;
  "positions tried": PositionsTried;
  "reading taken": ReadingTaken;
  "check skipped": CheckSkipped;
  "old plug read": OldPlugRead;
  "wiring found": WiringFound;
  "wires listed": WiresListed;
  "wiring corrected": WiringCorrected;
  "wire followed": WireFollowed;
  "wire put back": WirePutBack;
  "connector photographed": ConnectorPhotographed;
  "repair done": RepairDone;
  "event withdrawn": EventWithdrawn;
  "caution passed": CautionPassed;
  "sitting begun": SittingBegun;
  "note made": NoteMade;
  "practice begun": PracticeBegun;
}

export type Kind = keyof Bodies;

/** One event still to be stored, with the photo that its body names. */
export type Entry = { [K in Kind]: { kind: K; body: Bodies[K] } }[Kind] & {
  photo?: Uint8Array<ArrayBuffer>;
};

/** Position of every control, by id. */
export type Controls = Record<string, string>;

/** A circuit of the library, as the list of them has it. */
export interface Circuit {
  id: string;
  title: string;
  vehicle: string;
  system_volts: number;
  summary: string;
  /** What a person looks for: motors, lamps, heaters, horns, sensors. */
  about: string[];
  /** Path in the site. */
  file: string;
}
