import type { Express } from "express";
import { type Page, TESTS, testCardPage, testFormPage } from "../../pages/index.js";
import { type SettledTestCard, type TestKind, testFigures } from "../../yields/index.js";
import { notFound } from "../answers.js";
import type { Context } from "../context.js";
import { testCardScreen } from "../test-card-screens.js";

const KINDS: readonly TestKind[] = ["butchers", "cooking"];

/** A folder's butcher's tests and cooking-loss tests, each with its card and a form for the next, and blank forms. */
export function addTestCardRoutes(app: Express, { folder }: Context): void {
  const settled = async (name: string): Promise<SettledTestCard | null> => {
    return (await folder.testCards()).find(({ file }) => file === name)?.settled ?? null;
  };

  app.get("/test-card/:name/", async (request, response) => {
    const { name } = request.params;
    const card = await settled(name);
    if (card === null) notFound(request, response);
    else response.send(testCardScreen(name, card, pagesOf(card)));
  });

  app.get("/test-card/:name/:page", async (request, response) => {
    const { name, page: wanted } = request.params;
    const card = await settled(name);
    const page = card === null ? undefined : pagesOf(card).find(({ slug }) => `${slug}.html` === wanted);
    if (page === undefined) notFound(request, response);
    else response.send(page.html);
  });

  app.get("/forms/:page", (request, response) => {
    const home = { href: "/", text: "All scenarios" };
    const kind = KINDS.find((each) => `${TESTS[each].slug}-form.html` === request.params.page);
    if (kind === undefined) notFound(request, response);
    else response.send(testFormPage(kind, null, { assets: "/assets/", home }).html);
  });
}

/** The card and the form of every test in the file; none where it has problems. */
function pagesOf({ card }: SettledTestCard): Page[] {
  if (card === null) return [];
  const figures = testFigures(card);
  const options = { assets: "/assets/", home: { href: "./", text: "Test card" } };
  return [
    ...figures.map((each) => testCardPage(card, each, options)),
    ...figures.map(({ kind }) => testFormPage(kind, card, options)),
  ];
}
