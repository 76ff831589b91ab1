import type { Path } from "../reading/index.js";

/** A value that is looked for in a text, or stands around one that is. */
interface Place {
  /** Where it begins; null until it is met. Of a member that stands twice the last counts. */
  offset: number | null;
  readonly inside: Map<string, Place>;
}

/** An object or a list that is being read through. */
interface Open {
  readonly isObject: boolean;
  /** Undefined where nothing inside is looked for. */
  readonly place: Place | undefined;
  /** The member whose value comes next. */
  key: string;
  index: number;
}

const SPACE = /[ \t\n\r]/;
const PLAIN = /true|false|null|-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const ESCAPED = /\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/y;

/** Where a text stops being JSON (RFC 8259); its length where it is JSON to its end. */
export function jsonEnd(text: string): number {
  return new Scanner(text, undefined).scan();
}

/** Where the values at some paths begin in a sound JSON text; where nothing stands at one, what is around it. */
export function jsonOffsets(text: string, paths: readonly Path[]): (path: Path) => number {
  const root: Place = { offset: null, inside: new Map() };
  for (const path of paths) {
    let place = root;
    for (const step of path) {
      const inner = place.inside.get(String(step)) ?? { offset: null, inside: new Map() };
      place.inside.set(String(step), inner);
      place = inner;
    }
  }
  new Scanner(text, root).scan();
  return (path) => {
    let place: Place | undefined = root;
    let offset = root.offset ?? 0;
    for (const step of path) {
      place = place?.inside.get(String(step));
      offset = place?.offset ?? offset;
    }
    return offset;
  };
}

class Scanner {
  private readonly open: Open[] = [];
  private at = 0;
  /** What may come next: a list or an object may end where its first entry could begin, and after each. */
  private next: "value" | "first" | "key" | "colon" | "comma" = "value";

  constructor(
    private readonly text: string,
    private readonly root: Place | undefined,
  ) {}

  /** Notes the offsets of what is looked for, and gives where it stops being JSON. */
  scan(): number {
    for (;;) {
      while (SPACE.test(this.text[this.at] ?? "")) this.at += 1;
      const isWhole = this.open.length === 0 && this.next === "comma";
      if (isWhole || !this.step()) return this.at;
    }
  }

  /** Goes past the next token; false where none that may stand here does. */
  private step(): boolean {
    const within = this.open.at(-1);
    const character = this.text[this.at];
    if (within !== undefined && (this.next === "first" || this.next === "comma")) {
      if (character === (within.isObject ? "}" : "]")) {
        this.open.pop();
        return this.past("comma");
      }
      if (this.next === "comma") {
        if (character !== ",") return false;
        within.index += 1;
        return this.past(within.isObject ? "key" : "value");
      }
    }
    if (this.next === "colon") return character === ":" && this.past("value");
    if (within?.isObject === true && this.next !== "value") return this.key(within);
    return this.value(character, within);
  }

  private key(within: Open): boolean {
    const start = this.at;
    if (this.text[start] !== '"' || !this.string()) return false;
    within.key = JSON.parse(this.text.slice(start, this.at));
    this.next = "colon";
    return true;
  }

  private value(character: string | undefined, within: Open | undefined): boolean {
    const place =
      within === undefined
        ? this.root
        : within.place?.inside.get(within.isObject ? within.key : String(within.index));
    if (place !== undefined) place.offset = this.at;
    if (character === "{" || character === "[") {
      this.open.push({ isObject: character === "{", place, key: "", index: 0 });
      return this.past("first");
    }
    this.next = "comma";
    return character === '"' ? this.string() : this.matched(PLAIN);
  }

  /** Goes past a text in quotes, or to where it stops being one. */
  private string(): boolean {
    this.at += 1;
    for (;;) {
      const character = this.text[this.at];
      if (character === undefined || character < " ") return false;
      if (character === "\\") {
        if (!this.matched(ESCAPED)) return false;
      } else {
        this.at += 1;
        if (character === '"') return true;
      }
    }
  }

  private matched(token: RegExp): boolean {
    token.lastIndex = this.at;
    const isThere = token.test(this.text);
    if (isThere) this.at = token.lastIndex;
    return isThere;
  }

  private past(next: Scanner["next"]): boolean {
    this.at += 1;
    this.next = next;
    return true;
  }
}
