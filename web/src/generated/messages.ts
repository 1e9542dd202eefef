// Made from the core's models by `npm run types`. Not to be edited.

/**
 * What each call of the core asks and answers.
 */
export interface Calls {
  build: {
    request: Building;
    response: BuildView;
  };
  check_at: {
    request: CheckAsked;
    response: Check;
  };
  diagram: {
    request: DiagramAsked;
    response: Diagram;
  };
  entry_try: {
    request: EntryTried;
    response: Nothing;
  };
  expected: {
    request: ExpectedAsked;
    response: ExpectedTable;
  };
  explain: {
    request: ExplainAsked;
    response: Explanation;
  };
  fall: {
    request: FallAsked;
    response: FallView;
  };
  file_make: {
    request: FileAsked;
    response: FileMade;
  };
  link_make: {
    request: Job;
    response: LinkMade;
  };
  link_open: {
    request: LinkText;
    response: LinkOpened;
  };
  list_read: {
    request: ListText;
    response: ListRead;
  };
  look: {
    request: Job;
    response: JobView;
  };
  old_plug: {
    request: OldPlugAsked;
    response: OldPlugView;
  };
  orders: {
    request: OrdersAsked;
    response: OrdersView;
  };
  ping: {
    request: Nothing;
    response: Ready;
  };
  practice_answer: {
    request: PracticeAsked;
    response: PracticeAnswer;
  };
  practice_begin: {
    request: PracticeWanted;
    response: PracticeBegan;
  };
  practice_end: {
    request: Job;
    response: PracticeEnd;
  };
  prepare: {
    request: AheadAsked;
    response: Prepared;
  };
  read_sheet: {
    request: SheetText;
    response: SheetAnswer;
  };
  starter: {
    request: StarterWanted;
    response: SheetAnswer;
  };
  weigh: {
    request: ReadingTyped;
    response: Weighed;
  };
  wiring: {
    request: WiringAsked;
    response: ConnectorView;
  };
}
/**
 * A sheet being built from a wiring diagram: all steps so far, in order.
 */
export interface Building {
  volts: 12 | 24;
  title?: string;
  /**
   * @maxItems 1500
   */
  steps: (Put | Plug | Split | Earth | Join | Go | Copy | Change | Clear)[];
}
/**
 * The next part on the current's way. `amount` is what is known of it: a fuse's rating (A), a lamp's
 * or heater's power (W), a motor's current (A), a resistance (Ω); None: assumed. `ways` counts a
 * switch's outlets or a pack's steps; `turned`: the current comes in where it usually leaves.
 */
export interface Put {
  do?: "put";
  what:
    | "fuse"
    | "switch"
    | "relay"
    | "relay coil"
    | "changeover relay"
    | "lamp"
    | "twin-filament lamp"
    | "LED lamp"
    | "fan"
    | "pump"
    | "heater"
    | "horn"
    | "valve"
    | "reversing switch"
    | "reversing motor"
    | "resistor pack"
    | "resistor"
    | "diode"
    | "not on the drawing";
  id?: string;
  name?: string | null;
  amount?: number | null;
  code?: string;
  ways?: number;
  turned?: boolean;
}
/**
 * A connector that the wire goes through. `pins` names its ways in bulk: "6", "1-4, 7" or
 * "30 87 86 85"; `way` is the first one used. `together`: all wires that left the same part go through
 * it side by side. `wires` puts it into wires that are there instead.
 */
export interface Plug {
  do?: "plug";
  id?: string;
  pins?: string;
  way?: string;
  together?: boolean;
  /**
   * @maxItems 24
   */
  wires?: string[];
}
/**
 * The wire splits into so many branches.
 */
export interface Split {
  do?: "split";
  branches?: number;
}
/**
 * The wire ends at an earth point; one of that name may be there already.
 */
export interface Earth {
  do?: "earth";
  id?: string;
}
/**
 * The wire ends where something is already: at a point, or at the body of the vehicle.
 */
export interface Join {
  do?: "join";
  to: string;
}
/**
 * Go on from another point: an open end, or a place where the wire splits off.
 */
export interface Go {
  do?: "go";
  to: string;
}
/**
 * The branch that begins at a part, once more from here; to the same earth point or to its own.
 */
export interface Copy {
  do?: "copy";
  of: string;
  own_earth?: boolean;
}
/**
 * Something known of what stands there: `field` is "id", "name", "at", "pins" of a plug, "amount"
 * or "code" of a part, "colour", "mm2" or "metres" of a wire; "" forgets it again.
 */
