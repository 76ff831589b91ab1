import { cpSync, readFileSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, describe, expect, it } from "vitest";
import { problemText } from "../../src/reading/index.js";
import { safetyTableProblems } from "../../src/safety/index.js";
import { readSafetyTables } from "../../src/safety/tables/read.js";
import { packagedTables } from "../../src/table-files/index.js";
import { runIn } from "../support/program.js";
import { scratchFolder } from "../support/scenarios.js";

const packaged = packagedTables("yield-tables/safety");

/** The tables that come with the package, some of them changed. */
function readWith(changes: Readonly<Record<string, (text: string) => string>>) {
  return readSafetyTables(
    packaged.map(({ file, text }) => {
      const name = file.split(/[\\/]/).at(-1) ?? file;
      return { file: name, text: (changes[name] ?? ((same) => same))(text) };
    }),
  );
}

const problemsWith = (changes: Parameters<typeof readWith>[0]): string[] =>
  readWith(changes).problems.map(problemText);

const HEADS = {
  hazards:
    "hazard,items,parts,except,harm,rule,treatments,text,vulnerable_rule,vulnerable_treatments,vulnerable_text,source,basis",
  names: "item,part,names,of_animals,source,basis",
  words: "list,words,source,basis",
  allergens: "allergen,foods,implies,of_animals,source,basis",
  lists: "list,name,allergens,source,basis",
};

describe("the safety tables that come with the package", () => {
  it("are read without a problem", () => {
    expect(safetyTableProblems().map(problemText)).toEqual([]);
  });

  it("have headings as the tables below", () => {
    const headings = packaged.map(({ text }) => text.split("\n")[0]);
    for (const heading of Object.values(HEADS)) expect(headings).toContain(heading);
  });

  it("say of nothing that no source is known and that it was read", () => {
    for (const { file, text } of packaged)
      for (const line of text.split("\n"))
        if (/no source|from memory, no authority/.test(line)) expect(line, file).toMatch(/,memory$/);
  });
});

describe("a row added to the safety tables", () => {
  it("is a hazard, where its items and parts have names", () => {
    const row = "tomato seed,tomato,seed,,an invented harm,never,,Leave it out.,,,,invented,memory\n";
    const { tables, problems } = readWith({ "hazards.csv": (text) => `${text}${row}` });
    expect(problems).toEqual([]);
    expect(tables.hazards.at(-1)).toEqual({
      id: "tomato seed",
      items: ["tomato"],
      parts: ["seed"],
      hazard: "an invented harm",
      rule: { kind: "never", text: "Leave it out." },
      authority: "invented",
      basis: "memory",
    });
  });

  it("is a hazard with two treatments, and a stricter rule for people who fall ill easily", () => {
    const row =
      'tomato seed,"tomato, potato",any,"seed, leaf",an invented harm,only if,"boiled, water discarded; baked",Treat it.,never,,None.,invented,read\n';
    const { tables, problems } = readWith({ "hazards.csv": (text) => `${text}${row}` });
    expect(problems).toEqual([]);
    expect(tables.hazards.at(-1)).toMatchObject({
      items: ["tomato", "potato"],
      parts: "any",
      except: ["seed", "leaf"],
      rule: { kind: "only if", treatments: ["boiled, water discarded", "baked"] },
      vulnerable: { kind: "never", text: "None." },
    });
  });

  it("is a list of names that go on from those of the row before, or an allergen", () => {
    const { tables, problems } = readWith({
      "words.csv": (text) => `${text}harmless,wombat grass,invented,memory\n`,
      "allergens.csv": (text) => `${text}wombat,"wombat, =wombat milk",milk,milk,invented,memory\n`,
    });
    expect(problems).toEqual([]);
    const harmless = tables.words.get("harmless")?.map(({ text }) => text);
    expect([harmless?.[0], harmless?.at(-1)]).toEqual(["brussels sprout", "wombat grass"]);
    expect(tables.allergens.at(-1)).toEqual({
      allergen: "wombat",
      foods: [
        { text: "wombat", words: ["wombat"], fixed: false },
        { text: "=wombat milk", words: ["wombat", "milk"], fixed: true },
      ],
      implies: "milk",
      ofAnimals: "milk",
    });
  });
});

