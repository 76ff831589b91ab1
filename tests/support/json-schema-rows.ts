import { z } from "zod";

type Node = z.core.JSONSchema.BaseSchema;

/** One key that a JSON Schema describes. */
export interface KeyRow {
  /** Its place: `services[].courses.NAME.take_up`, NAME being a name that the writer gives. */
  readonly path: string;
  /** What stands there: words to choose from, examples, or a type. */
  readonly written: string;
  readonly needed: boolean;
  readonly meaning: string;
}

/**
 * JSON Schema of a file that is written by hand. What to write where something is missing holds examples, in
 * backticks; they are added to the schema, as of `620 g`.
 */
export function schemaOfFile(schema: z.ZodType): Node {
  return z.toJSONSchema(schema, {
    io: "input",
    override: ({ zodSchema, jsonSchema }) => {
      const [issue, ...more] = z.safeParse(zodSchema, undefined).error?.issues ?? [];
      if (issue === undefined || issue.code === "invalid_union" || more.length > 0) return;
      const examples = [...issue.message.matchAll(/`([^`]+)`/g)].map(([, text]) => text ?? "");
      if (examples.length > 0) jsonSchema.examples = examples;
    },
  });
}

/** Every key below a node, in the order of the schema; the keys named in `apart` without what is below them. */
export function keyRows(node: Node, path = "", apart: readonly string[] = []): KeyRow[] {
  const below = insides(node);
  return below.flatMap((inner) => {
    const rows = Object.entries(inner.properties ?? {}).flatMap(([key, value]) => {
      const child = asNode(value);
      const here = path === "" ? key : `${path}.${key}`;
      const row = {
        path: here,
        written: written(child),
        needed: inner.required?.includes(key) ?? false,
        meaning: child.description ?? "",
      };
      return [row, ...(apart.includes(key) ? [] : keyRows(child, here))];
    });
    const named = inner.additionalProperties;
    const under = path === "" ? "NAME" : `${path}.NAME`;
    const byName = named === undefined || typeof named === "boolean" ? [] : keyRows(named, under);
    const items = inner.items === undefined ? [] : keyRows(asNode(inner.items), `${path}[]`);
    return [...rows, ...byName, ...items];
  });
}

/** What stands under a key at the top. */
export function at(node: Node, key: string): Node {
  const found = node.properties?.[key];
  if (found === undefined) throw new Error(`the schema has no ${key}`);
  return asNode(found);
}

/** The node itself, or each of its alternatives; a list of what stands beside it alone comes once. */
function insides(node: Node): Node[] {
  if (node.anyOf === undefined) return [node];
  const alternatives = node.anyOf.map(asNode);
  const alone = new Set(alternatives.map((each) => JSON.stringify(each)));
  return alternatives
    .filter(({ items }) => items === undefined || !alone.has(JSON.stringify(items)))
    .flatMap(insides);
}

function asNode(value: z.core.JSONSchema._JSONSchema | z.core.JSONSchema._JSONSchema[]): Node {
  if (typeof value === "boolean" || Array.isArray(value)) throw new Error("no object of a JSON Schema");
  return value;
}

function written(node: Node): string {
  const all = (node.anyOf?.map(asNode) ?? [node]).map(writtenAlone);
  return [...new Set(all)].join(" or ");
}

function writtenAlone(node: Node): string {
  if (node.enum !== undefined) return node.enum.map((word) => `\`${word}\``).join(", ");
  if (node.const !== undefined) return `\`${JSON.stringify(node.const)}\``;
  if (node.examples !== undefined) return node.examples.map((text) => `\`${text}\``).join(", ");
  if (node.title !== undefined) return node.title;
  if (node.type === "array" && node.items !== undefined) return `list of ${written(asNode(node.items))}`;
  const types: readonly string[] = [node.type ?? []].flat();
  const isFigure = types.includes("string") && types.includes("number");
  return isFigure ? "text" : types.map((type) => WORDS[type] ?? type).join(" or ");
}

const WORDS: Readonly<Record<string, string>> = {
  string: "text",
  boolean: "true or false",
  integer: "whole number",
};

/** A table of Markdown with these headings. */
export function markdownTable(headings: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]) =>
    `| ${cells.map((text) => text.replaceAll("|", "\\|")).join(" | ")} |`;
  return [line(headings), line(headings.map(() => "---")), ...rows.map(line)].join("\n");
}
