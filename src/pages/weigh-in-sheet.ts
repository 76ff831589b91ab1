import { milligrams, money, roundTogether, type Weight } from "../quantity/index.js";
import { countedIn, figureOf, LOSS, lotText, type Row, rowsOfPlan, WATER } from "../weigh-in/index.js";
import type { PageMaker } from "./page.js";
import { shortName, type View } from "./view.js";
import { capital, plural } from "./writing.js";

type WeighInSheet = { readonly sections: readonly Section<SheetRow>[] };
export type Section<T> = {
  readonly name: string;
  readonly about: string;
  readonly groups: readonly Group<T>[];
};
type Group<T> = { readonly name: string; readonly about: string; readonly rows: readonly T[] };
type Shown = Pick<View, "scenario" | "writing">;
export type SheetRow = { readonly name: string; readonly planned: string; readonly unit: string };

/** A blank form for what is weighed, counted and paid: every figure of the plan with room for the actual one. */
export const weighInSheetPage: PageMaker = {
  slug: "weigh-in",
  title: "Weigh-in sheet",
  data: weighInSheetData,
};

/** A plan that does not fit its scenario is a RangeError. */
export function weighInSheetData(view: View): WeighInSheet {
  const rows = rowsOfPlan(view.plan, view.scenario, "");
  if (!Array.isArray(rows)) throw new RangeError(rows.what);
  return { sections: sectionsOf(rows, view, (_, printed) => printed) };
}

/** The rows in the order of the work: what was in the house, service by service, and what is left. */
export function sectionsOf<T>(
  rows: readonly Row[],
  view: Shown,
  make: (row: Row, printed: SheetRow) => T,
): Section<T>[] {
  const { scenario, writing } = view;
  const sections = [
    { name: "In the house", about: "", rows: rows.filter(({ what }) => what === "in the house") },
    ...scenario.services.map(({ name, date }, index) => ({
      name,
      about: writing.date(date),
      rows: rows.filter((row) => isWork(row) && row.service === index),
    })),
    { name: "Left", about: "kept, left over or binned", rows: rows.filter(isLeft) },
  ];
  return sections
    .filter((section) => section.rows.length > 0)
    .map(({ name, about, rows: own }) => ({ name, about, groups: groupsOf(own, view, make) }));
}

function isLeft({ what }: Row): boolean {
  return what === "left over" || what === "kept" || what === "binned";
}

function isWork(row: Row): boolean {
  return row.what !== "in the house" && !isLeft(row);
}

/** Rows of one purchase, cut, step, dish or kind of leftover stand together. */
function groupsOf<T>(
  rows: readonly Row[],
  view: Shown,
  make: (row: Row, printed: SheetRow) => T,
): Group<T>[] {
  const groups = new Map<string, Row[]>();
  for (const row of rows) groups.set(groupName(row), [...(groups.get(groupName(row)) ?? []), row]);
  return [...groups.values()].map((group) => {
    const [first] = group;
    const weights = roundedTogether(group, view);
    return {
      ...(first === undefined ? { name: "", about: "" } : heading(first, view)),
      rows: group.map((row, index) =>
        make(row, sheetRow(row, weights[index] ?? milligrams(row.planned), view)),
      ),
    };
  });
}

function groupName({ what, name, way, lot }: Row): string {
  switch (what) {
    case "in the house":
    case "bought":
      return JSON.stringify(what === "bought" ? [what, name] : [what]);
    case "cut":
    case "cut gave":
      return JSON.stringify(["cut", name, way]);
    case "worked":
    case "worked gave":
      return JSON.stringify(["worked", name, way, lot]);
    case "left over":
    case "kept":
    case "binned":
      return "left";
    default:
      return JSON.stringify(["dish", name]);
  }
}

function heading({ what, name, way, lot }: Row, { scenario }: Shown): { name: string; about: string } {
  switch (what) {
    case "bought":
      return { name: capital(name), about: "bought" };
    case "cut":
      return { name: capital(name), about: way };
    case "worked":
      return {
        name: capital(way),
        about: [name, cutFor(lot, scenario)].filter((text) => text !== "").join(", "),
      };
    case "in the house":
    case "left over":
    case "kept":
    case "binned":
      return { name: "", about: "" };
    default:
      return { name: capital(name), about: "" };
  }
}

function cutFor(lot: Row["lot"], scenario: View["scenario"]): string {
  if (lot === null || scenario.services.length < 2)
    return lot?.kind === "onHand" ? lotText(lot, scenario) : "";
  return lot.kind === "cut" ? `cut for ${lotText(lot, scenario)}` : lotText(lot, scenario);
}

/** What a cut or a step gives, rounded so that it adds up to what was taken; everything else by itself. */
function roundedTogether(rows: readonly Row[], { scenario }: Shown): (Weight | undefined)[] {
  const given = rows.filter(
    ({ what, part }) => (what === "cut gave" || what === "worked gave") && part !== WATER,
  );
  const rounded = roundTogether(
    given.map(({ planned }) => milligrams(planned)),
    scenario.scaleStep,
  );
  return rows.map((row) => rounded[given.indexOf(row)]);
}

function sheetRow(row: Row, weight: Weight, { scenario, writing }: Shown): SheetRow {
  const name = rowName(row, scenario);
  if (row.measure === "weight") return { name, planned: writing.shown(weight), unit: writing.unit };
  const figure = figureOf(row.measure, row.planned);
  if (row.measure === "cost") return { name, planned: writing.money(money(figure)), unit: "" };
  const unit = countedIn(row, scenario);
  return { name, planned: writing.decimal(figure, 3), unit: figure.equals(1) ? unit : plural(unit) };
}

function rowName({ what, service, name, way, part, lot, measure }: Row, scenario: View["scenario"]): string {
  const from = cutFor(lot, scenario);
  const withLot = (text: string) => (from === "" ? text : `${text}, ${from}`);
  switch (what) {
    case "bought":
      return { count: "Number", weight: "Weight as purchased", cost: "Cost" }[measure];
    case "in the house":
      return capital(name);
    case "cut":
      return measure === "count" ? "Number cut" : "Weight as purchased";
    case "cut gave":
      return part === LOSS ? "Juice, drip and crumbs" : capital(shortName(part, name));
    case "worked":
      return "Taken";
    case "worked gave":
      return { [LOSS]: "Steam, drip and crumbs", [WATER]: "Water taken up" }[part] ?? capital(part);
    case "into dish":
      return withLot(`${capital(part)} in, raw`);
    case "cooked":
      return "Cooked";
    case "eaten":
      return lot?.kind === "cut" && lot.service === service ? "Eaten" : `Eaten, ${withLot("kept")}`;
    case "spare":
      return `Over, to ${way}`;
    case "left over":
      return withLot(`${capital(name)} to ${way}`);
    case "kept":
      return withLot(`${capital(name)} kept`);
    case "binned":
      return `${capital(name)} binned whole`;
  }
}