export interface Change {
  do?: "change";
  element: string;
  field: "id" | "name" | "at" | "pins" | "amount" | "code" | "colour" | "mm2" | "metres";
  value: string;
}
/**
 * Everything anew; what was there comes back when this step is undone.
 */
export interface Clear {
  do?: "clear";
}
/**
 * What stands. `refused` says why the last step could not be, and is empty where it was done; `sheet`
 * is null as long as something stops.
 */
export interface BuildView {
  at: BuildPoint;
  together: number;
  refused: string;
  points: BuildPoint[];
  inlets: BuildPoint[];
  wires: BuildWire[];
  plugs: BuildBranch[];
  branches: BuildBranch[];
  problems: BuildProblem[];
  diagram: Diagram;
  ends: BuildEnd[];
  title: string;
  sheet: {
    [k: string]: unknown;
  } | null;
}
/**
 * A place from which the circuit can go on, or where a wire can end. `open`: it leads nowhere yet.
 */
export interface BuildPoint {
  point: string;
  name: string;
  open: boolean;
}
export interface BuildWire {
  id: string;
  name: string;
  colour: string;
}
export interface BuildBranch {
  id: string;
  name: string;
}
/**
 * What is missing or doubtful, at its place; `stops` keeps the sheet from being used.
 */
export interface BuildProblem {
  element: string;
  sentence: string;
  stops: boolean;
}
/**
 * The current-path diagram; `dots` are joints where more than two stretches meet.
 */
export interface Diagram {
  width: number;
  height: number;
  symbols: Symbol[];
  lines: Line[];
  dots: [unknown, unknown][];
  places: PlaceView[];
}
/**
 * A part or contact in the diagram: middle and size of its box, in grid units. One that stands for a
 * group of branches has the elements inside it in `folded`.
 */
export interface Symbol {
  element: string;
  kind: string;
  name: string;
  label: Label;
  x: number;
  y: number;
  width: number;
  height: number;
  glyphs: Glyph[];
  suspect: number;
  cleared: boolean;
  folded: string[];
}
/**
 * Lines of text in the diagram, set from (x, y) to the right; y is the middle of the block.
 */
export interface Label {
  lines: string[];
  x: number;
  y: number;
}
/**
 * One sign between two ends, in grid units; kinds are those of the drawing.
 */
export interface Glyph {
  kind: string;
  x1: number;
  y1: number;
  x2: number;
  y2: number;
  branch: string;
  label: Label | null;
}
/**
 * A wire in the diagram: a polyline in grid units.
 */
export interface Line {
  element: string;
  label: Label;
  points: [unknown, unknown][];
  suspect: number;
}
/**
 * Where a probe can go; not `drawn` where it lies in what is folded.
 */
export interface PlaceView {
  id: string;
  name: string;
  x: number;
  y: number;
  measured: string;
  minutes: number;
  drawn: boolean;
}
/**
 * An open end in the drawing, in its grid units; `now` is the one in hand.
 */
export interface BuildEnd {
  point: string;
  x: number;
  y: number;
  now: boolean;
}
/**
 * A check the person chose: what to hold where. `red` empty asks for the load itself by eye.
 */
export interface CheckAsked {
  /**
   * @maxItems 5000
   */
  events: Event[];
  instrument: string;
  red: string;
  black?: string;
  controls?: {
    [k: string]: string;
  };
  apart?: string[];
  stand_in?: {
    [k: string]: string;
  };
}
/**
 * One thing that happened. `body` is JSON text in the shape of the event's kind.
 */
export interface Event {
  device: string;
  n: number;
  job: string;
  kind: string;
  format: number;
  at?: string;
  body: string;
}
/**
 * One thing to do, with all the screen needs. `record` goes into the event with the reading added.
 *
 * `entry` says how the answer is given: a number on the pad in `units` (first is preselected), or a
 * word from `choices`; `words` are the answers beside a number ("over range", "not steady").
 */
export interface Check {
  id: string;
  goal: string;
  do: string;
  condition: string;
  instrument: string;
  instrument_name: string;
  band: Band | null;
  healthy_choice: string;
  entry: "number" | "choice";
  units: string[];
  words: string[];
  choices: string[];
  outcomes: Outcome[];
  why: string;
  minutes: number;
  confirming: boolean;
  cautions: Caution[];
  place_points: string[];
  record: ReadingTaken;
}
export interface Band {
  low: number;
  high: number;
  unit: string;
  text: string;
  scale_low: number;
  scale_high: number;
  others: OtherBand[];
}
/**
 * Where a number lies as well if a relay or a fuse in doubt has gone the other way: `when` says
 * which, `share` how likely.
 */