describe("safety tables with mistakes", () => {
  it("reports every mistake of the hazards at once, with its place", () => {
    const text = `${HEADS.hazards}
rhubarb leaf,rhubarb,leaf,,oxalates,never,,Only the stalk.,,,,a book,read
rhubarb leaf,rubarb,"leaf, leav",rot,oxalates,newer,,Only the stalk.,,,,a book,read
rhubarb stalk,,,,,only if,,Only the stalk.,,,,,common practice
rhubarb root,rhubarb,root,,oxalates,never,boiled,,,boiled,,a book,read
rhubarb seed,rhubarb,seed,,oxalates,only if,for at least; boiled,Boil it.,warn,,Mind it.,a book,memory
rhubarb pith,",",",",,oxalates,only if,;,Boil it.,,,,a book,memory
`;
    expect(problemsWith({ "hazards.csv": () => text })).toEqual([
      "hazards.csv:3:14: item `rubarb` is not in names.csv. Did you mean `rhubarb`",
      "hazards.csv:3:21: part `leav` is not in names.csv. Did you mean `leaf`",
      "hazards.csv:3:34: part `rot` is not in names.csv. Did you mean `root`",
      "hazards.csv:3:47: `newer` is no rule. Write one of: never, only if, warn",
      "hazards.csv:3:1: rhubarb leaf stands on line 2 already. Keep one of the two rows",
      "hazards.csv:4:15: `items` is empty. Write the items",
      "hazards.csv:4:16: `parts` is empty. Write the parts",
      "hazards.csv:4:18: `harm` is empty. Write the harm",
      "hazards.csv:4:27: `treatments` is empty. Write the treatments",
      "hazards.csv:4:47: `source` is empty. Name the document and its number, or write: common practice, no source",
      "hazards.csv:4:48: `common practice` is no basis. Write one of: read, memory",
      "hazards.csv:5:50: `text` is empty. Write the text",
      "hazards.csv:5:43: `treatments` is filled, and a rule `never` asks for none. Write the rule `only if`, or empty the cell",
      "hazards.csv:5:51: `vulnerable_rule` is empty. Write one of: never, only if, warn",
      "hazards.csv:5:59: `vulnerable_text` is empty. Write the vulnerable_text",
      "hazards.csv:6:45: `for at least` says nothing that could be done. Write what the dish must do",
      "hazards.csv:6:75: `warn` is laxer than `only if`. Write a stricter rule, or none",
      "hazards.csv:7:14: `items` is empty. Write the items",
      "hazards.csv:7:18: `parts` is empty. Write the parts",
      "hazards.csv:7:40: `treatments` is empty. Write the treatments",
    ]);
  });

  it("reports every mistake of the names", () => {
    const rows = `rhubarb,,rhubarb,,a book,memory
,,nothing,,a book,memory
rubarb,leaf,rubarb leaf,,a book,memory
wombat,,"wombat, the, ?",fowl,a book,memory
quokka,,,,a book,guess
`;
    const line = (packaged.find(({ file }) => file.endsWith("names.csv"))?.text.split("\n").length ?? 0) - 1;
    const at = (row: number, column: number) => `names.csv:${line + row}:${column}:`;
    expect(problemsWith({ "names.csv": (text) => `${text}${rows}` })).toEqual([
      `${at(1, 1)} rhubarb stands on line 2 already. Keep one of the two rows`,
      `${at(2, 1)} \`item\` and \`part\` are both empty. Write what the names stand for`,
      `${at(4, 26)} \`fowl\` is no of_animals. Write one of: meat, egg`,
      `${at(4, 9)} \`the\` has no word that tells it from others. Write it out, or take it out of the row`,
      `${at(4, 9)} \`?\` has no word that tells it from others. Write it out, or take it out of the row`,
      `${at(5, 9)} \`names\` is empty. Write the names`,
      `${at(5, 18)} \`guess\` is no basis. Write one of: read, memory`,
      `${at(3, 1)} item \`rubarb\` is not in names.csv. Did you mean \`rhubarb\``,
    ]);
  });

  it("reports lists and allergens that are missing, unknown or named nowhere", () => {
    const words = (text: string) => text.replace(/^herb,.*\n/m, "").replace(/^melon,/m, "mellon,");
    const allergens = (text: string) => text.replace(/^peanuts,/m, "groundnuts,");
    const lists = (text: string) => text.replace(/^US nine,/m, "US ten,");
    const found = problemsWith({
      "words.csv": words,
      "allergens.csv": allergens,
      "allergen-lists.csv": lists,
    });
    expect(found.map((line) => line.replace(/Write one of: .*/, "Write one of: ..."))).toEqual([
      "allergens.csv:1:1: `peanuts` has no row. Add one",
      expect.stringMatching(/^words\.csv:\d+:1: `mellon` is no list\. Write one of: \.\.\.$/),
      "words.csv:1:1: `melon` has no row. Add one",
      "words.csv:1:1: `herb` has no row. Add one",
      "allergen-lists.csv:2:1: `US ten` is no list. Write one of: ...",
      expect.stringMatching(/^allergen-lists\.csv:2:\d+: allergen `peanuts` is not in allergens\.csv\./),
      expect.stringMatching(/^allergen-lists\.csv:3:\d+: allergen `peanuts` is not in allergens\.csv\./),
      "allergen-lists.csv:1:1: `US nine` has no row. Add one",
    ]);
  });

  it("reports a place without its rules, a temperature that is no pair, and half a stage of cooling", () => {
    const found = problemsWith({
      "dates.csv": (text) => text.replace(/^uk,5,3,37,/m, "uk,0,3,7,").replace(/^eu,/m, "europe,"),
      "holding.csv": (text) => text.replace(/^france,/m, "eu,"),
      "limits.csv": (text) =>
        text
          .replace(/^eu,hot holding,/m, "eu,hot hold,")
          .replace(/^us,cooking of poultry,.*\n/m, "")
          .replace(/^uk,cooling,3,37,70,158,1.5,/m, "uk,cooling,3,37,70,,,"),
    });
    expect(found.map((line) => line.replace(/Write one of: .*/, "Write one of: ..."))).toEqual([
      "dates.csv:3:4: `0` is no whole number from 1 to 30. Write the days in digits, such as 12",
      "dates.csv:3:8: 3 C is not 7 F. Write the pair as the code prints it",
      "dates.csv:4:1: `europe` is no rules. Write one of: ...",
      "dates.csv:1:1: `uk` has no row. Add one",
      "dates.csv:1:1: `eu` has no row. Add one",
      "holding.csv:5:1: eu stands on line 4 already. Keep one of the two rows",
      "holding.csv:1:1: `france` has no row. Add one",
      "limits.csv:9:20: `` is no number above 0 and up to 250. Write the from_fahrenheit in digits, such as 12.5",
      "limits.csv:9:21: `` is no number above 0 and up to 24. Write the within_hours in digits, such as 12.5",
      "limits.csv:11:4: `hot hold` is no limit. Write one of: ...",
      "limits.csv:1:1: `us, cooking of poultry` has no row. Add one",
      "limits.csv:1:1: `uk, cooling` has no row. Add one",
      "limits.csv:1:1: `eu, hot holding` has no row. Add one",
    ]);
  });

  it("misses a table that is not there, and knows none of another name", () => {
    const sources = packaged.filter(({ file }) => !file.endsWith("words.csv"));
    const [first, second] = readSafetyTables([...sources, { file: "word.csv", text: "" }]).problems;
    expect(first && problemText(first)).toBe(
      "words.csv:1:1: words.csv is missing from the safety tables. Put it back, with at least its heading row",
    );
    expect(second && problemText(second)).toMatch(/^word\.csv:1:1: this is none of the safety tables\. /);
  });
});

