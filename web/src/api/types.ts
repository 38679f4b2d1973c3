// Made by tools/api_types from web/api.schema.json; change it there.
// The one place where the shape of every request and answer is written. tools/api_types makes web/src/api/types.ts from it; tests/server holds every answer against it. Names end in their unit; a bearing's name has its north; places are [east, north] metres in the ground's own grid and end in grid_m. Legs count from 1. Every request but GET needs the header X-Lodeway: 1.

/** East, north: metres in the ground's grid. */
export type GridPoint = [number, number];

export type Line = GridPoint[];

/** West, south, east, north: metres in the ground's grid. */
export type Extent = [number, number, number, number];

/** Local clock time of the trip's day, "09:15"; "00:40 +1" is of the next day. The key beside it that ends in clock_min counts minutes from that day's midnight. */
export type Clock = string;

export type MaybeClock = string | null;

export interface Done {
  done: true;
}

/** What is wrong, for people. */
export interface Fault {
  code: "bad_input" | "outside_validity" | "outside_ground" | "no_way" | "io_failed" | "too_large" | "cancelled" | "not_found" | "refused" | "conflict" | "not_ready" | "busy";
  /** One line: what was expected, what was given. */
  message: string;
  /** The key ("party.size", "point[2].at", counted from 1) or the file; null: the whole. */
  where: string | null;
  what_to_do: string | null;
  /** The same for a German reader; left out where a word of it has no German. */
  in_german?: {
    message: string;
    what_to_do: string | null;
  };
}

/** The body of every answer with status 400 and over, but 409. */
export interface Problem {
  fault: Fault;
}

export interface Hello {
  program: "lodeway";
  version: string;
  /** Another one after every start. */
  run: string;
  /** Null until it was made. */
  demo_ground_id: string | null;
}

export interface Option {
  /** As in the trip file: "party.size". */
  key: string;
  /** Its name. */
  words: string;
  /** What it changes, one sentence. */
  changes: string;
  type: "number" | "whole" | "flag" | "choice" | "text" | "texts" | "date" | "clock";
  /** "km/h", "m", "°"; empty: none. */
  unit: string;
  least: number | null;
  most: number | null;
  /** For arrow keys. */
  step: number | null;
  /** Null: none, or worked out; see default_words. */
  default: number | string | boolean | null;
  /** "4 km/h", "0.8° (baseplate, practised)". */
  default_words: string;
  choices: {
    value: string;
    words: string;
    changes: string;
  }[];
}

export interface Options {
  groups: {
    key: "trip" | "point" | "party" | "errors" | "home" | "paper";
    words: string;
    options: Option[];
  }[];
}

/** A tile pyramid in the ground's grid; its upper left corner is the origin. */
export interface Tiles {
  /** With {z}, {x}, {y}; add dots=2 for fine screens, slope=1, theme=dark. */
  url: string;
  origin_grid_m: GridPoint;
  extent_grid_m: Extent;
  size_px: number;
  /** From far to close. */
  resolutions_m_per_px: number[];
}

export interface TileQuery {
  dots?: "1" | "2";
  slope?: "0" | "1";
  /** 0: without names and spot heights. */
  names?: "0" | "1";
  /** Degrees from which slopes are hatched as ground to keep off; 90: none. */
  keep_off?: string;
  theme?: "light" | "dark";
}

export interface GroundKind {
  kind: string;
  words: string;
  count: number;
  length_km: number;
}

export interface GroundSource {
  name: string;
  licence: string;
  attribution: string;
  date: string;
}

export interface Ground {
  id: string;
  name: string;
  file: string;
  /** Why it cannot be used; null: it can. */
  fault: Fault | null;
  summary: GroundSummary | null;
}

export interface GroundSummary {
  crs: string;
  /** 0: it has none. */
  epsg: number;
  /** OGC WKT 1, for proj4. */
  wkt: string;
  extent_grid_m: Extent;
  centre_latitude_deg: number;
  centre_longitude_deg: number;
  cell_m: number;
  rows: number;
  cols: number;
  void_share: number;
  /** Null: no heights at all. */
  height_min_m: number | null;
  height_max_m: number | null;
  kinds: GroundKind[];
  sources: GroundSource[];
  /** What it lacks, a sentence each. */
  missing: string[];
  /** What building left out or mended. */
  remarks: string[];
  /** The same for a German reader; a sentence without German stays as it is. */
  missing_in_german?: string[];
  remarks_in_german?: string[];
  tiles: Tiles;
}

export interface GroundList {
  grounds: Ground[];
}

export interface OpenGround {
  path: string;
}

export interface Upload {
  id: string;
  name: string;
  size_bytes: number;
  /** What its name says it is; part: belongs to another file (.dbf, .prj …) and need not be named when building. A .gpkg may be a ground or map features. */
  role: "elevation" | "features" | "ground" | "part" | "trip" | "marks" | "whole";
}

/** An upload's id, or a path on this machine. */
export type FileRef = {
  upload: string;
} | {
  path: string;
};

export interface BuildGround {
  name: string;
  /** Where two have a height the earlier one counts. */
  elevation: FileRef[];
  features: FileRef[];
  /** Empty: the UTM zone of the centre. */
  crs?: string;
  /** 0: the finest elevation file's own. */
  cell_m?: number;
  /** For every file that says none itself. */
  licence?: string;
  attribution?: string;
}

/** Either `at`, as typed, or `east_m` and `north_m`. */
export interface PlaceQuery {
  at?: string;
  east_m?: string;
  north_m?: string;
}

export interface Place {
  at_grid_m: GridPoint;
  /** Does the ground hold it? */
  inside: boolean;
  /** "481949 6050540": what a point's `at` is given as. */
  easting_northing: string;
  /** Empty where it does not reach. */
  mgrs: string;
  latitude_deg: number;
  longitude_deg: number;
  latitude_longitude: string;
  /** As the card prints it: "819 513". */
  grid_reference: string;
  height_m: number | null;
  slope_deg: number | null;
  /** A named place close by, to offer as the point's name. */
  near: string | null;
}

