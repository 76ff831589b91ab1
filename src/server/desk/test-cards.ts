import { readTestCard } from "../../kitchen/index.js";
import { capital, fill, type Page, TESTS, testCardPage, testFormPage } from "../../pages/index.js";
import { problemLines, type Source } from "../../reading/index.js";
import { type SettledTestCard, settleTestCard, type TestKind, testFigures } from "../../yields/index.js";
import { ASSETS, FROM_FIRST_PAGE, frame, testCardAddress } from "../frame.js";
import { notHere, type PageAnswer, page } from "../page-answer.js";
import type { Task } from "../work/serve-tasks.js";

/** A test card of the folder as the first page lists it. */
export type TestCardLine = {
  readonly name: string;
  /** Its file, where it is called otherwise. */
  readonly file: readonly string[];
  readonly href: string;
  readonly state: string;
};

/** A butcher's test and a cooking-loss test worked out: its line, its screen and its pages. */
export interface TestCardFile {
  readonly line: TestCardLine;
  readonly screen: string;
  readonly pages: readonly Page[];
}

export type TestCardTask = Task<Source, never, TestCardFile>;
export type BlankFormTask = Task<{ readonly page: string }, never, PageAnswer>;

const KINDS: readonly TestKind[] = ["butchers", "cooking"];

export async function testCardOf(source: Source): Promise<TestCardFile> {
  const settled = settleTestCard(readTestCard(source));
  const { file } = source;
  const line = lineOf(file, settled);
  const pages = pagesOf(settled);
  const screen = fill("scenario", {
    ...frame(line.name, {}),
    file: settled.card === null ? [] : [file],
    state: line.state,
    problems: problemLines(settled.problems),
    busy: [],
    pages: pages.map(({ slug, title }) => ({ href: `${slug}.html`, title })),
    json: [],
    ask: [],
  });
  return { line, screen, pages };
}

/** The form of a test, with nothing on it. */
export async function blankForm({ page: wanted }: BlankFormTask["asked"]): Promise<PageAnswer> {
  const kind = KINDS.find((each) => `${TESTS[each].slug}-form.html` === wanted);
  return kind === undefined ? notHere() : page(testFormPage(kind, null, FROM_FIRST_PAGE).html);
}

/** What a card is of, and which tests it holds. */
function lineOf(file: string, { card, problems }: SettledTestCard): TestCardLine {
  const hasBoth = card !== null && card.butchers !== null && card.cooking !== null;
  const only = card?.cooking === null ? TESTS.butchers.title : TESTS.cooking.title;
  const count = problems.length === 1 ? "1 problem" : `${problems.length} problems`;
  return {
    name: card === null ? file : capital(card.item),
    file: card === null ? [] : [file],
    href: testCardAddress(file),
    state: card === null ? count : hasBoth ? "Butcher's test, then cooking-loss test" : only,
  };
}

/** The card and the form of every test in the file; none where it has problems. */
function pagesOf({ card }: SettledTestCard): Page[] {
  if (card === null) return [];
  const figures = testFigures(card);
  const options = { assets: ASSETS, home: { href: "./", text: "Test card" } };
  return [
    ...figures.map((each) => testCardPage(card, each, options)),
    ...figures.map(({ kind }) => testFormPage(kind, card, options)),
  ];
}