describe("the program with a broken safety table", () => {
  const folder = scratchFolder();
  afterAll(() => folder.remove());
  const root = fileURLToPath(new URL("../../", import.meta.url));
  const table = join("yield-tables", "safety", "hazards.csv");
  for (const name of ["dist", "templates", "yield-tables", "package.json", "examples"])
    cpSync(join(root, name), join(folder.path, name), { recursive: true });
  symlinkSync(join(root, "node_modules"), join(folder.path, "node_modules"));
  const text = readFileSync(join(folder.path, table), "utf8");
  writeFileSync(join(folder.path, table), text.replace(/^rhubarb leaf,rhubarb,/m, "rhubarb leaf,rubarb,"));
  const told = `${table}:2:14: item \`rubarb\` is not in names.csv. Did you mean \`rhubarb\``;

  it.each([
    ["check", 2],
    ["plan", 2],
  ])("tells its place and judges nothing by it: %s", async (command, wanted) => {
    const { code, stdout, stderr } = await runIn(folder.path, command, "examples/smallest.yaml");
    expect([code, stdout, stderr.trim()]).toEqual([wanted, "", told]);
  });

  it("gives no safety case made of it", async () => {
    const { code, stdout, stderr } = await runIn(folder.path, "safety-case");
    expect([code, stdout, stderr.trim()]).toEqual([3, "", `Our fault: ${told}`]);
  });
});