export interface Bring {
  upload: string;
  /** The ground that marks are laid on; null: none yet. */
  ground_id: string | null;
}

export interface Brought {
  kind: "trip" | "whole" | "route" | "track" | "waypoints";
  name: string;
  /** Of a trip; null: it is none. */
  document: TripDocument | null;
  /** Of a whole trip: its ground, which is on the shelf now. */
  ground_id: string | null;
  chosen_way: WayName | null;
  /** Of marks: the places that say the same way, at most 25, as a trip takes them. */
  points: Point[];
  line_grid_m: Line;
  length_m: number | null;
  /** How many of the file's places lie outside the ground. */
  outside: number;
}

export interface WordsQuery {
  language: "en" | "de";
}

export interface Words {
  words: {
  };
}

export interface SignQuery {
  dots?: "1" | "2";
  theme?: "light" | "dark";
}

export interface FindQuery {
  text: string;
  /** With north_m: what is near is told first. */
  east_m?: string;
  north_m?: string;
  language?: "en" | "de";
}

export interface FoundPlace {
  name: string;
  kind: string;
  kind_words: string;
  at_grid_m: GridPoint;
  easting_northing: string;
  grid_reference: string;
  height_m: number | null;
  /** From east_m, north_m of the question, else the ground's middle. */
  distance_m: number;
  /** Letters that were forgiven. */
  slips: number;
}

/** Six, eight or ten figures name a square. */
export interface FoundSquare {
  east_figures: string;
  north_figures: string;
  side_m: number;
  south_west_grid_m: GridPoint;
  /** Its middle. */
  at_grid_m: GridPoint;
  easting_northing: string;
  grid_reference: string;
  height_m: number | null;
  distance_m: number;
  /** Named things that stand in it. */
  in_it: FoundPlace[];
}

export interface Found {
  names: FoundPlace[];
  squares: FoundSquare[];
  /** Easting and northing, map letters, degrees; null: it is no such figure. */
  place: Place | null;
  /** Why figures could not be read. */
  why_not: string | null;
}

export interface NamesQuery {
  west_m: string;
  south_m: string;
  east_m: string;
  north_m: string;
}

export interface MapName {
  /** Empty: a height without a name. */
  name: string;
  kind: string;
  at_grid_m: GridPoint;
  height_m: number | null;
  /** Of lines: east, north and the grid bearing there, each some 400 m. */
  spots: [number, number, number][];
}

export interface MapNames {
  names: MapName[];
}

export interface WhatQuery {
  east_m: string;
  north_m: string;
  /** How far a click may lie from what it means; 0: it means itself. */
  within_m?: string;
  language?: "en" | "de";
}

export interface StandsOn {
  name: string;
  kind_words: string;
  at_grid_m: GridPoint;
  easting_northing: string;
  distance_m: number;
}

export interface WhatIsHere {
  place: Place;
  /** What a click means; null: nothing is so near. */
  stands_on: StandsOn | null;
  /** "60 m north of Tarn House"; null: nothing with a name within a kilometre. */
  called: string | null;
  /** Surfaces there and lines within 15 m, in words. */
  kinds: string[];
}

export interface Learn {
  /** The text of a party file that goes on. */
  party_file?: string;
  tracks?: {
    name: string;
    gpx: string;
  }[];
  marks?: {
    name: string;
    toml: string;
  }[];
  /** Names of figures that stay at the table, instead of those that the party file refuses. */
  refused?: string[];
  as_set?: {
    skill?: string;
    instrument?: string;
    visibility?: string;
    time_model?: string;
  };
  /** Where the tracks are to be drawn; without it they have no lines. */
  ground_id?: string;
  /** Of what is said; without it English. */
  language?: "en" | "de";
}

export interface WayChange {
  /** The text of the party file that the trip would go by. */
  party_file: string;
  /** Of the sentences; without it English. */
  language?: "en" | "de";
}

export interface ChangeJudged {
  verdict: "within" | "close_to" | "not_judged" | "outside";
  kept: number;
  keep_off: number;
  /** Walking. */
  minutes: number;
}

export interface ChangeEnd {
  clock: Clock;
  /** Null: no hour can be named. */
  slow: MaybeClock;
}

export interface WayChanged {
  trip: string;
  way: string;
  before: ChangeJudged;
  now: ChangeJudged;
  end_before: ChangeEnd;
  end_now: ChangeEnd;
  legs: {
    leg: number;
    from: string;
    to: string;
    before: ChangeJudged;
    now: ChangeJudged;
    /** Its verdict. */
    changed: boolean;
  }[];
  /** The whole of it in words: the way, its end, then each leg whose verdict changes. */
  sentences: string[];
}

export interface LearntFigure {
  /** What refuses it: compass, know.stream, paces.up. */
  name: string;
  /** It stays at the table. */
  refused: boolean;
  figure: string;
  words: string;
  /** "in 100": a share of 1. */
  unit: string;
  table: number;
  before: number;
  value: number;
  /** 9 of 10 are within low and high. */
  low: number;
  high: number;
  table_share: number;
  trials: number;
  evidence: number;
  kind?: string;
  ground?: string;
}

export interface LearntEstimate {
  value: number;
  low: number;
  high: number;
  table_share: number;
}

export interface LearntPace {
  /** False: under an hour, the table stands. */
  learnt: boolean;
  days: number;
  moving_min: number;
  walked_km: number;
  /** Minutes against the time model. */
  centre: number;
  shared_log_sd: number;
  leg_log_sd: number;
  leg: LearntEstimate;
  table_share: number;
  stops_per_hour: LearntEstimate;
  stop_min: number;
  slope_exponent: LearntEstimate;
  /** Which of its parts stay at the table. */
  refused: ("minutes" | "leg" | "rests")[];
}

export interface LearntTrack {
  /** Where it lies on the ground that was asked for, and what became of each piece. */
  lines: {
    was: "used" | "ride" | "left_out";
    line_grid_m: Line;
  }[];
  file: string;
  used: "whole" | "part" | "refused";
  reason: string;
  reasons: string[];
  learned_km: number;
  moving_min: number;
  standing_min: number;
  median_kmh: number;
  fast_kmh: number;
}

