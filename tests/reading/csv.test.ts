import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { problemText, readCsv } from "../../src/reading/index.js";

const COLUMNS = { required: ["item", "part", "percent"], optional: ["source"] };
const read = (text: string) => readCsv({ file: "t.csv", text }, COLUMNS);
const cells = (text: string, column: string) =>
  read(text).rows.map((row) => {
    const { text: cell, position } = row.cell(column);
    return { text: cell, position };
  });

describe("a CSV table", () => {
  it("gives cells by column, in any order, trimmed, with their place", () => {
    const text = "part, percent,item\nring, 34 ,marrow\npeel,29,marrow\n";
    expect(read(text).problems).toEqual([]);
    expect(cells(text, "percent")).toEqual([
      { text: "34", position: { file: "t.csv", line: 2, column: 6 } },
      { text: "29", position: { file: "t.csv", line: 3, column: 6 } },
    ]);
    expect(cells(text, "item").map(({ text: item }) => item)).toEqual(["marrow", "marrow"]);
  });

  it("follows quotes, commas and line ends inside them, empty lines and Windows line ends (RFC 4180)", () => {
    const text = 'item,part,percent\r\n\r\n"a ""b"", c","two\r\nlines",5\r\nd,e,6\r\n';
    expect(cells(text, "item")).toEqual([
      { text: 'a "b", c', position: { file: "t.csv", line: 3, column: 1 } },
      { text: "d", position: { file: "t.csv", line: 5, column: 1 } },
    ]);
    expect(cells(text, "part")[0]).toEqual({
      text: "two\r\nlines",
      position: { file: "t.csv", line: 3, column: 14 },
    });
    expect(cells(text, "percent")[0]).toEqual({
      text: "5",
      position: { file: "t.csv", line: 4, column: 8 },
    });
  });

  it("knows the place of an empty last cell", () => {
    const text = "item,part,percent\nmarrow,ring,\n";
    expect(cells(text, "percent")).toEqual([{ text: "", position: { file: "t.csv", line: 2, column: 13 } }]);
  });

  it("has empty cells for an optional column that it lacks, and no mark at its start", () => {
    const text = "\uFEFFitem,part,percent\nmarrow,ring,34\n";
    expect(cells(text, "source")).toEqual([{ text: "", position: { file: "t.csv", line: 2, column: 1 } }]);
  });
});

describe("a table as a spreadsheet saves it", () => {
  const TEXT = "item,part,percent\nmarrow,ring,34\nmarrow,peel,29\n";
  const texts = (text: string) => ({
    problems: read(text).problems.map(problemText),
    cells: ["item", "part", "percent"].map((column) => cells(text, column).map((cell) => cell.text)),
  });

  it.each([
    ["semicolons", TEXT.replaceAll(",", ";")],
    ["tabs", TEXT.replaceAll(",", "\t")],
    ["rows that hold nothing", `${TEXT},,\n,,\n`],
    ["columns that hold nothing", TEXT.replaceAll("\n", ",,\n")],
    [
      "its mark, semicolons and Windows line ends",
      `\uFEFF${TEXT.replaceAll(",", ";").replaceAll("\n", "\r\n")}`,
    ],
  ])("is read with %s", (_, text) => {
    expect(texts(text)).toEqual(texts(TEXT));
  });

  it("keeps places and commas between semicolons", () => {
    expect(cells("item;part;percent\nmarrow;ring;34,5\n", "percent")).toEqual([
      { text: "34,5", position: { file: "t.csv", line: 2, column: 13 } },
    ]);
  });

  it("never moves a cell: a comma without quotes is a problem though the last cells are empty", () => {
    const text = "item,part,percent,source\nmarrow,ring,34,5,\n";
    expect(read(text).rows).toEqual([]);
    expect(texts(text).problems).toEqual([
      "t.csv:2:1: the row has 5 cells and the table 4 columns. Put quotes around a cell that holds what separates the cells, and leave no separator out",
    ]);
  });

  it.each([
    ["utf16le", "1:1"],
    ["latin1", "2:1"],
  ] as const)("is one problem and no row in %s", (encoding, place) => {
    const text = Buffer.from("item,part,percent\ncr\u00e8me,ring,34\n", encoding).toString("utf8");
    expect(read(text).rows).toEqual([]);
    expect(texts(text).problems).toEqual([
      `t.csv:${place}: a letter here is lost, for the file is or was not in UTF-8. Write the letter again and save the file as CSV in UTF-8`,
    ]);
  });
});