export interface OtherBand {
  low: number;
  high: number;
  share: number;
  when: string;
}
/**
 * `when` is the reading ("In the band", "About 0 V", "Dark"); `means` at most 25 words.
 */
export interface Outcome {
  when: string;
  means: string;
}
/**
 * Four parts, in the order they are read. `level` is the safety word.
 */
export interface Caution {
  hazard: string;
  level: "DANGER" | "WARNING" | "CAUTION" | "NOTICE";
  what: string;
  avoid: string;
  where: string;
  otherwise: string;
}
/**
 * One reading: instrument, the two places it was held to, the set-up, and what it said.
 *
 * `value` is in the base unit of the instrument (V, A, ohm); `choice` is used where the answer is a
 * word ("bright", "over range", "turns slowly"). Places are ids such as "X3.2.a", never nets.
 */
export interface ReadingTaken {
  check?: string;
  instrument: string;
  red?: string;
  black?: string;
  setup?: Setup;
  value?: number | null;
  choice?: string;
  typed?: string;
  complaint?: "present" | "absent" | "unknown";
  shown?: Shown | null;
}
/**
 * Position of every control, connectors unplugged, what stands in for a load; the engine where it was
 * started for this reading alone, else it is as the sitting has it.
 */
export interface Setup {
  controls?: {
    [k: string]: string;
  };
  /**
   * @maxItems 20
   */
  apart?: string[];
  stand_in?: {
    [k: string]: string;
  };
  engine?: "on" | null;
}
/**
 * What the screen showed with a check when it was done; never recomputed.
 */
export interface Shown {
  goal?: string;
  do?: string;
  low?: number | null;
  high?: number | null;
  unit?: string;
  /**
   * @maxItems 12
   */
  outcomes?: [unknown, unknown][];
  verdict?: string;
  release?: string;
}
/**
 * The diagram of a job with elements that stay open beside what stays open by itself.
 */
export interface DiagramAsked {
  /**
   * @maxItems 5000
   */
  events: Event[];
  /**
   * @maxItems 2000
   */
  opened?: string[];
}
/**
 * A change of the sheet that is not stored yet: its kind, and its body as text.
 */
export interface EntryTried {
  /**
   * @maxItems 5000
   */
  events: Event[];
  kind: "sheet edited" | "place found" | "wire followed";
  body: string;
}
export interface Nothing {}
/**
 * What every place would read in a set-up: in the circuit as it stands, or under faults. `engine`
 * is the job's where it is not given.
 */
export interface ExpectedAsked {
  /**
   * @maxItems 5000
   */
  events: Event[];
  controls?: {
    [k: string]: string;
  };
  apart?: string[];
  stand_in?: {
    [k: string]: string;
  };
  instrument?: string;
  engine?: ("off" | "on") | null;
  /**
   * @maxItems 10
   */
  faults?: FaultNamed[];
}
/**
 * A fault by the name of its part, wire or contact. `size` is ohms in series for a resistance,
 * a plain factor for other modes that come in sizes, null for the rest.
 */
export interface FaultNamed {
  element: string;
  mode: string;
  size?: number | null;
}
export interface ExpectedTable {
  setup: Setup1;
  title: string;
  instrument: string;
  rows: ExpectedRow[];
  seen: string[];
  warnings: string[];
}
/**
 * Position of every control, connectors unplugged, what stands in for a load; the engine where it was
 * started for this reading alone, else it is as the sitting has it.
 */
export interface Setup1 {
  controls?: {
    [k: string]: string;
  };
  /**
   * @maxItems 20
   */
  apart?: string[];
  stand_in?: {
    [k: string]: string;
  };
  engine?: "on" | null;
}
/**
 * One reading: `place` against `black`, or one element. A number has a value and the band that
 * holds 95 % of such readings, in `unit`; a word or "over range" stands in `text` alone. Where a relay
 * or a fuse is in doubt these are the likeliest, and `others` the rest.
 */
export interface ExpectedRow {
  place: string;
  black: string;
  name: string;
  value: number | null;
  low: number | null;
  high: number | null;
  unit: string;
  text: string;
  others: OtherBand[];
}
/**
 * Why a place would read what it reads, in a set-up and under faults; none for a sound circuit.
 */