/** Speed over slope: [degrees, uphill positive; km/h over the horizontal distance, rests not counted]. */
export interface LearntSpeed {
  /** On the flat, what the curves are drawn for. */
  flat_kmh: number;
  /** Some 500 m each, at the mean slope. */
  pieces: Line;
  /** The time model by the table. */
  table: Line;
  /** The same by the learnt minutes; empty under an hour of walking. */
  learnt: Line;
}

export interface Learnt {
  party: string;
  kept: boolean;
  date: string;
  tracks: LearntTrack[];
  marks_taken: number;
  boxes_left_empty: number;
  figures: LearntFigure[];
  pace: LearntPace;
  pace_before: LearntPace;
  speed: LearntSpeed;
  questions: string[];
  not_shown: string[];
  /** Its text, with everything that was learnt. */
  party_file: string;
}

/** What is told of a place, as it is typed; what is missing is not told. Bearings as the needle shows. */
export interface Told {
  height?: string;
  height_from?: "contours" | "altimeter";
  /** A bearing, or nowhere. */
  falls?: string;
  slope?: string;
  landform?: "flat" | "top" | "ridge" | "spur" | "slope" | "hollow" | "valley" | "saddle";
  wood?: "yes" | "no";
  /** "stream", "stream, 40" with its lie, "no path". */
  on?: string[];
  /** "wall", "wall, left", "wall, 270". */
  beside?: string[];
  /** "Harrik Pike, 312", "lake". */
  sees?: string[];
  not_seen?: string[];
  /** "PLACE, 25 min, 340"; the bearing may be missing. */
  last?: string;
  leg?: number;
  leg_minutes?: string;
  north?: "magnetic" | "grid" | "true";
  date?: string;
  visibility?: "clear" | "cloud" | "night" | "snow";
  skill?: "novice" | "practised" | "expert";
  /** Of the answer; without it the trip's, else English. */
  language?: "en" | "de";
}

export interface RelocateTrip {
  revision: number;
  told: Told;
  /** Only where a leg is told. */
  way?: WayName;
}

export interface PlaceThatFits {
  share: number;
  grid_reference: string;
  east_m: number;
  north_m: number;
  middle_east_m: number;
  middle_north_m: number;
  radius_m: number;
  height_msl_m: number | null;
  /** "120 m SE of Harrik Pike"; empty: nothing with a name is near. */
  near: string;
}

export interface QuestionAnswer {
  words: string;
  /** Of Told; empty: it cannot be told so. */
  key: string;
  text: string;
  chance: number;
  /** From 1; null: none stands out. */
  place: number | null;
  place_share: number;
}

export interface Question {
  ask: string;
  act: "tell" | "walk_high_on_right" | "walk_high_on_left" | "walk_uphill" | "walk_downhill";
  cue: string;
  kind: string;
  thing: number | null;
  bits: number;
  minutes: number;
  answers: QuestionAnswer[];
}

export interface SoundMove {
  words: string;
  kind: "bearing" | "downhill" | "uphill" | "high_ground_on_left" | "high_ground_on_right";
  bearing_grid_deg: number | null;
  bearing_magnetic_deg: number | null;
  within_m: number;
  met_share: number;
  keep_off_share: number;
  felt_share: number;
}

export interface Relocation {
  /** Dangers first. */
  warnings: string[];
  told: string[];
  norths: string;
  grid_magnetic_deg: number;
  /** Likeliest first. */
  places: PlaceThatFits[];
  elsewhere_share: number;
  area50_m2: number;
  area90_m2: number;
  areas: LikelyAreas;
  on_keep_off_share: number;
  window: CellWindow;
  questions: Question[];
  /** Only those that keep the promise; best first. */
  moves: SoundMove[];
  no_move: string | null;
  resection: Resection | null;
}

/** Outlines, with holes: within them 50 and 90 in 100 of what is on the map. */
export interface LikelyAreas {
  half: Line[];
  nine_in_ten: Line[];
}

export interface CellWindow {
  west_m: number;
  south_m: number;
  east_m: number;
  north_m: number;
  cell_m: number;
}

export interface Resection {
  words: string;
  east_m: number;
  north_m: number;
  bias_deg: number;
  major_sigma_m: number | null;
  minor_sigma_m: number | null;
  azimuth_grid_deg: number;
  chi2: number;
  redundancy: number;
  residual_deg: number[];
}

export interface KeptOff {
  from_m: number;
  to_m: number;
  what: string;
  line_grid_m: Line;
}

export interface StringLaid {
  leg: Leg;
  /** Pieces over ground to keep off. */
  keep_off: KeptOff[];
  /** At even steps from start to end; null: not known. */
  heights_m: (number | null)[];
}

export interface Point {
  name?: string;
  /** As typed: easting northing, MGRS, latitude longitude. */
  at: string;
  get_here?: "find" | "along" | "bearing";
  stay_min?: number;
  /** Of the first and the last: counts as safe ground. */
  safe?: boolean;
}

export interface Avoid {
  name?: string;
  ring: string[];
}

export interface PartyKeys {
  size?: number;
  flat_speed_kmh?: number;
  stride_m?: number;
  load_kg?: number;
  time_model?: "naismith-langmuir" | "tobler" | "swiss" | "din-33466" | "irmischer-clarke";
  rest_every_min?: number;
  rest_min?: number;
  instrument?: "baseplate" | "mirror";
  skill?: "novice" | "practised" | "expert";
  visibility?: "clear" | "cloud" | "night" | "snow";
  max_slope_deg?: number;
  max_leg_m?: number;
  ford_streams?: boolean;
  time_band?: number;
  errors?: {
    bearing_sigma_deg?: number;
    sighting_sigma_deg?: number;
    sighting_every_m?: number;
    distance_sigma?: number;
  };
}

