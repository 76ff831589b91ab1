import { capital, fill, type Page, TESTS } from "../pages/index.js";
import { problemLines } from "../reading/index.js";
import type { SettledTestCard } from "../yields/index.js";
import { frame, type TestCardLine } from "./screens.js";

/** What the first page says of a test card: what it is of, and which tests it holds. */
export function testCardLine(file: string, { card, problems }: SettledTestCard): TestCardLine {
  const hasBoth = card !== null && card.butchers !== null && card.cooking !== null;
  const only = card?.cooking === null ? TESTS.butchers.title : TESTS.cooking.title;
  return {
    name: card === null ? file : capital(card.item),
    file: card === null ? [] : [file],
    href: `/test-card/${encodeURIComponent(file)}/`,
    state:
      card === null
        ? problemCount(problems.length)
        : hasBoth
          ? "Butcher's test, then cooking-loss test"
          : only,
  };
}

/** One test card: its problems, or the ways to its pages. */
export function testCardScreen(file: string, settled: SettledTestCard, pages: readonly Page[]): string {
  const { name, state } = testCardLine(file, settled);
  return fill("scenario", {
    ...frame(name, {}),
    file: settled.card === null ? [] : [file],
    state,
    problems: problemLines(settled.problems),
    busy: [],
    pages: pages.map(({ slug, title }) => ({ href: `${slug}.html`, title })),
    json: [],
    ask: [],
  });
}

function problemCount(count: number): string {
  return count === 1 ? "1 problem" : `${count} problems`;
}