export interface ExplainAsked {
  /**
   * @maxItems 5000
   */
  events: Event[];
  instrument?: string;
  red: string;
  black?: string;
  controls?: {
    [k: string]: string;
  };
  apart?: string[];
  stand_in?: {
    [k: string]: string;
  };
  engine?: ("off" | "on") | null;
  /**
   * @maxItems 10
   */
  faults?: FaultNamed[];
}
/**
 * Why a value is expected: in words, as the current's way from supply to earth, and by what makes
 * the band as wide as it is. `steps` is empty where no current flows.
 */
export interface Explanation {
  row: ExpectedRow;
  condition: string;
  lines: string[];
  supply: string;
  steps: ExplainStep[];
  runs: ExplainRun[];
  spread: SpreadPart[];
  meter: string;
  warnings: string[];
}
/**
 * An element that the current passes. `drop` is what falls along it (V, or Ω for an ohmmeter) and
 * `share` its share of the supply; `level` the voltage (V) against the body behind it; `marks` what
 * lies there: a probe, the body, or the point that holds the voltage asked for.
 */
export interface ExplainStep {
  element: string;
  name: string;
  kind: "supply" | "wire" | "contact" | "part" | "instrument";
  amps: number;
  drop: number;
  unit: string;
  share: number;
  level: number;
  text: string;
  marks: ("red" | "black" | "held" | "body")[];
}
/**
 * One line of the way: `count` steps from number `first` on. Small drops in a row are one line.
 */
export interface ExplainRun {
  name: string;
  text: string;
  share: number;
  first: number;
  count: number;
}
/**
 * A cause of the band's width: `share` of the variance (all sum to 1), and what it alone would
 * make the band ("±0.6 V"). `element` is "meter", "supply", "leads", an element, or "" for the rest.
 */
export interface SpreadPart {
  element: string;
  name: string;
  share: number;
  text: string;
}
/**
 * The voltage along the path through a load in a set-up; where nothing is said, the load complained
 * of, and the positions of the last such reading or those that close the path.
 */
export interface FallAsked {
  /**
   * @maxItems 5000
   */
  events: Event[];
  load?: string;
  controls?: {
    [k: string]: string;
  } | null;
}
/**
 * The places from the supply to earth. `verdict` says in words where too much falls; `fall_from` and
 * `fall_to` are the ends of that stretch among the points, -1 and the number of points standing for the
 * supply and the body; both are -1 where all is in order.
 */
export interface FallView {
  load: string;
  condition: string;
  controls: {
    [k: string]: string;
  };
  points: FallPoint[];
  lowest: number;
  highest: number;
  verdict: string;
  fall_from: number;
  fall_to: number;
  suspect: string;
}
/**
 * A place of the path: what a sound circuit reads there (V, with its 95 %), what was read, and what
 * the likeliest suspect would make of it. `outside` tells that the reading lies outside the band.
 */
export interface FallPoint {
  place: string;
  short: string;
  name: string;
  expected: number;
  low: number;
  high: number;
  band: string;
  measured: number | null;
  measured_text: string;
  outside: boolean;
  suspect: number | null;
}
/**
 * The circuit of a job as a file: the sheet (JSON), its wires (CSV), or a set-up for a SPICE
 * simulator, in which controls that are not named are at rest.
 */
export interface FileAsked {
  /**
   * @maxItems 5000
   */
  events: Event[];
  form: "sheet" | "wiring list" | "netlist";
  controls?: {
    [k: string]: string;
  };
}
/**
 * A file's text, and what is odd about what it describes.
 */
export interface FileMade {
  text: string;
  warnings: string[];
}
/**
 * A whole job: its events in the order of their making. Every call is answered from these alone.
 */
export interface Job {
  /**
   * @maxItems 5000
   */
  events: Event[];
}
/**
 * The text is empty where the job is too large for a link that anybody could open.
 */
export interface LinkMade {
  text: string;
  length: number;
  too_long: boolean;
}
export interface LinkText {
  text: string;
}
/**
 * The events inside a link: a new job, shown before it is taken over.
 */
export interface LinkOpened {
  title: string;
  vehicle: string;
  readings: number;
  events: Event[];
  more_inside: boolean;
}
/**
 * A wiring list to be taken over into a job's sheet.
 */
export interface ListText {
  /**
   * @maxItems 5000
   */
  events: Event[];
  text: string;
}
/**
 * A wiring list held against the sheet, to be shown before it is taken over by `entry`: names of
 * new and changed wires, and what to be aware of.
 */