export interface HomeKeys {
  contact?: string;
  phone?: string;
  leader?: string;
  leader_phone?: string;
  members?: string[];
  emergency_number?: string;
  signals?: "alpine" | "north america";
  transport?: string;
  gear?: string;
  medical?: string;
  clothing?: string;
  beacon?: string;
  experience?: string;
  check_in?: string;
}

export interface PaperKeys {
  scale?: number;
  size?: "A5" | "A4" | "A3" | "Letter";
  landscape?: boolean;
  shade?: "relief" | "slope" | "none";
  half_contours?: boolean;
  language?: "en" | "de";
  units?: "metric" | "imperial";
  angle?: "degrees" | "mils";
}

/** The keys of the trip file. What is not there has its default (Options). May be unfinished: Trip.faults says what is missing. */
export interface TripDocument {
  name?: string;
  date?: string;
  start?: string;
  zone?: string;
  min_certainty?: number;
  point?: Point[];
  avoid?: Avoid[];
  /** Places that count as safe ground, beside those of the map. */
  safe?: {
    name: string;
    at: string;
  }[];
  party?: PartyKeys;
  home?: HomeKeys;
  paper?: PaperKeys;
}

/** given: the leader gave every stretch. */
export type WayName = "quick" | "middle" | "sure" | "given";

/** What changes, undo and redo work on. */
export interface TripState {
  document: TripDocument;
  /** What the party has shown of itself: a party file's text; null or absent: the tables stand. */
  party_file?: string | null;
  ground_id: string | null;
  chosen_way: WayName | null;
  /** Sheets moved by hand: the lower left corner of each map; null: laid along the way. */
  sheets: Line | null;
}

export interface Trip {
  id: string;
  /** Counts every change, undo and redo. */
  revision: number;
  state: TripState;
  /** What must be mended before ways can be found; `where` is a key of the document. */
  faults: Fault[];
  can_undo: boolean;
  can_redo: boolean;
  /** RFC 3339, UTC. */
  changed_at: string;
}

export interface TripEntry {
  id: string;
  revision: number;
  name: string;
  date: string;
  ground_id: string | null;
  changed_at: string;
}

export interface TripList {
  trips: TripEntry[];
}

export interface NewTrip {
  ground_id: string | null;
  /** The browser's IANA zone. */
  zone?: string;
  document?: TripDocument;
  party_file?: string | null;
  /** The example round of the invented ground, points and all. */
  example?: boolean;
}

export interface Change {
  /** JSON pointer into TripState: "/document/party/size", "/document/point", "/chosen_way". Tables that are missing on the way are made. A list counts as one thing: change it whole. */
  path: string;
  /** Null: the key is taken out (its default counts again). */
  value: unknown;
}

export interface Changes {
  revision: number;
  changes: Change[];
}

export interface AtRevision {
  revision: number;
}

/** The body of 409. */
export interface Conflict {
  fault: Fault;
  newest: Trip;
  /** The paths that both changed. */
  contested: string[];
}

export type Side = "left" | "right" | "across" | "ahead";

export interface Tick {
  what: string;
  kind: string;
  side: Side;
  /** Along the leg from its start. */
  at_m: number;
  minutes: number;
  at_grid_m: GridPoint;
}

/** What stops a party that goes on past the end. */
export interface Stop {
  what: string;
  kind: string;
  beyond_m: number;
  minutes: number;
  line_grid_m: Line;
}

export interface Danger {
  what: string;
  side: Side;
  distance_m: number;
}

/** The part of a leg that is walked on the needle: to its end, or to the aim beside it. */
export interface OnTheNeedle {
  /** On the ground. */
  length_m: number;
  /** On the trip's map. */
  map_mm: number;
  double_paces: number;
  minutes: number;
  magnetic_bearing_deg: number;
  grid_bearing_deg: number;
  aim_grid_m: GridPoint;
}

/** After an aim to one side: at the line met, turn and go along it to the end. */
export interface AlongAfter {
  /** On the ground. */
  length_m: number;
  /** On the trip's map. */
  map_mm: number;
  double_paces: number;
  minutes: number;
  /** What is met. */
  line: string;
  turn: "left" | "right";
}

export interface WayOff {
  words: string;
  /** What the safe ground is called. */
  haven: string;
  minutes: number;
  first_magnetic_bearing_deg: number;
  first_grid_bearing_deg: number;
  line_grid_m: Line;
}

/** A place where more than one line may be taken for the way. */
export interface Fork {
  /** Along the leg from its start. */
  at_m: number;
  /** "left", "keep left", "straight on", "leave it, on the bearing", "by the needle, along no way". */
  turn: string;
  /** A leg along a line that begins beside it: so far over open ground, and here it comes to the line. */
  over_open_ground_to_it: boolean;
  /** Of the right branch, over its first 100 m, or 30 m where it turns before. */
  magnetic_bearing_deg: number;
  /** Of the others, magnetic. */
  wrong_deg: number[];
  /** From one bearing onto another: of the ways that set out beside the needle, magnetic. */
  beside_deg: number[];
  /** These run beside the whole next leg; else they turn off. */
  beside_all_along: boolean;
}

export interface LegNote {
  about: "attack_point" | "turn" | "long_leg" | "taken_for";
  /** In the trip's language. */
  words: string;
}

export interface Ford {
  /** Along the leg from its start. */
  at_m: number;
  water: string;
  at_grid_m: GridPoint;
  /** Over water, anywhere on it. */
  map_has_bridges: boolean;
  /** By the nearest bridge over the same water; null: none within 2 km on the map. */
  round: WayRound | null;
}

export interface WayRound {
  bridge: string;
  magnetic_bearing_deg: number;
  away_m: number;
  /** More than straight over: at least so many. */
  minutes: number;
}

export interface MainBend {
  at_m: number;
  /** After it. */
  magnetic_bearing_deg: number;
}

