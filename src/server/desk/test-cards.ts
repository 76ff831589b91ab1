import { readTestCard } from "../../kitchen/index.js";
import {
  capital,
  testCardPage as cardPage,
  fill,
  type Page,
  TESTS,
  testFormPage,
} from "../../pages/index.js";
import { problemLines, type Source } from "../../reading/index.js";
import { type CheckedTestCard, checkTestCard, type TestKind, testFigures } from "../../yields/index.js";
import { ASSETS, FROM_FIRST_PAGE, frame, testCardAddress } from "../frame.js";
import { notHere, type PageAnswer, page } from "../page-answer.js";
import type { Task } from "../work/serve-tasks.js";
import { stumbled } from "./stumbled.js";

/** A test card of the folder as the first page lists it. */
export type TestCardLine = {
  readonly name: string;
  /** Its file, where it is called otherwise. */
  readonly file: readonly string[];
  readonly href: string;
  readonly state: string;
};

export type TestCardTask = Task<Source, never, TestCardLine>;
/** A page of a card by the end of its address, or where that is empty its screen. */
export type TestCardPageTask = Task<{ readonly source: Source; readonly page: string }, never, PageAnswer>;
export type BlankFormTask = Task<{ readonly page: string }, never, PageAnswer>;

const KINDS: readonly TestKind[] = ["butchers", "cooking"];

/** What a card is of, and which tests it holds. */
export async function testCardLine(source: Source): Promise<TestCardLine> {
  const { card, problems } = settled(source);
  const { file } = source;
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

export async function testCardPage({ source, page: wanted }: TestCardPageTask["asked"]): Promise<PageAnswer> {
  const read = settled(source);
  const pages = pagesOf(read);
  if (wanted !== "") {
    const found = pages.find(({ slug }) => `${slug}.html` === wanted);
    return found === undefined ? notHere() : page(found.html);
  }
  const { name, file, state } = await testCardLine(source);
  return page(
    fill("scenario", {
      ...frame(name, {}),
      file,
      state,
      problems: problemLines(read.problems),
      busy: [],
      pages: pages.map(({ slug, title }) => ({ href: `${slug}.html`, title })),
      json: [],
      ask: [],
    }),
  );
}

/** The form of a test, with nothing on it. */
export async function blankForm({ page: wanted }: BlankFormTask["asked"]): Promise<PageAnswer> {
  const kind = KINDS.find((each) => `${TESTS[each].slug}-form.html` === wanted);
  return kind === undefined ? notHere() : page(testFormPage(kind, null, FROM_FIRST_PAGE).html);
}

/** A card that the program itself stumbles over is a problem of that card alone. */
function settled(source: Source): CheckedTestCard {
  try {
    return checkTestCard(readTestCard(source));
  } catch (error) {
    return { card: null, problems: [stumbled(source.file, error)] };
  }
}

/** The card and the form of every test in the file; none where it has problems. */
function pagesOf({ card }: CheckedTestCard): Page[] {
  if (card === null) return [];
  const figures = testFigures(card);
  const options = { assets: ASSETS, home: { href: "./", text: "Test card" } };
  return [
    ...figures.map((each) => cardPage(card, each, options)),
    ...figures.map(({ kind }) => testFormPage(kind, card, options)),
  ];
}