export interface ListRead {
  entry: NewEntry;
  wires: number;
  fresh: string[];
  changed: string[];
  notices: string[];
}
/**
 * An event to be stored: its kind and its body.
 */
export interface NewEntry {
  kind: string;
  body: {
    [k: string]: unknown;
  };
}
/**
 * All that the page shows of a job, computed from its events.
 */
export interface JobView {
  title: string;
  vehicle: string;
  system_volts: number;
  sheet_id: string;
  release: string;
  complaint: string;
  controls: ControlView[];
  loads: LoadView[];
  asked_positions: {
    [k: string]: string;
  }[];
  complaints: ComplaintView[];
  items: StoryItem[];
  instruments: string[];
  helper: boolean;
  tools_known: boolean;
  story_known: boolean;
  connectors: ConnectorView[];
  step: CheckStep | WiringStep | EndsStep | PositionsStep | RepairStep | FinishedStep;
  others: Check[];
  along: Check[];
  suspects: Suspects;
  path: PathPoint[];
  history: ReadingView[];
  diagram: Diagram;
  causes: CauseView[];
  report: ReportSection[];
  assumed: string[];
  odd: string[];
  sheet: {
    [k: string]: unknown;
  };
  problems: string[];
  practice: boolean;
}
export interface ControlView {
  id: string;
  name: string;
  positions: Position[];
}
export interface Position {
  id: string;
  name: string;
}
/**
 * A load whose state people can see or hear, and the words to choose from (good state last).
 */
export interface LoadView {
  id: string;
  name: string;
  kind: string;
  states: string[];
  dead: string;
  dead_words: string;
}
/**
 * A usual complaint as a ready answer: its words, the engine as it is then, what the loads do.
 */
export interface ComplaintView {
  words: string;
  engine: "off" | "on";
  states: SeenState[];
}
/**
 * What a load does in a position.
 */
export interface SeenState {
  controls: {
    [k: string]: string;
  };
  load: string;
  state: string;
}
/**
 * Something the story may name as renewed, re-wired or seen: a part, wire or connector.
 */
export interface StoryItem {
  id: string;
  name: string;
  kind: "part" | "connector" | "wire";
}
export interface ConnectorView {
  id: string;
  name: string;
  half: "a" | "b";
  half_name: string;
  landmark: string;
  doubtful: boolean;
  inspected: boolean;
  should_from: "sheet" | "old plug" | "other half";
  ways: WayView[];
  wires: WireView[];
  finding: WiringFinding | null;
}
/**
 * One way of a connector half: what should be in it and what was found. `None` is empty. `column` counts
 * from the left as seen from the wires, `mating_column` as seen from the mating side.
 */
export interface WayView {
  way: string;
  number: string;
  row: number;
  column: number;
  mating_column: number;
  should: string | null;
  found: string | null;
  known: boolean;
}
export interface WireView {
  id: string;
  colour: string;
  name: string;
}
/**
 * What the wiring as found amounts to.
 */
export interface WiringFinding {
  same: boolean;
  slip: string;
  differences: string[];
  effects: string[];
  explains_complaint: boolean | null;
  damage: string[];
  moves: string[];
  notes: string[];
  strange: StrangeWire[];
  renewing: string[];
  corrected: {
    [k: string]: string | null;
  };
}
/**
 * A wire in a way that the sheet does not have there, and the wires' ends at which its other end may
 * sit.
 */
export interface StrangeWire {
  name: string;
  point: string;
  runs: RunView[];
}
/**
 * A wire seen from one of its ends: the point, in words too, and the point at its other end.
 */
export interface RunView {
  wire: string;
  name: string;
  point: string;
  place: string;
  far: string;
}
export interface CheckStep {
  kind: "check";
  check: Check;
}
/**
 * Look at a connector: `connector` names one of the view's connectors. With `hands_off` nobody but
 * qualified people may open it.
 */
export interface WiringStep {
  kind: "wiring";
  connector: string;
  half: "a" | "b";
  hands_off: boolean;
  goal: string;
  why: string;
  outcomes: Outcome[];
  minutes: number;
  cautions: Caution[];
}
/**
 * Find both ends of a wire or, with `put_back`, put it where the sheet has it. `elsewhere` are all ends
 * of wires, one of which may be that of another wire found at these; `places` are where a wire may end,
 * empty ways with them.
 */