/** From a place on a leg to safe ground, in legs like any other, judged as the trip is and in cloud: what is worse of the two. */
export interface Escape {
  from: "start" | "middle" | "end";
  /** What the safe ground is called. */
  to: string;
  /** Walking; 0: the party stands on safe ground. */
  minutes: number;
  /** Nine of ten parties like this need less. */
  minutes_slow: number;
  /** 0 to 1: that it is kept. */
  certainty: number;
  /** Of setting foot on ground to keep off, on any of its legs. */
  hazard_probability: number;
  the_way_they_came: boolean;
  /** Back the way they came, walking; 0 on safe ground. */
  back_minutes: number;
  /** In snow, no route leads round slopes of 30 to 45 degrees. */
  over_snow_slope: boolean;
  /** On a slow day it ends after last light. */
  after_last_light: boolean;
  /** None: the party stands on safe ground. */
  legs: Leg[];
}

/** The leg's card line, as printed: in the trip's language and units. */
export interface LegWords {
  /** "044°", or what is followed: "path". */
  bearing: string;
  length: string;
  map: string;
  climb: string;
  descent: string;
  double_paces: string;
  minutes: string;
  /** What the hand does. */
  how: string;
  /** "91 of 100"; "not known". */
  certainty: string;
  stops: string;
  if_lost: string;
  way_off: string;
  /** Empty: nothing found. */
  confusable: string;
}

/** As lodeway way --json and the server write it. */
export interface Leg {
  leg: number;
  kind: "along" | "bearing";
  from: string;
  to: string;
  /** The point of the trip that it ends at, counted from 1 (the start); null: an end that was found. */
  ends_point: number | null;
  /** Grid reference of its end, as printed. */
  reference: string;
  /** Of its end, for rescuers: lettered grid square of 10 m, latitude and longitude. */
  full_reference: string;
  along: string | null;
  along_kind: string | null;
  /** On the ground, as walked: on the needle and after the aim together. */
  length_m: number;
  /** On the trip's map: to the aim, or the whole of what is followed. */
  map_mm: number;
  climb_m: number;
  descent_m: number;
  /** The needle's; of a leg along a line: from its start to its end. */
  grid_bearing_deg: number;
  magnetic_bearing_deg: number;
  /** Magnetic. */
  back_bearing_deg: number;
  /** Of the first 100 m, or 30 m where it turns before. */
  first_magnetic_bearing_deg: number;
  /** As length_m, rests not in it. */
  minutes: number;
  /** Nine of ten parties like this need less. */
  minutes_slow: number;
  /** As map_mm. */
  double_paces: number;
  /** Null: along a line. */
  on_the_needle: OnTheNeedle | null;
  /** Null: not aimed off. */
  along_after: AlongAfter | null;
  /** Along the line met, from the aim to the end; 0: not aimed off. */
  aim_off_m: number;
  aim_off_side: "left" | "right" | null;
  ground_factor: number;
  leave: MaybeClock;
  leave_clock_min: number | null;
  arrive: MaybeClock;
  arrive_clock_min: number | null;
  arrive_slow: MaybeClock;
  arrive_slow_clock_min: number | null;
  rest_after_min: number;
  rest_within_min: number;
  /** 0 to 1: kept at the first try. */
  certainty: number;
  /** With every chance of failing a third more than the table says; null: not worked out. */
  certainty_low: number | null;
  /** With a third less. */
  certainty_high: number | null;
  /** Simulated parties that ended it there, some after going wrong, of those who set out on it; null: nobody walked. */
  in_the_end: number | null;
  /** 0 to 4, as on the card; null: no fix at the end. */
  stones: number | null;
  /** False: a dog-leg's turn, nothing to see. */
  fix_at_end: boolean;
  cross_sigma_m: number;
  along_sigma_m: number;
  hazard_probability: number;
  recovery_minutes: number;
  confusable: string | null;
  confusable_probability: number;
  /** Null: nothing stops the party. */
  catching: Stop | null;
  if_lost: string | null;
  /** What is known at once of why it is so, a sentence each; more by …/why. */
  explain: string[];
  remark: string | null;
  /** Where the end is a fork and another leg follows; else null. */
  at_end: Fork | null;
  /** On the way, by distance. */
  forks: Fork[];
  /** Its main bends, at most four. */
  bends: MainBend[];
  /** Water crossed without a bridge. */
  fords: Ford[];
  /** What is told of it beside its figures, a sentence each: why it turns where nothing marks the place, that it is long, what its end could be taken for, that its end is an attack point. Of a leg of an escape route: none. */
  notes: LegNote[];
  /** Of a leg along water. */
  flow: "upstream" | "downstream" | null;
  /** On which hand the wall, wood or bank that is followed is kept. */
  keeps_on: "left" | "right" | null;
  /** All that is told to be ticked off, by distance: bends too where the leg would be bare without them. */
  ticks: Tick[];
  /** Stretches of over 600 m along the leg on which there is nothing to tick off. */
  bare: {
    from_m: number;
    to_m: number;
  }[];
  dangers: Danger[];
  /** The escape route that stands on the leg's line of the card: from its middle, else from its start; where that is safe ground from its end. */
  way_off: WayOff | null;
  /** Its escape routes: from its start, its middle (where it takes over 20 minutes) and its end. Of a leg of an escape route: none. */
  escapes: Escape[];
  touches_void: boolean;
  line: Line;
  /** Ring, 2 sigma to each side of a leg on a bearing; null on a line. */
  ribbon_grid_m: Line | null;
  /** Ring: 95 of 100 end in it; null: no spread. */
  ellipse_grid_m: Line | null;
  words: LegWords;
}

/** The way's height by the clock; level while the party rests. */
export interface ProfilePoint {
  clock_min: number;
  /** Null: no height known. */
  height_m: number | null;
  along_m: number;
  leg: number;
  resting: boolean;
  at_grid_m: GridPoint;
  /** Doubt across the leg, one sigma; null: not judged. */
  cross_sigma_m: number | null;
  along_sigma_m: number | null;
}

export interface Daylight {
  civil_dawn: MaybeClock;
  civil_dawn_clock_min: number | null;
  rise: MaybeClock;
  rise_clock_min: number | null;
  set: MaybeClock;
  set_clock_min: number | null;
  civil_dusk: MaybeClock;
  civil_dusk_clock_min: number | null;
  /** "the sun does not set"; null: an ordinary day. */
  state: string | null;
}

