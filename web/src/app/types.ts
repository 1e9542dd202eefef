/** The shapes that cross between page and core, under the names the page uses. */

import type {
  CautionPassed,
  Check,
  CheckAsked,
  CheckSkipped,
  ConnectorView,
  EventWithdrawn,
  ExpectedAsked,
  ExpectedTable,
  Job,
  JobOpened,
  JobView,
  LinkMade,
  LinkOpened,
  LinkText,
  NoteMade,
  PositionsTried,
  ReadingTaken,
  ReadingTyped,
  RepairDone,
  SheetAnswer,
  SheetEdited,
  SheetText,
  SittingBegun,
  StoryTold,
  ToolsStated,
  Weighed,
  WiringAsked,
  WiringCorrected,
  WiringFound,
} from "../generated/messages";

export type * from "../generated/messages";

/** What each call asks and answers. */
export interface Calls {
  look: { request: Job; response: JobView };
  read_sheet: { request: SheetText; response: SheetAnswer };
  check_at: { request: CheckAsked; response: Check };
  weigh: { request: ReadingTyped; response: Weighed };
  wiring: { request: WiringAsked; response: ConnectorView };
  expected: { request: ExpectedAsked; response: ExpectedTable };
  link_make: { request: Job; response: LinkMade };
  link_open: { request: LinkText; response: LinkOpened };
}

/** The body of each kind of event the page writes. */
export interface Bodies {
  "job opened": JobOpened;
  "sheet edited": SheetEdited;
  "story told": StoryTold;
  "tools stated": ToolsStated;
  "positions tried": PositionsTried;
  "reading taken": ReadingTaken;
  "check skipped": CheckSkipped;
  "wiring found": WiringFound;
  "wiring corrected": WiringCorrected;
  "repair done": RepairDone;
  "event withdrawn": EventWithdrawn;
  "caution passed": CautionPassed;
  "sitting begun": SittingBegun;
  "note made": NoteMade;
}

export type Kind = keyof Bodies;

/** One event still to be stored. */
export type Entry = { [K in Kind]: { kind: K; body: Bodies[K] } }[Kind];

/** Position of every control, by id. */
export type Controls = Record<string, string>;

/** A circuit of the library, as listed in /circuits/index.json. */
export interface Circuit {
  id: string;
  title: string;
  vehicle: string;
  system_volts: number;
  summary: string;
  file: string;
}
