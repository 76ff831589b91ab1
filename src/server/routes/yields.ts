import express, { type Express, type Request, type Response } from "express";
import {
  type KitchenYields,
  kitchenYields,
  loadKitchenYields,
  recordTests,
} from "../../kitchen-files/index.js";
import { itemYieldsPage, type YieldTestErrors, yieldsIndexPage, yieldTestPage } from "../../pages/index.js";
import { type Problem, problemLines, problemText } from "../../reading/index.js";
import {
  itemYields,
  type TableBreakdown,
  type TableItem,
  type TypedSource,
  type TypedTest,
  typedYieldTest,
} from "../../yields/index.js";
import { notFound } from "../answers.js";
import type { Context } from "../context.js";
import { fromOwnPage } from "../guards.js";

const INDEX = "/yields/";
const LAYOUT = { assets: "/assets/", home: { href: "/", text: "All scenarios" } };
const TO_INDEX = { href: INDEX, text: "Yields" };

/** What tables and own tests say of every item, and the yield tests to fill in. */
export function addYieldRoutes(app: Express, { folder }: Context): void {
  app.get(INDEX, async (_request, response) => {
    const yields = await loadKitchenYields(folder.path);
    const problems = problemLines(yields.problems);
    response.send(yieldsIndexPage(yields, { ...LAYOUT, problems, addressOf }).html);
  });

  app.get("/yields/:item/", async (request, response) => {
    const yields = await loadKitchenYields(folder.path);
    const name = request.params.item;
    const forms = yields.published.items.filter((item) => item.name === name);
    if (forms.length === 0) notFound(request, response);
    else response.send(itemPage(forms, yields, request.query.saved === "yes"));
  });

  app
    .route("/yields/:item/test")
    .get((request, response) => {
      const asked = breakdownAsked(request);
      if (asked === null) notFound(request, response);
      else response.send(testPage(asked));
    })
    .post(
      fromOwnPage,
      express.urlencoded({ extended: false, limit: "20kb" }),
      async (request: Request<{ item: string }>, response: Response) => {
        const asked = breakdownAsked(request);
        if (asked === null) {
          notFound(request, response);
          return;
        }
        const typed = typedIn(request.body, asked);
        const written = typedYieldTest(asked.item, asked.breakdown, typed);
        const { problems } = await recordTests(folder.path, written.source);
        if (problems.length === 0) response.redirect(303, `${addressOf(asked.item.name)}?saved=yes`);
        else response.status(422).send(testPage(asked, typed, errorsOf(problems, written)));
      },
    );
}

interface Asked {
  readonly item: TableItem;
  readonly breakdown: TableBreakdown;
}

function addressOf(item: string): string {
  return `${INDEX}${encodeURIComponent(item)}/`;
}

function testAddress(item: string, form: string, breakdown: string): string {
  return `${addressOf(item)}test?${new URLSearchParams({ form, breakdown }).toString()}`;
}

function itemPage(forms: readonly TableItem[], yields: KitchenYields, saved: boolean): string {
  const name = forms[0]?.name ?? "";
  return itemYieldsPage(itemYields(forms, yields), {
    ...LAYOUT,
    nav: [TO_INDEX],
    problems: problemLines(yields.problems),
    saved,
    testOf: (form, breakdown) => testAddress(name, form, breakdown),
  }).html;
}

function testPage({ item, breakdown }: Asked, typed?: TypedTest, errors?: YieldTestErrors): string {
  return yieldTestPage(item, breakdown, {
    ...LAYOUT,
    nav: [TO_INDEX, { href: addressOf(item.name), text: `Yields of ${item.name}` }],
    script: "missing.js",
    action: testAddress(item.name, item.form, breakdown.name),
    ...(typed === undefined ? {} : { typed }),
    ...(errors === undefined ? {} : { errors }),
  }).html;
}

/** The item, form and breakdown that the address names; null where the tables hold no such thing. */
function breakdownAsked({ params, query }: Request<{ item: string }>): Asked | null {
  const item = kitchenYields(null).published.items.find(
    ({ name, form }) => name === params.item && form === query.form,
  );
  const breakdown = item?.breakdowns.find(({ name }) => name === query.breakdown);
  return item === undefined || breakdown === undefined ? null : { item, breakdown };
}

/** The fields of the form as text; what is not there is empty. */
function typedIn(body: unknown, { item, breakdown }: Asked): TypedTest {
  const fields = typeof body === "object" && body !== null ? new Map(Object.entries(body)) : new Map();
  const text = (name: string): string => {
    const value: unknown = fields.get(name);
    return typeof value === "string" ? value : "";
  };
  return {
    supplier: text("supplier"),
    date: text("date"),
    units: item.measure === "loose" ? "1" : text("units"),
    apWeight: text("apWeight"),
    scaleStep: text("scaleStep"),
    weights: breakdown.parts.map((_, index) => text(`weight-${index}`)),
    loss: text("loss"),
  };
}

/** Each problem at its field; a field says the first of its own. */
function errorsOf(problems: readonly Problem[], { source, fieldOf }: TypedSource): YieldTestErrors {
  const fields: Record<string, string> = {};
  const weights = new Map<number, string>();
  const others: string[] = [];
  for (const problem of problems) {
    const field = fieldOf(problem);
    const text = inTheForm(`${problem.what}. ${problem.remedy}`);
    if (field === null) others.push(problem.file === source.file ? text : problemText(problem));
    else if (typeof field === "number") weights.set(field, weights.get(field) ?? text);
    else fields[field] ??= text;
  }
  return { fields, weights, others };
}

/** The words for a file, said of a form: it has no columns to name. */
function inTheForm(text: string): string {
  return text.replace(/^`[a-z_]+` is empty/, "Nothing is written here").replace(/`([^`]*)`/g, "“$1”");
}