export interface Schedule {
  start: Clock;
  start_clock_min: number;
  /** Whose clock it is: an IANA name. */
  zone: string;
  /** Ends elsewhere than where it starts: due, not back. */
  one_way: boolean;
  end: Clock;
  end_clock_min: number;
  /** Half of the simulated parties are through, back or on safe ground. */
  end_half: MaybeClock;
  end_half_clock_min: number | null;
  /** Nine in ten of all are: no worry until then. Null: more than one in ten do not come home by themselves, and no hour can be named. */
  end_slow: MaybeClock;
  end_slow_clock_min: number | null;
  /** Null: as end_slow. */
  act_by: MaybeClock;
  act_by_clock_min: number | null;
  /** Simulated parties that do not come home by themselves that day, of 1. */
  never_home: number;
  /** To end before last light on a slow day. */
  latest_start: MaybeClock;
  latest_start_clock_min: number | null;
  /** Not at the end of turn_round_leg by then: go back. */
  turn_round: MaybeClock;
  turn_round_clock_min: number | null;
  turn_round_leg: number | null;
  turn_round_back_min: number;
  to_sunset_min: number | null;
  to_dusk_min: number | null;
  civil_dawn: MaybeClock;
  civil_dawn_clock_min: number | null;
  rise: MaybeClock;
  rise_clock_min: number | null;
  set: MaybeClock;
  set_clock_min: number | null;
  civil_dusk: MaybeClock;
  civil_dusk_clock_min: number | null;
  /** "the sun does not set"; null: an ordinary day. */
  state: string | null;
}

export interface Norths {
  declination_deg: number;
  declination_sigma_deg: number;
  annual_change_deg: number;
  convergence_deg: number;
  /** magnetic = grid - this. */
  grid_magnetic_deg: number;
  zone_warning: string | null;
}

export interface Warning {
  severity: "note" | "caution" | "danger";
  text: string;
  /** Null: the whole trip. */
  leg: number | null;
}

/** The first thing said of a way. It never says that ground holds no danger. */
export interface Verdict {
  band: "within" | "close_to" | "not_judged" | "outside";
  /** In the trip's language. */
  headline: string;
  /** What fails, worst first, in the trip's language. */
  sentences: string[];
  reasons: VerdictReason[];
}

export interface VerdictReason {
  band: "close_to" | "not_judged" | "outside";
  what: "keep_off" | "water_stops" | "never_home" | "dark" | "dark_start" | "back_too_late" | "lost_leg" | "no_heights" | "no_compass" | "water_unknown" | "unsure_leg" | "little_light" | "wade";
  /** From 1; null: the whole way. */
  leg: number | null;
  /** Chances of 1, durations in minutes, counts. */
  value: number;
  limit: number;
  text: string;
}

/** As lodeway way --json and the server write it. */
export interface Way {
  name: WayName;
  /** "Quick", in the page's words. */
  title: string;
  picked: boolean;
  verdict: Verdict;
  start_name: string;
  start_reference: string;
  /** Lettered grid square of 10 m, latitude and longitude: for rescuers. */
  start_full_reference: string;
  start_grid_m: GridPoint;
  length_m: number;
  climb_m: number;
  descent_m: number;
  /** Walking. */
  minutes: number;
  /** With rests and stays. */
  minutes_total: number;
  /** Walking, and recovery by the chance that it is needed. */
  expected_min: number;
  /** Every leg kept at the first try: the lower of walked and worked out. */
  certainty: number;
  /** Share of the simulated parties that nobody puts back; null: none walked. */
  certainty_walked: number | null;
  /** The mean over what is not known of the party. */
  certainty_worked_out: number;
  /** The same with the party's figures taken as known. */
  certainty_as_known: number;
  weakest_leg: number | null;
  /** Of setting foot on ground to keep off on any leg. */
  hazard_probability: number;
  /** Share of the walkers, whom nobody puts back, that kept every leg; 0 where nobody walked. */
  rehearsed: number;
  /** Its standard error. */
  rehearsed_error: number;
  /** Parties that walked the way; 0 where it could not be walked. */
  walkers: number;
  schedule: Schedule;
  norths: Norths;
  legs: Leg[];
  warnings: Warning[];
  profile: ProfilePoint[];
  /** Which of its legs fall short of what was asked for, in the trip's language, a sentence each. */
  remarks: string[];
  /** In the trip's language and units. */
  words: {
    time: string;
    length: string;
    climb: string;
    certainty: string;
    to_dusk: string;
  };
}

export interface Ways {
  job: string;
  trip_id: string;
  revision: number;
  ground_id: string;
  daylight: Daylight;
  /** One to three, the quick one first. */
  ways: Way[];
  /** The trip's choice, or the nearest that there is. */
  picked: WayName;
  /** Why there are fewer than three, which limit is not met: a sentence each. */
  remarks: string[];
  /** All that was found between the quick and the sure one: none is both quicker and surer than another. */
  front: {
    minutes: number;
    certainty: number;
  }[];
}

export interface ConditionRow {
  condition: "as_planned" | "cloud" | "clear" | "hour_late" | "streams_up" | "slower" | "snow";
  title: string;
  verdict: "within" | "close_to" | "not_judged" | "outside";
  sentences: string[];
  certainty: number;
  hazard_probability: number;
  /** Walking. */
  minutes: number;
  end: string | null;
  end_clock_min: number | null;
  end_slow: string | null;
  end_slow_clock_min: number | null;
  /** That fails first; null: none, or the day as a whole. */
  leg: number | null;
  fallback: "none_needed" | "other_way" | "turn_back" | "start_sooner" | "stay_home";
  /** The fallback in words. */
  then: string;
}

/** The table of lodeway way --conditions. */
export interface Conditions {
  rows: ConditionRow[];
}

