import { parsePriceForWeight } from "../kitchen/index.js";
import { loadTestCard } from "../kitchen-files/index.js";
import {
  type Page,
  TESTS,
  type TestCardData,
  testCardData,
  testCardPage,
  testFormPage,
} from "../pages/index.js";
import { isWording, problemLines } from "../reading/index.js";
import {
  priceIn,
  type TestCard,
  type TestFigures,
  type TestKind,
  testCardJson,
  testCardWords,
  testFigures,
} from "../yields/index.js";
import { writePages } from "./answering.js";
import { EXIT, type ExitCode } from "./exit-code.js";
import { tableLines } from "./table-lines.js";
import type { Terminal } from "./terminal.js";
import { blankTestCard } from "./test-card-blank.js";
import { wrapped } from "./wrapped.js";
import { folderObstacle } from "./write-folder.js";

export interface TestCardOptions {
  /** A new AP price, such as `7.10 / kg`. */
  readonly price?: string;
  readonly blank?: boolean;
  readonly json?: boolean;
  readonly out?: string;
}

const KEYS: Readonly<Record<TestKind, string>> = { butchers: "butchers_test", cooking: "cooking_loss_test" };

/** `butchers-test FILE`, `cooking-loss FILE`: works the test out; with `--blank`, a file and a form to fill in. */
export async function testCardCommand(
  kind: TestKind,
  file: string | undefined,
  options: TestCardOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  const obstacle = options.out === undefined ? null : folderObstacle(options.out);
  if (obstacle !== null) return refuse(obstacle, terminal);
  if (options.blank === true) {
    if (file !== undefined) return refuse("`--blank` prints an empty card: leave out the file", terminal);
    terminal.print(blankTestCard(kind));
    writeEach([testFormPage(kind, null)], options, terminal.complain);
    return EXIT.plan;
  }
  if (file === undefined) {
    const { slug } = TESTS[kind];
    return refuse(`Name a file with the test, or print one to fill in: ${slug} --blank`, terminal);
  }
  const { card: stated, problems } = await loadTestCard(file);
  for (const line of problemLines(problems)) terminal.complain(line);
  if (stated === null) return EXIT.wrongInput;
  const card = options.price === undefined ? stated : withPrice(stated, options.price);
  if (typeof card === "string") return refuse(card, terminal);
  const all = testFigures(card);
  const figures = all.find((each) => each.kind === kind);
  if (figures === undefined) {
    const { what, remedy } = testCardWords.lacksTest(KEYS[kind]);
    return refuse(`${file}: ${what}. ${remedy}`, terminal);
  }
  if (options.json === true) terminal.print(JSON.stringify(testCardJson(card, figures), null, 2));
  else for (const line of textOf(testCardData(card, figures), card, figures, terminal)) terminal.print(line);
  const say = options.json === true ? terminal.complain : terminal.print;
  const pages = all.flatMap((each) => [testCardPage(card, each), testFormPage(each.kind, card)]);
  writeEach(pages, options, say);
  return EXIT.plan;
}

function refuse(why: string, terminal: Terminal): ExitCode {
  terminal.complain(why);
  return EXIT.wrongInput;
}

/** The card with another AP price to re-price for; the words of a problem where it is none. */
function withPrice(card: TestCard, text: string): TestCard | string {
  const price = parsePriceForWeight(text);
  if (isWording(price)) return `--price: ${price.what}. ${price.remedy}`;
  return { ...card, newPrice: priceIn(price, card.unit) };
}

/** Cards and forms do not lead to one another: each is named. */
function writeEach(pages: readonly Page[], { out }: TestCardOptions, say: (line: string) => void): void {
  if (out === undefined) return;
  writePages(out, pages, () => undefined);
  for (const { slug } of pages) say(`Page: ${out}/${slug}.html`);
}

function textOf(data: TestCardData, card: TestCard, figures: TestFigures, terminal: Terminal): string[] {
  const title = terminal.heading(`${TESTS[figures.kind].title}: ${card.item}`);
  const facts = data.facts.slice(1).map(({ value }) => value);
  const indent = "    ";
  const table = (heads: readonly string[], rows: readonly (readonly string[])[], right: readonly number[]) =>
    tableLines(heads, rows, right).map((line) => `${indent}${line}`);
  /** A table without heads. */
  const sums = (rows: TestCardData["sums"]) =>
    table(
      ["", "", ""],
      rows.map(({ name, value, note }) => [name, value, note]),
      [1],
    ).slice(1);
  return [
    [title, ...facts].join(", "),
    ...table(
      ["", data.weightHead, "% of AP", `per ${data.unit}`, "total"],
      [...data.rows, data.whole].map(({ name, weight, percent, price, value }) => [
        name,
        weight,
        percent,
        price,
        value,
      ]),
      [1, 2, 3, 4],
    ),
    "",
    ...sums(data.sums),
    ...data.repriced.flatMap((repriced) => [
      "",
      repriced.title,
      ...sums(repriced.sums),
      ...wrapped(repriced.note, terminal.columns - indent.length, indent, indent),
    ]),
  ];
}
