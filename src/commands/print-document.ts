import type { Block, Cell, Document } from "../pages/index.js";
import { type Terminal, wrapped } from "./terminal.js";

/** Prints a document in lines: a table has an entry for each row, and a line for each cell that says something. */
export function printDocument({ title, head, blocks }: Document, terminal: Terminal): void {
  const [first = ""] = head;
  terminal.print(terminal.heading(first === "" ? title : `${first}: ${uncapital(title)}`));
  for (const block of blocks) printBlock(block, terminal);
}

function printBlock(block: Block, terminal: Terminal): void {
  const say = (text: string, indent = ""): void => {
    if (text === "") return;
    const lines = wrapped(text, terminal.columns - indent.length - 2, indent, `${indent}  `);
    for (const line of lines) terminal.print(line);
  };
  if (block.kind === "curves") return;
  if (block.kind === "words") {
    say([block.text, block.strong ?? ""].filter((text) => text !== "").join(" "));
    return;
  }
  if (block.kind === "list") {
    if (block.items.length > 0) terminal.print(terminal.heading(block.head));
    for (const item of block.items) say(item, "  ");
    return;
  }
  if (block.rows.length === 0) return;
  const about = block.about === undefined || block.about === "" ? "" : `; ${block.about}`;
  terminal.print(terminal.heading(`${block.caption}${about}`));
  for (const row of block.rows) {
    const after = row.none ?? row.sub ?? "";
    say(after === "" ? row.name : `${row.name}: ${after}`, "  ");
    block.columns.forEach((column, index) => {
      const texts = textsOf(row.cells[index] ?? "");
      if (column.unbroken === true || column.figures === true || texts.length < 2) {
        if (texts.length > 0) say(`${uncapital(column.head)}: ${texts.join(", ")}`, "      ");
        return;
      }
      say(`${uncapital(column.head)}:`, "      ");
      for (const text of texts) say(text, "        ");
    });
    for (const { name, text } of row.more ?? [])
      if (text !== "") say(`${uncapital(name)}: ${text}`, "      ");
  }
}

/** What a cell says, text by text. */
function textsOf(cell: Cell): string[] {
  const texts = typeof cell === "string" ? [cell] : [...cell.lines, ...(cell.subs ?? [])];
  return texts.filter((text) => text !== "");
}

function uncapital(text: string): string {
  return `${text.charAt(0).toLowerCase()}${text.slice(1)}`;
}