/** The whole answer of lodeway way --json: the picked way, and all that there are to choose from. */
export interface Plan {
  verdict: Verdict;
  trip: string;
  ground: string;
  crs: string;
  epsg: number;
  /** The picked way's name in the trip's language. */
  way: string;
  length_m: number;
  climb_m: number;
  descent_m: number;
  minutes: number;
  /** Every leg kept at the first try: the lower of walked and worked out. */
  certainty: number;
  /** Share of the simulated parties that nobody puts back; null: none walked. */
  certainty_walked: number | null;
  /** The mean over what is not known of the party. */
  certainty_worked_out: number;
  /** The same with the party's figures taken as known. */
  certainty_as_known: number;
  /** A sentence with both figures where they differ. */
  certainty_words: string | null;
  hazard_probability: number;
  /** Why it is another way than the one asked for; null: it is that one. */
  picked_why: string | null;
  norths: Norths;
  schedule: Schedule;
  legs: Leg[];
  ways: Way[];
  remarks: string[];
  /** What becomes of the picked way when the day changes; empty unless asked for (--conditions). */
  conditions: ConditionRow[];
  explained: string | null;
  warnings: Warning[];
}

export interface Why {
  sentences: string[];
}

export interface QuickLegs {
  /** 2 to 6 places: the first is a fix, each next ends a leg on a bearing. */
  points_grid_m: Line;
  names?: string[];
}

/** Legs without clock and way off (null). */
export interface QuickAnswer {
  legs: Leg[];
}

export interface WhichWay {
  revision: number;
  way: WayName;
}

export interface Rehearse {
  revision: number;
  way: WayName;
  walkers: number;
  seed?: number;
}

export interface RehearsedLeg {
  leg: number;
  /** Who set out on it. */
  walkers: number;
  /** Who ended where they should, at the first try. */
  kept: number;
  certainty: number;
  certainty_error: number;
  /** The closed form's certainty. */
  expected: number;
  /** Why the others did not, most frequent first. */
  lost: {
    why: string;
    walkers: number;
  }[];
  /** Who set foot on forbidden ground. */
  hazard: number;
  minutes_10: number;
  minutes_50: number;
  minutes_90: number;
}

/** A party at the leg that it lost first: where it went wrong or where that showed, and its true line from the start of the leg to 600 m after. */
export interface Lost {
  leg: number;
  why: string;
  at_grid_m: GridPoint;
  line_grid_m: Line;
}

export interface WatchedLeg {
  leg: number;
  /** Who went wrong here for the first time. */
  lost: number;
  /** Who have not gone wrong when this leg is walked. */
  left: number;
  /** Who set foot on ground to keep off on this leg. */
  keep_off: number;
  /** Why they went wrong, most frequent first. */
  why: {
    why: string;
    parties: number;
  }[];
}

/** Parties that walk the way and that nobody puts back; each counts once, at the leg that it lost first. */
export interface Watch {
  parties: number;
  /** Who set foot on ground to keep off, anywhere. */
  keep_off: number;
  /** Who were out after last light. */
  benighted: number;
  legs: WatchedLeg[];
  /** Some of them to be shown, at most 40 a leg. */
  lost: Lost[];
  /** How their day ended. */
  ended: {
    state: string;
    parties: number;
  }[];
}

export interface Rehearsal {
  job: string;
  trip_id: string;
  revision: number;
  way: WayName;
  verdict: Verdict;
  walkers: number;
  seed: number;
  /** Share that kept every leg at the first try. */
  certainty: number;
  certainty_error: number;
  expected: number;
  hazard_share: number;
  hazard_error: number;
  turned_back_share: number;
  minutes_10: number;
  minutes_50: number;
  minutes_90: number;
  /** The leg that loses most; null: none is lost. */
  weakest_leg: number | null;
  legs: RehearsedLeg[];
  /** Where they stray: a PNG with transparency, to lie over the map. */
  density: {
    url: string;
    extent_grid_m: Extent;
    /** What dark and light mean. */
    words: string;
  };
  watch: Watch;
  /** What it comes to, for people. */
  sentences: string[];
}

export interface SheetFrame {
  name: string;
  south_west_grid_m: GridPoint;
  width_m: number;
  height_m: number;
  scale: number;
}

export interface Sheets {
  frames: SheetFrame[];
  /** Legs that no sheet holds whole, after sheets were moved. */
  uncovered_legs: number[];
}

export interface MakePaper {
  revision: number;
  way: WayName;
  large_type?: boolean;
}

export interface PaperFile {
  /** "sheet-1.pdf". */
  file: string;
  title: string;
  what: "sheet" | "card" | "home_note" | "escape_card" | "lost_card" | "gpx" | "geojson" | "text" | "table" | "trip" | "everything" | "kml" | "calendar" | "zip";
  url: string;
  size_bytes: number;
  /** Previews, of PDFs only. */
  pages: {
    preview_url: string;
    width_mm: number;
    height_mm: number;
  }[];
}

export interface Paper {
  job: string;
  trip_id: string;
  revision: number;
  way: WayName;
  verdict: Verdict;
  files: PaperFile[];
  frames: SheetFrame[];
}

export interface Job {
  id: string;
  kind: "ground" | "ways" | "rehearsal" | "paper";
  state: "waiting" | "running" | "done" | "failed" | "cancelled";
  /** 0 to 1; null: it cannot be told. */
  share: number | null;
  /** A few words. */
  doing: string;
  /** Since it began to run. */
  seconds: number;
  trip_id: string | null;
  revision: number | null;
  ground_id: string | null;
  /** When done: "/api/ways/…" and so on; for a ground "/api/grounds/…". */
  result_url: string | null;
  /** When failed. */
  fault: Fault | null;
}

export interface JobList {
  jobs: Job[];
}

/** One of the stream. `hello` comes first, then every job that is not over; `trip` when it changed, here or in another tab (revision null: it is gone); `grounds` when the list changed. */
export type Event = {
  type: "hello";
  hello: Hello;
} | {
  type: "job";
  job: Job;
} | {
  type: "trip";
  trip_id: string;
  revision: number | null;
} | {
  type: "grounds";
};

