// What the scripts of a page hand to each other, and what is true of every page of the house.

/** One screen of the step view: parts of the page that are shown together. */
interface BenchleafScreen {
  name: string;
  label: string;
  /** 0 where it is no step. */
  step: number;
  parts: HTMLElement[];
  messages?: BenchleafMessage[];
}

interface BenchleafMessage {
  id: string;
  word: string;
  element: HTMLElement;
  isLater: boolean;
}

interface BenchleafState {
  round: number;
  at: number;
  /** The part of a divided step, and of which screen: another screen begins with its first. */
  part: number;
  partOf: string;
  told: Record<string, boolean>;
  read: Record<string, boolean>;
}

/** How a step is laid out at one size of screen, from the table of layouts. */
interface BenchleafLayout {
  parts: string[];
  before: string[];
  columns: number;
  picture: number;
  fit: number;
  beforeFit: number;
}

/** The parts of a divided step (parts.js). */
interface BenchleafParts {
  blocks(step: HTMLElement): Record<string, HTMLElement[]>;
  lay(screen: BenchleafScreen | null, isShut?: boolean): void;
  clear(): void;
  turn(by: number): boolean;
  isLaidOut(): boolean;
  last(screen: BenchleafScreen, isShut: boolean): void;
  holding(screen: BenchleafScreen, element?: Element): void;
  told(): string;
  marks(): { letter: string; state: string }[];
  hasNext(): boolean;
  letterAt(by: number): string;
}

interface BenchleafRoom {
  fit(): void;
  cue(): void;
  cueSoon(): void;
  isOver(): boolean;
}

/** Search, made by search.js; what is loaded at its first use hands itself in by `join`. */
interface BenchleafSearch {
  readonly input: HTMLInputElement;
  readonly load: (name: string) => Promise<unknown>;
  readonly join: (part: Partial<BenchleafSearch>) => void;
  readonly finder?: any;
  readonly panel?: BenchleafPanel;
  readonly keys?: { readonly isShown: boolean; show(panel: HTMLElement, into: HTMLInputElement): void; hide(): void };
}

interface BenchleafPanel {
  open(withKeys: boolean): Promise<void>;
  close(): void;
  enter(): Promise<void>;
  ready(): Promise<any>;
  search(): Promise<boolean>;
  asksForHelp(help: any, text: string, words: any[]): string;
}

interface BenchleafHazards {
  isShut(screen: BenchleafScreen): boolean;
  needsTouch(screen: BenchleafScreen): boolean;
  markRead(screen: BenchleafScreen): void;
  gate(screen: BenchleafScreen): boolean;
  showWhole(screen: BenchleafScreen): void;
  ask(): void;
}

/** What is handed to the step view once, by `join`: it is never written over from outside. */
interface BenchleafJoined {
  /** Hides what this round asks the learner to say. */
  veil(screen: BenchleafScreen | null, shut: boolean): void;
  roundName(): string;
  /** Shows what comes after the last screen. */
  end(box: HTMLElement): void;
}

/** The step view, made by steps.js; others read it. */
interface BenchleafFollow {
  readonly screens: BenchleafScreen[];
  readonly state: BenchleafState;
  readonly steps: BenchleafScreen[];
  readonly isOn: () => boolean;
  readonly show: () => void;
  readonly cover: (name: string, fill: (box: HTMLElement) => void) => void;
  readonly start: (round: number) => void;
  readonly parts: BenchleafParts;
  readonly isOver: () => boolean;
  readonly goTo: (screen: BenchleafScreen, place?: Element) => void;
  readonly markRead: (screen: BenchleafScreen) => void;
  readonly veil: (screen: BenchleafScreen | null, shut: boolean) => void;
  readonly join: (parts: Partial<BenchleafJoined>, actions: Record<string, () => void>) => void;
  readonly act: (name: string) => void;
  /** A second touch within so many ms is the same one; a test touches faster than a finger. */
  again: number;
}

/** A step as it was touched on the record page. */
interface BenchleafStepSeen {
  right: number[];
  /** null where nothing was counted. */
  points: number | null;
  reasons: number | null;
  errors: number;
  hard: boolean;
}

/** What the record page keeps on its device until its file was read back. */
interface BenchleafRecordKept {
  kind: string;
  fields: Record<string, string>;
  /** ms since 1970, as the clock of the device has it. */
  begun: number;
  ended: number;
  steps: Record<string, BenchleafStepSeen>;
  marks: Record<string, boolean>;
  pieces: { seconds: number | null; gauge: string }[];
  result: string;
  watch: number;
  saved: string;
}

/** The file of a record (record-file.js). */
interface BenchleafRecord {
  fresh(): BenchleafRecordKept;
  clockOf(ms: number): string;
  dayOf(ms: number): string;
  text(kept: BenchleafRecordKept, page: DOMStringMap, steps: DOMStringMap[]): string;
  lacking(kept: BenchleafRecordKept): string;
  step(kept: BenchleafRecordKept, id: string): BenchleafStepSeen;
}

interface Window {
  benchleafRecord: BenchleafRecord;
  benchleafParts(article: HTMLElement, state: BenchleafState): BenchleafParts;
  benchleafRack(
    article: HTMLElement,
    top: HTMLElement,
    parts: BenchleafParts,
  ): { show(screen: BenchleafScreen | null, shut: boolean, isPast: boolean, isCovered: boolean): void };
  benchleafFit(article: HTMLElement, stage: HTMLElement, bottom: HTMLElement, parts: BenchleafParts): BenchleafRoom;
  benchleafHazards(
    article: HTMLElement,
    state: BenchleafState,
    answered: (screen: BenchleafScreen) => void,
  ): BenchleafHazards;
  benchleafFollow?: BenchleafFollow;
  benchleafMake<K extends keyof HTMLElementTagNameMap>(tag: K, css?: string, words?: string): HTMLElementTagNameMap[K];
  benchleafIndex(name: string, value: unknown): void;
  benchleafSearch: BenchleafSearch;
  /** That early.js is whole, which judges the copy. */
  benchleafSeal?: boolean;
  /** Loads a style sheet that only a later state needs. */
  benchleafSheet(name: string): Promise<void>;
}

// Scripts look for elements of HTML by class or attribute; drawings are looked for by tag.
interface ParentNode {
  querySelector<K extends keyof HTMLElementTagNameMap>(selectors: K): HTMLElementTagNameMap[K] | null;
  querySelector<K extends keyof SVGElementTagNameMap>(selectors: K): SVGElementTagNameMap[K] | null;
  querySelector<E extends Element = HTMLElement>(selectors: string): E | null;
  querySelectorAll<K extends keyof HTMLElementTagNameMap>(selectors: K): NodeListOf<HTMLElementTagNameMap[K]>;
  querySelectorAll<K extends keyof SVGElementTagNameMap>(selectors: K): NodeListOf<SVGElementTagNameMap[K]>;
  querySelectorAll<E extends Element = HTMLElement>(selectors: string): NodeListOf<E>;
}
interface Element {
  closest<E extends Element = HTMLElement>(selectors: string): E | null;
}