export interface EndsStep {
  kind: "ends";
  wire: string;
  put_back: boolean;
  goal: string;
  why: string;
  do: string[];
  ends: EndView[];
  elsewhere: RunView[];
  places: EndPlace[];
  minutes: number;
  cautions: Caution[];
}
/**
 * An end of a wire: the place, and every wire that the sheet has there, in a line and one by one, each
 * with the point that it comes from.
 */
export interface EndView {
  point: string;
  name: string;
  told: string;
  runs: RunView[];
}
/**
 * A place where a wire may end.
 */
export interface EndPlace {
  id: string;
  name: string;
}
/**
 * Try every position and say what each load does.
 */
export interface PositionsStep {
  kind: "positions";
  goal: string;
  why: string;
  cautions: Caution[];
  ask: {
    [k: string]: string;
  }[];
  loads: string[];
  engine: ("off" | "on") | null;
}
/**
 * The cause is proven: mend it, then say so. `element` and `mode` go into the repair event; `unseen` says
 * what nothing is known of until then, empty where there is no such part.
 */
export interface RepairStep {
  kind: "repair";
  element: string;
  mode: string;
  title: string;
  do: string[];
  why: string;
  unseen: string;
  cautions: Caution[];
}
/**
 * Nothing is left to check: mended and proven (`solved`), or stuck with the reason.
 */
export interface FinishedStep {
  kind: "finished";
  solved: boolean;
  title: string;
  lines: string[];
}
/**
 * Four groups, never one ranked list; shares are of all that is possible, none is 0 or 1.
 */
export interface Suspects {
  proven: Suspect[];
  groups: SuspectGroup[];
  cleared: Cleared[];
  mended: string[];
  none_of_these: number;
  warning: string;
  left_words: string;
}
/**
 * A set of one or more faults. `element`, `mode` and `where` name the first; `also` the others.
 */
export interface Suspect {
  element: string;
  mode: string;
  where: string;
  size: string;
  also: string[];
  title: string;
  share: number;
  words: string;
  note: string;
}
/**
 * Suspects that the readings so far cannot tell apart, and the check that would.
 */
export interface SuspectGroup {
  suspects: Suspect[];
  share: number;
  words: string;
  apart_by: string;
}
export interface Cleared {
  title: string;
  by: string;
}
/**
 * A point of the current's path from supply to earth: state of what we know there.
 */
export interface PathPoint {
  place: string;
  name: string;
  state: "open" | "measured" | "now" | "clear";
  suspect_after: boolean;
}
/**
 * One line of the job's history, with the reading as shown then.
 */
export interface ReadingView {
  device: string;
  n: number;
  at: string;
  kind: string;
  title: string;
  value: string;
  expected: string;
  verdict: string;
  withdrawn: boolean;
  can_withdraw: boolean;
}
/**
 * Why it failed: stress against rating, in sentences; empty until something is proven.
 */
export interface CauseView {
  title: string;
  proof: string[];
  reasons: string[];
  open_questions: string[];
}
export interface ReportSection {
  title: string;
  lines: string[];
}
/**
 * Colours in the ways of a half as read off a plug, in the form of `OldPlugRead`.
 */
export interface OldPlugAsked {
  /**
   * @maxItems 5000
   */
  events: Event[];
  connector: string;
  half: "a" | "b";
  colours: {
    [k: string]: string | null;
  };
}
/**
 * What reading a plug would change, in sentences; none where it has all as the sheet does.
 */
export interface OldPlugView {
  notices: string[];
}
/**
 * `found` are the ways that could be seen; the others are open.
 */
export interface OrdersAsked {
  /**
   * @maxItems 5000
   */
  events: Event[];
  connector: string;
  half: "a" | "b";
  found?: {
    [k: string]: string | null;
  };
}
/**
 * Orders of a half's wires that fit what is known: `fit` of `total`, the first of them in `rows`,
 * and the check that tells most of them apart.
 */
export interface OrdersView {
  total: number;
  fit: number;
  sentence: string;
  rows: OrderRow[];
  more: number;
  check: Check | null;
  check_words: string;
}
/**
 * An order of a half's wires: its name, way by way, and as a wiring to be kept.
 */
export interface OrderRow {
  words: string;
  ways: string[];
  as_drawn: boolean;
  wiring: {
    [k: string]: string | null;
  };
}
/**
 * Answer to the first call: the release of the core and its Python.
 */
