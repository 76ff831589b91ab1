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
import { EXIT, type ExitCode, type Terminal, tableLines, wrapped } from "./terminal.js";
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

const HEAD = `item:              # what was bought, such as pork loin
grade:             # as on the label; leave out what you do not need
supplier:
date:              # year-month-day
currency: EUR
ap_weight:         # as purchased, such as 4.2 kg or 9 lb 4 oz
ap_price:          # for a weight, such as 6.40 / kg
# scale_step: 5 g               # the smallest weight your scale shows; 1 g or 0.25 oz where not stated
# new_price: 7.10 / kg          # a later AP price, to re-price by cost factor`;

const BUTCHERS = `butchers_test:
  by_products:     # all that is cut off, by name; a value where it can be used or sold
    fat:           # such as 600 g
    bones: {weight: , value: }  # such as {weight: 800 g, value: 1.20 / kg}
  cutting_loss:    # juice, drip and crumbs: what is still missing from the AP weight
  usable_weight:
  portion:         # one portion of the usable part, such as 180 g`;

const COOKING = `cooking_loss_test:
  method:          # such as roasted at 160 C to a core of 68 C
  trimmed:         # cut off before cooking; leave out where nothing is, or after a butchers_test
    fat:
  cutting_loss:
  raw_weight:      # into the oven or the pot
  cooked_weight:
  carved:          # taken off after cooking, by name
    bones:
  carving_loss:
  served_weight:
  portion:         # one portion as served, such as 150 g`;

/** A file of a test to fill in. */
export function blankTestCard(kind: TestKind): string {
  return `${HEAD}\n\n${kind === "butchers" ? BUTCHERS : COOKING}`;
}
