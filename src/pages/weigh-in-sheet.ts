import { milligrams, money, roundTogether, type Weight } from "../quantity/index.js";
import {
  countedIn,
  figureOf,
  LOSS,
  lotText,
  type Row,
  rowsOfPlan,
  rowsToPrint,
  WATER,
} from "../weigh-in/index.js";
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
type Heading = { readonly name: string; readonly about: string };
type Shown = Pick<View, "scenario" | "writing">;
export type SheetRow = { readonly name: string; readonly planned: string; readonly unit: string };

/** A blank form for what is weighed, counted and paid, with room for every actual figure that is not told by another. */
export const weighInSheetPage: PageMaker = {
  slug: "weigh-in",
  title: "Weigh-in sheet",
  data: weighInSheetData,
};

/** A plan that does not fit its scenario is a RangeError. */
export function weighInSheetData(view: View): WeighInSheet {
  const rows = rowsOfPlan(view.json, view.scenario, "");
  if (!Array.isArray(rows)) throw new RangeError(rows.what);
  const unit = view.writing.unit;
  return {
    sections: sectionsOf(rowsToPrint(rows, view.scenario.scaleStep), view, (_, printed) => ({
      ...printed,
      unit: printed.unit === unit ? "" : printed.unit,
    })),
  };
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
      about: writing.shortDate(date),
      rows: rows.filter((row) => isWork(row) && row.service === index),
    })),
    { name: "Left", about: "kept, left over or binned", rows: rows.filter(isLeft) },
  ];
  return sections
    .filter((section) => section.rows.length > 0)
    .map(({ name, about, rows: own }) => ({ name, about, groups: groupsOf(own, view, make) }));
}

function isLeft({ what }: Row): boolean {
  return what === "left over" || what === "kept" || what === "binned" || what === "storage loss";
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
      return JSON.stringify(["left over", way]);
    case "kept":
    case "binned":
    case "storage loss":
      return JSON.stringify([what]);
    default:
      return JSON.stringify(["dish", name]);
  }
}

function heading({ what, name, way, service, lot }: Row, { scenario }: Shown): Heading {
  switch (what) {
    case "bought":
      return { name: capital(name), about: "bought" };
    case "cut":
      return { name: capital(name), about: way };
    case "worked":
      return {
        name: capital(way),
        about: withLot(name, lot, service, scenario),
      };
    case "in the house":
      return { name: "", about: "" };
    case "left over":
      return { name: `To ${way}`, about: "" };
    case "kept":
      return { name: "Kept", about: "past the plan" };
    case "binned":
      return { name: "Binned", about: "whole" };
    case "storage loss":
      return { name: "Dried in store", about: "" };
    default:
      return { name: capital(name), about: "" };
  }
}

/** A name with its lot, where that is not what was cut for the same service. */
function withLot(name: string, lot: Row["lot"], service: number | null, scenario: Shown["scenario"]): string {
  if (lot === null || (lot.kind === "cut" && lot.service === service)) return name;
  if (lot.kind === "cut" && scenario.services.length < 2) return name;
  return `${name}, ${lotText(lot, scenario)}`;
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

function rowName({ what, service, name, way, part, lot, measure }: Row, scenario: Shown["scenario"]): string {
  switch (what) {
    case "bought":
      return { count: "Number", weight: "As purchased", cost: "Cost" }[measure];
    case "in the house":
      return capital(withLot(name, partsAlike(name, scenario) ? lot : null, service, scenario));
    case "cut":
      return measure === "count" ? "Number cut" : "As purchased";
    case "cut gave":
      return part === LOSS ? "Juice and drip" : capital(shortName(part, name));
    case "worked":
      return "Taken";
    case "worked gave":
      return part === LOSS ? "Steam and drip" : part === WATER ? "Water taken up" : capital(part);
    case "into dish":
      return capital(withLot(part, lot, service, scenario));
    case "cooked":
      return "Cooked";
    case "eaten":
      return withLot("Eaten", lot, service, scenario);
    case "spare":
      return `Over, to ${way}`;
    case "left over":
    case "kept":
      return capital(withLot(name, lot, null, scenario));
    case "binned":
    case "storage loss":
      return capital(name);
  }
}

function partsAlike(name: string, { partsOnHand }: Shown["scenario"]): boolean {
  return partsOnHand.filter(({ part }) => part === name).length > 1;
}