export interface Ready {
  release: string;
  python: string;
}
/**
 * What the person does next in a practice job: a reading, or a look into a connector's half;
 * neither asks what the loads do in every position.
 */
export interface PracticeAsked {
  /**
   * @maxItems 5000
   */
  events: Event[];
  record?: ReadingTaken | null;
  connector?: string;
  half?: string;
}
/**
 * What the vehicle that is not there answers: a number as typed in a unit, a word, what every load
 * does, or the wires found by way. The others are empty.
 */
export interface PracticeAnswer {
  typed: string;
  unit: string;
  choice: string;
  states: LoadSeen[];
  found: {
    [k: string]: string | null;
  };
}
/**
 * What one load did in one position of every control.
 */
export interface LoadSeen {
  controls: {
    [k: string]: string;
  };
  load: string;
  state: string;
}
/**
 * A sheet to practise on. The same `seed` hides the same.
 */
export interface PracticeWanted {
  sheet: {
    [k: string]: unknown;
  };
  seed: number;
}
/**
 * The events a practice job begins with, in order.
 */
export interface PracticeBegan {
  entries: NewEntry[];
}
/**
 * What was hidden, what of it is still there, the person's own road and Footwell's.
 */
export interface PracticeEnd {
  hidden: string[];
  left: string[];
  own: Road;
  footwells: Road;
}
/**
 * A way through a job: its lines, how many checks it took, and the minutes at a real vehicle.
 */
export interface Road {
  lines: string[];
  checks: number;
  minutes: number;
}
/**
 * The next piece of the work ahead of the first question, after so many pieces were `done`.
 */
export interface AheadAsked {
  /**
   * @maxItems 5000
   */
  events: Event[];
  done?: number;
}
/**
 * How many pieces of the work ahead of the first question are `done`, and how many are `left`.
 */
export interface Prepared {
  done: number;
  left: number;
}
export interface SheetText {
  text: string;
}
/**
 * A sheet that was read: its title, what it leaves open, and what to be aware of.
 */
export interface SheetAnswer {
  id: string;
  title: string;
  vehicle: string;
  system_volts: number;
  summary: string;
  parts: number;
  assumed: string[];
  notices: string[];
  sheet: {
    [k: string]: unknown;
  };
}
/**
 * The answers that make a sheet where there is no diagram; `positions` counts off too.
 */
export interface StarterWanted {
  load:
    "fan" | "lamp" | "pump" | "heater" | "lock or window" | "horn" | "starter" | "sensor" | "other";
  volts: 12 | 24;
  positions: number;
  relay: boolean;
}
/**
 * A reading as typed, before it is kept: `record` comes from the check.
 */
export interface ReadingTyped {
  /**
   * @maxItems 5000
   */
  events: Event[];
  record: ReadingTaken;
  typed: string;
  unit: string;
}
/**
 * What a typed reading amounts to before it is kept.
 *
 * `refuse` says why it cannot be a reading at all; `ask` doubts it once and offers `offer` instead.
 * With both, it is asked first, and refused where the person insists.
 */
export interface Weighed {
  refuse: string;
  ask: string;
  offer: string;
  offer_typed: string;
  offer_unit: string;
  text: string;
  verdict: string;
  mark: number;
  record: ReadingTaken | null;
}
export interface WiringAsked {
  /**
   * @maxItems 5000
   */
  events: Event[];
  connector: string;
  half: "a" | "b";
  found: {
    [k: string]: string | null;
  };
}
/**
 * Common ground of all bodies: strict values, later fields tolerated.
 */
export interface Body {}
export interface CautionPassed {
  hazard: string;
}
export interface CheckSkipped {
  check: string;
  reason: "cannot reach" | "no instrument" | "alone" | "other";
  asked?: string;
}
/**
 * A photo of one half of a connector, or of the old plug that was in its place. The picture itself is
 * kept beside the events, under the SHA-256 of its bytes.
 */
export interface ConnectorPhotographed {
  connector: string;
  half: "a" | "b";
  shows?: "half" | "old plug";
  sha256: string;
  width: number;
  height: number;
  bytes: number;
}
/**
 * Undo, and undo of an undo: names the event that no longer counts.
 */
export interface EventWithdrawn {
  device: string;
  n: number;
}
export interface HiddenFault {
  element: string;
  mode: string;
  size?: number;
}
/**
 * A job begins with the whole sheet it works on.
 */