/** Method and path of every endpoint, what is sent and what comes back. */
export interface Endpoints {
  /** who answers; `run` changes with every start of the server */
  "GET /api/hello": { request: null; answer: Hello };
  /** every key of a trip in words, with unit, range, default and what it changes */
  "GET /api/options": { request: null; answer: Options };
  /** what the page says in another language, by its English; the paper's words and the page's own */
  "GET /api/words": { request: WordsQuery; answer: Words };
  /** server-sent events, one stream a page: each `data:` is one Event; a comment line every 5 s as a sign of life */
  "GET /api/events": { request: null; answer: Event };
  /** grounds that the server knows */
  "GET /api/grounds": { request: null; answer: GroundList };
  /** a ground file on this machine, by its path */
  "POST /api/grounds/open": { request: OpenGround; answer: Ground };
  /** builds a ground; the job's ground_id is there when it is done */
  "POST /api/grounds/build": { request: BuildGround; answer: Job };
  /** the invented ground, Skarrow Fells; at once when it was made before */
  "POST /api/grounds/demo": { request: null; answer: Job };
  "GET /api/grounds/{id}": { request: null; answer: Ground };
  /** forgets it; a file that lies outside of the state folder stays */
  "DELETE /api/grounds/{id}": { request: null; answer: GroundList };
  /** typed reference <-> place on the grid, with its height; the query stands in the URL */
  "GET /api/grounds/{id}/place": { request: PlaceQuery; answer: Place };
  /** places by name or figures, slips and accents forgiven; the query stands in the URL */
  "GET /api/grounds/{id}/find": { request: FindQuery; answer: Found };
  /** the names of a part of the map, most telling first */
  "GET /api/grounds/{id}/names": { request: NamesQuery; answer: MapNames };
  /** a kind's sign as map and paper draw it */
  "GET /api/signs/{kind}.png": { request: SignQuery; answer: Blob };
  /** what stands at a place, and what a click there means */
  "GET /api/grounds/{id}/what": { request: WhatQuery; answer: WhatIsHere };
  /** map picture; z is the index in Tiles.resolutions, y counts down from the origin */
  "GET /api/grounds/{id}/tiles/{z}/{x}/{y}.png": { request: TileQuery; answer: Blob };
  /** body: the file's bytes; streamed to disk */
  "POST /api/uploads?name={name}": { request: Blob; answer: Upload };
  "DELETE /api/uploads/{id}": { request: null; answer: Done };
  /** what a file that was sent holds: a trip, a trip with its ground, a route or track; nothing is changed yet */
  "POST /api/bring": { request: Bring; answer: Brought };
  /** the trip with its ground, for another machine's Lodeway */
  "GET /api/trips/{id}/whole.zip": { request: null; answer: Blob };
  /** newest change first */
  "GET /api/trips": { request: null; answer: TripList };
  "POST /api/trips": { request: NewTrip; answer: Trip };
  "GET /api/trips/{id}": { request: null; answer: Trip };
  "DELETE /api/trips/{id}": { request: null; answer: TripList };
  /** 409 and Conflict when somebody changed the same things since `revision`; other things are merged */
  "POST /api/trips/{id}/changes": { request: Changes; answer: Trip };
  /** 409 and Conflict when `revision` is not the newest */
  "POST /api/trips/{id}/undo": { request: AtRevision; answer: Trip };
  /** as undo */
  "POST /api/trips/{id}/redo": { request: AtRevision; answer: Trip };
  /** the trip file, for the command line */
  "GET /api/trips/{id}/trip.toml": { request: null; answer: Blob };
  /** daylight of the trip's date at its start, or at the ground's middle while it has none */
  "GET /api/trips/{id}/day": { request: null; answer: Daylight };
  /** finds the ways; an answer that is still in memory is done at once */
  "POST /api/trips/{id}/ways": { request: AtRevision; answer: Job };
  "GET /api/ways/{job}": { request: null; answer: Ways };
  /** why the party goes this leg so, and what the next best would be; leg from 1; takes up to a few seconds */
  "GET /api/ways/{job}/{way}/{leg}/why": { request: null; answer: Why };
  /** what becomes of this way when the day changes, and what to fall back on; takes about a second; `row`, 0 to 5: that row alone */
  "GET /api/ways/{job}/{way}/conditions": { request: null; answer: Conditions };
  /** figures of legs on a bearing through these places, at once: while a leg's end is dragged */
  "POST /api/trips/{id}/quick": { request: QuickLegs; answer: QuickAnswer };
  /** a string laid from the first place to the second: figures whatever lies under it, and where it lies over ground to keep off */
  "POST /api/trips/{id}/measure": { request: QuickLegs; answer: StringLaid };
  /** where are we: the places that fit what is told */
  "POST /api/grounds/{id}/relocate": { request: Told; answer: Relocation };
  /** the same by the trip's day, party and compass */
  "POST /api/trips/{id}/relocate": { request: RelocateTrip; answer: Relocation };
  /** what tracks and marks show of a party, beside as set; nothing is kept */
  "POST /api/party/learn": { request: Learn; answer: Learnt };
  /** what a party file would do to this way: the same legs, judged and timed anew; takes about a second; 404 when the trip was changed since the ways were found */
  "POST /api/ways/{job}/{way}/change": { request: WayChange; answer: WayChanged };
  "POST /api/trips/{id}/rehearsal": { request: Rehearse; answer: Job };
  "GET /api/rehearsals/{job}": { request: null; answer: Rehearsal };
  "GET /api/rehearsals/{job}/density.png": { request: null; answer: Blob };
  /** where the map sheets lie; the ways must have been found */
  "POST /api/trips/{id}/sheets": { request: WhichWay; answer: Sheets };
  "POST /api/trips/{id}/paper": { request: MakePaper; answer: Job };
  "GET /api/papers/{job}": { request: null; answer: Paper };
  /** PDF, PNG, GPX, GeoJSON, text */
  "GET /api/papers/{job}/{file}": { request: null; answer: Blob };
  "GET /api/jobs": { request: null; answer: JobList };
  "GET /api/jobs/{id}": { request: null; answer: Job };
  /** stops it; `cancelled` follows as an event */
  "DELETE /api/jobs/{id}": { request: null; answer: Job };
}