describe("any table written by RFC 4180", () => {
  const seed = 4180;
  console.info(`csv properties: seed ${seed}, 300 runs`);
  const cell = fc.string({ unit: fc.constantFrom("a", "b", " ", ",", '"', "\n", "\r\n", "é"), maxLength: 6 });
  const row = fc.tuple(cell, cell, cell).filter((cells) => cells.some((text) => text.trim() !== ""));
  const lineEnd = fc.constantFrom("\n", "\r\n");
  const quoted = (text: string) => (/[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

  it("is read back, and each cell begins where it is said to", () => {
    // A file put together from two may have both line ends.
    const ended = fc.tuple(row, lineEnd);
    const property = fc.property(fc.array(ended, { maxLength: 6 }), lineEnd, (endedRows, end) => {
      const rows = endedRows.map(([cells]) => cells);
      const lines = [[COLUMNS.required, end] as const, ...endedRows];
      const text = lines.map(([cells, last]) => cells.map(quoted).join(",") + last).join("");
      const { rows: found, problems } = read(text);
      expect(problems).toEqual([]);
      expect(found.map((each) => COLUMNS.required.map((name) => each.cell(name).text))).toEqual(
        rows.map((cells) => cells.map((written) => written.trim())),
      );
      found.forEach((each, index) => {
        COLUMNS.required.forEach((name, column) => {
          const { line, column: start } = each.cell(name).position;
          const rest = text
            .split("\n")
            .slice(line - 1)
            .join("\n")
            .slice(start - 1);
          expect(rest.startsWith(quoted(rows[index]?.[column] ?? ""))).toBe(true);
        });
      });
    });
    fc.assert(property, { seed, numRuns: 300 });
  });
});

describe("a faulty CSV table", () => {
  it("tells a misspelt column from one that is missing and one that is unknown", () => {
    const { rows, problems } = read("item,prat,color\nmarrow,ring,green\n");
    expect(rows).toEqual([]);
    expect(problems.map(problemText)).toEqual([
      "t.csv:1:1: the table has no column `percent`. Add a column headed `percent`",
      "t.csv:1:6: the table has no column `part`. Is `prat` meant for it? Head it `part`",
      "t.csv:1:11: `color` is no column of this table. Columns: item, part, percent, source",
    ]);
  });

  it("has a column twice", () => {
    expect(read("item,part,percent,part\n").problems.map(problemText)).toEqual([
      "t.csv:1:19: the column `part` stands twice. Keep one of them",
    ]);
  });

  it("reports each row of the wrong length, and reads the others", () => {
    const { rows, problems } = read("item,part,percent\nmarrow,ring,34,5\nmarrow,peel,29\nmarrow\n");
    expect(problems.map(problemText)).toEqual([
      "t.csv:2:1: the row has 4 cells and the table 3 columns. Put quotes around a cell that holds what separates the cells, and leave no separator out",
      "t.csv:4:1: the row has 1 cells and the table 3 columns. Put quotes around a cell that holds what separates the cells, and leave no separator out",
    ]);
    expect(rows.map((row) => row.cell("part").text)).toEqual(["peel"]);
  });

  it.each([
    ['marrow,"ring,34', "t.csv:2:8: a quote is opened and not closed"],
    ['marrow,ri"ng,34', "t.csv:2:10: a quote stands inside a cell"],
    ['marrow,"ring"s,34', "t.csv:2:1: text follows the quote that closes a cell"],
  ])("has a quote out of place: %s", (row, what) => {
    expect(read(`item,part,percent\n${row}\n`).problems.map(problemText)).toEqual([
      `${what}. Put quotes around the whole cell, and write a quote inside it twice`,
    ]);
  });

  it("holds nothing", () => {
    expect(read("").problems.map(problemText)).toEqual([
      "t.csv:1:1: the file holds nothing. Begin with the heading row: item,part,percent",
    ]);
  });
});