export interface JobOpened {
  title: string;
  sheet: {
    [k: string]: unknown;
  };
}
export interface Message {}
export interface NoteMade {
  text: string;
}
/**
 * As it should be: the colours in the ways of a half, read off the old plug or off the half that it
 * meets. Colours of one way are joined by "+"; "" is a wire whose colour cannot be told, None an empty
 * way.
 */
export interface OldPlugRead {
  connector: string;
  half: "a" | "b";
  read_off?: "old plug" | "other half";
  colours: {
    [k: string]: string | null;
  };
}
/**
 * Something found on the vehicle in a wire, an unknown stretch or a splice of the sheet, and where.
 */
export interface PlaceFound {
  inside: string;
  what:
    | "plug"
    | "fuse"
    | "splice"
    | "relay"
    | "earth point"
    | "plain wire"
    | "way of a plug"
    | "branch to a lamp"
    | "branch to a motor"
    | "branch to a heater"
    | "branch";
  at?: string;
  plug?: string;
  to?: string;
}
/**
 * What works in which position, as told by the customer or as seen on the vehicle; the engine where it
 * was started or stopped for this look alone.
 */
export interface PositionsTried {
  seen_by?: "customer" | "me";
  engine?: ("off" | "on") | null;
  /**
   * @maxItems 200
   */
  states: LoadSeen[];
}
/**
 * There is no vehicle: the readings are computed, with these faults and this wiring hidden.
 */
export interface PracticeBegun {
  /**
   * @maxItems 5
   */
  faults?: HiddenFault[];
  /**
   * @maxItems 2
   */
  wired?: WiringCorrected[];
}
/**
 * The half's wires after the move, in the same form as they were found.
 */
export interface WiringCorrected {
  connector: string;
  half: "a" | "b";
  now: {
    [k: string]: string | null;
  };
}
/**
 * An error as data: a code, a sentence for people, details for the report.
 */
export interface Problem {
  code: string;
  sentence: string;
  details: string[];
}
/**
 * A part, wire, contact or earth point was renewed, mended or cleaned.
 */
export interface RepairDone {
  element: string;
  mode?: string;
  what: "renewed" | "mended" | "cleaned";
  note?: string;
}
/**
 * One value found on the vehicle: which element of the sheet, which field, the new value.
 */
export interface SheetChange {
  element: string;
  field: string;
  value: string | number | boolean | null;
}
export interface SheetEdited {
  /**
   * @maxItems 200
   */
  changes: SheetChange[];
}
/**
 * Something seen or smelled at a part, a connector or a wire.
 */
export interface Sight {
  where: string;
  what: "burnt" | "green" | "chafed" | "wet" | "loose" | "melted" | "smell";
}
/**
 * A new time at the vehicle: state of the engine, and the supply if it was measured (V).
 */
export interface SittingBegun {
  engine?: "off" | "on";
  supply_volts?: number | null;
}
/**
 * The customer's story. Lists name parts, connectors or wires of the sheet by id.
 */
export interface StoryTold {
  words?: string;
  dead_now?: "yes" | "no" | "comes and goes" | "unknown";
  /**
   * @maxItems 50
   */
  renewed?: string[];
  /**
   * @maxItems 50
   */
  rewired?: string[];
  /**
   * @maxItems 50
   */
  seen?: Sight[];
}
/**
 * What is at hand. Own eyes and ears are always there.
 */
export interface ToolsStated {
  instruments: ("meter" | "test lamp" | "substitute lamp" | "clamp" | "fused jumper")[];
  helper?: boolean;
}
/**
 * Where the ends of a wire of the sheet were found on the vehicle.
 */
export interface WireFollowed {
  wire: string;
  start: string;
  end: string;
}
/**
 * A wire as a wiring list has it: its points, and what the list says of it (mm², m).
 */
export interface WireListed {
  id: string;
  start: string;
  end: string;
  colour?: string | null;
  mm2?: number | null;
  metres?: number | null;
}
/**
 * A wire that ran elsewhere is where the sheet has it now.
 */
export interface WirePutBack {
  wire: string;
}
/**
 * A wiring list taken over: its wires are changed or added, all others stay.
 */
export interface WiresListed {
  /**
   * @maxItems 300
   */
  wires: WireListed[];
}
/**
 * Which wire was found in which way of one half of a connector; None is an empty way.
 * `loose` lists wires of the half that hang free.
 */
export interface WiringFound {
  connector: string;
  half: "a" | "b";
  found: {
    [k: string]: string | null;
  };
  /**
   * @maxItems 120
   */
  loose?: string[];
}
