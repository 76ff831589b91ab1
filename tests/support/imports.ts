import { posix } from "node:path";

/** What each room of src/ may import from the other rooms. Anything else is a wrong arrow. */
export const ALLOWED_ARROWS: Readonly<Record<string, readonly string[]>> = {
  quantity: [],
  reading: ["quantity"],
  "table-files": ["quantity", "reading"],
  kitchen: ["quantity", "reading"],
  yields: ["quantity", "reading", "table-files", "kitchen"],
  scenario: ["quantity", "reading", "kitchen", "yields"],
  safety: ["quantity", "reading", "table-files", "kitchen"],
  waste: ["quantity", "kitchen", "safety"],
  allocation: ["quantity", "kitchen", "yields", "safety", "waste"],
  ledger: ["quantity", "kitchen", "yields", "waste"],
  contract: ["quantity", "reading", "kitchen", "safety", "waste", "allocation", "ledger"],
  "waste-accounts": ["quantity", "reading", "kitchen", "contract"],
  insight: ["quantity", "reading", "kitchen", "yields", "safety", "allocation", "ledger", "contract"],
  "weigh-in": ["quantity", "reading", "kitchen", "yields", "ledger", "contract"],
  pages: ["quantity", "kitchen", "yields", "contract", "safety", "waste-accounts", "weigh-in"],
  records: ["quantity", "reading", "kitchen"],
  keeping: ["reading", "kitchen", "contract", "weigh-in", "records"],
  "kitchen-files": [
    "quantity",
    "reading",
    "kitchen",
    "yields",
    "scenario",
    "safety",
    "contract",
    "weigh-in",
    "records",
  ],
  planning: ["quantity", "reading", "kitchen", "safety", "allocation", "ledger", "contract", "insight"],
};

/** The edges, which may import every room, and what else of one another they must not. */
const EDGES: Readonly<Record<string, readonly string[]>> = {
  "cli.ts": [],
  "index.ts": [],
  server: ["commands", "cli.ts"],
  commands: ["cli.ts"],
};

const FOLDER_EDGES = ["server", "commands"];

/** Packages with one door: the only places (files or folders of src/) that may import them. */
const ONE_DOOR: Readonly<Record<string, readonly string[]>> = {
  highs: ["allocation/engines/"],
  "javascript-lp-solver": ["allocation/engines/"],
  "glpk.js": [],
  "decimal.js": ["quantity/"],
  "pure-rand": ["allocation/"],
  yaml: ["reading/"],
  "csv-parse": ["reading/"],
  handlebars: ["pages/"],
  express: ["server/"],
  helmet: ["server/"],
  "write-file-atomic": ["records/"],
};

/** Rooms that touch neither files nor processes; hashing is neither. */
const PURE_ROOMS = ["quantity", "kitchen", "safety", "ledger", "contract", "weigh-in"];

/** Every module a TypeScript text names: static, type-only, re-exported, bare and dynamic imports. */
export function importsOf(text: string): string[] {
  const code = text.replace(/\/\*[\s\S]*?\*\//g, "").replace(/^\s*\/\/.*$/gm, "");
  const patterns = [
    /(?:^|[\s;}])(?:import|export)\b[^"';]*?\bfrom\s*["']([^"']+)["']/g,
    /(?:^|[\s;}])import\s*["']([^"']+)["']/g,
    /\bimport\s*\(\s*["']([^"']+)["']\s*\)/g,
    /\brequire\s*\(\s*["']([^"']+)["']\s*\)/g,
  ];
  return patterns.flatMap((pattern) => [...code.matchAll(pattern)].map((match) => match[1] ?? ""));
}

/** What is wrong with the imports of one file, `file` being its path inside src/; empty when nothing is. */
export function wrongImports(file: string, text: string): string[] {
  return importsOf(text).flatMap((name) =>
    (name.startsWith(".") ? wrongArrow(file, name) : wrongPackage(file, name)).map(
      (what) => `src/${file} imports "${name}": ${what}`,
    ),
  );
}

function wrongArrow(file: string, name: string): string[] {
  const target = posix.join(posix.dirname(file), name);
  if (target.startsWith("../")) return target === "../package.json" ? [] : ["outside src"];
  const from = roomOf(file);
  const to = roomOf(target.replace(/\.js$/, ".ts"));
  if (from === to) return [];
  const problems: string[] = [];
  const forbidden = EDGES[from];
  const allowed = ALLOWED_ARROWS[from];
  if (forbidden !== undefined) {
    if (forbidden.includes(to)) problems.push(`${from} may not know ${to}`);
  } else if (allowed === undefined) {
    problems.push(`${from} is no room of this house`);
  } else if (!allowed.includes(to)) {
    problems.push(`${from} may not know ${to}`);
  }
  if (to in ALLOWED_ARROWS || FOLDER_EDGES.includes(to)) {
    if (target !== `${to}/index.js`) problems.push(`${to} is entered by its index.js`);
  } else if (!(to in EDGES)) {
    problems.push(`${to} is no room of this house`);
  }
  return problems;
}

function wrongPackage(file: string, name: string): string[] {
  const scoped = name.startsWith("@");
  const owner = name
    .split("/")
    .slice(0, scoped ? 2 : 1)
    .join("/");
  const doors = ONE_DOOR[owner];
  if (doors !== undefined && !doors.some((door) => file.startsWith(door)))
    return [`${owner} is imported ${doors.length === 0 ? "nowhere" : `only in src/${doors.join(", src/")}`}`];
  if (name.startsWith("node:") && name !== "node:crypto" && PURE_ROOMS.includes(roomOf(file)))
    return [`${roomOf(file)} touches neither files nor processes`];
  return [];
}

function roomOf(path: string): string {
  return path.split("/")[0] ?? path;
}
