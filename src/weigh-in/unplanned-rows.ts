import type { LotOrigin, PartClass, Scenario } from "../kitchen/index.js";
import { didYouMean, type Wording } from "../reading/index.js";
import { aRow, lotsByText, type Measure, type Row, type What } from "./row.js";
import { cookingRows, cutRows, lineName, purchaseRows, stepRows } from "./rows-of.js";
import { fileWords } from "./words.js";
import type { NameCells } from "./write.js";

/** What happened without being planned: its row, and the other rows of the same purchase, cut, step or cooking. */
export interface Added {
  readonly row: Row;
  readonly group: readonly Row[];
}

type Report = (column: string, wording: Wording) => void;

/** Makes a row that was not planned of its cells, or reports why there can be no such row. */
export function addedRows(
  cells: NameCells,
  measure: Measure,
  scenario: Scenario,
  report: Report,
): Added | null {
  const names = new Names(cells, scenario, report);
  const rows = MAKERS[cells.what.toLowerCase() as What](names);
  if (rows === null) return null;
  const row = rows.find((each) => each.measure === measure && names.isMeant(each));
  if (row !== undefined) return { row, group: rows };
  report("unit", fileWords.noSuchFigure(cells.what, rows.map((each) => each.measure).join(" or ")));
  return null;
}

/** The cells of one row looked up in the scenario; what is not found is reported and null. */
class Names {
  constructor(
    readonly cells: NameCells,
    readonly scenario: Scenario,
    readonly report: Report,
  ) {}

  /** Which row of its group the cells speak of, by what and part. */
  isMeant(row: Row): boolean {
    const isGiven = row.what === "cut gave" || row.what === "worked gave";
    return (
      row.what === this.cells.what.toLowerCase() &&
      (!isGiven || row.part === same(this.cells.part, [row.part]))
    );
  }

  find(column: keyof NameCells, kind: string, known: readonly string[]): string | null {
    const text = this.cells[column];
    const found = same(text, known);
    if (found === null)
      this.report(column, fileWords.unknownName(kind, text, didYouMean(text, known), known));
    return found;
  }

  service(): number | null {
    const names = this.scenario.services.map(({ name }) => name);
    const found = this.find("service", "service", names);
    return found === null ? null : names.indexOf(found);
  }

  item() {
    const found = this.find(
      "name",
      "item",
      this.scenario.items.map(({ name }) => name),
    );
    return this.scenario.items.find(({ name }) => name === found) ?? null;
  }

  part(column: "name" | "part"): { name: string; class: PartClass } | null {
    const found = this.find(
      column,
      "part",
      this.scenario.parts.map(({ name }) => name),
    );
    return this.scenario.parts.find(({ name }) => name === found) ?? null;
  }

  lot(): LotOrigin | null {
    const lots = lotsByText(this.scenario);
    const known = [...lots.keys()];
    const text = this.cells.lot === "" && known.length === 1 ? (known[0] ?? "") : this.cells.lot;
    const found = same(text, known);
    if (found === null)
      this.report("lot", fileWords.unknownName("lot", text, didYouMean(text, known), known));
    return found === null ? null : (lots.get(found) ?? null);
  }

  destination(takes: "food" | "inedible" | "portions", what: string): string | null {
    const found = this.find(
      "way",
      "destination",
      this.scenario.destinations.map(({ name }) => name),
    );
    const destination = this.scenario.destinations.find(({ name }) => name === found);
    if (destination === undefined) return null;
    if (destination.takes[takes]) return destination.name;
    this.report("way", fileWords.doesNotTake(destination.name, what));
    return null;
  }
}

function same(text: string, known: readonly string[]): string | null {
  const plain = (each: string) => each.trim().replace(/\s+/g, " ").toLowerCase();
  return known.find((each) => plain(each) === plain(text)) ?? null;
}

type Maker = (names: Names) => readonly Row[] | null;

const MAKERS: Readonly<Record<What, Maker>> = {
  bought: (names) => {
    const [item, service] = [names.item(), names.service()];
    return item === null || service === null ? null : purchaseRows(item.name, service, names.scenario);
  },
  "in the house": ({ cells, report }) => {
    report("name", fileWords.notInTheHouse(cells.name));
    return null;
  },
  cut: addedCut,
  "cut gave": addedCut,
  worked: addedStep,
  "worked gave": addedStep,
  "into dish": intoDish,
  cooked: (names) => {
    const [dish, service] = [dishOf(names), names.service()];
    return dish === null || service === null ? null : cookingRows(dish.name, service);
  },
  eaten: (names) => {
    const [dish, service, lot] = [dishOf(names), names.service(), names.lot()];
    if (dish === null || service === null || lot === null) return null;
    const eaten = aRow({ what: "eaten", name: dish.name, service, lot, measure: "count" });
    return lot.kind === "cut" ? [eaten, ...cookingRows(dish.name, lot.service)] : null;
  },
  spare: (names) => {
    const [dish, service, way] = [dishOf(names), names.service(), names.destination("portions", "portions")];
    if (dish === null || service === null || way === null) return null;
    return [
      aRow({ what: "spare", name: dish.name, service, way, measure: "count" }),
      ...cookingRows(dish.name, service),
    ];
  },
  "left over": (names) => {
    const [part, lot] = [names.part("name"), names.lot()];
    if (part === null || lot === null) return null;
    const way = names.destination(part.class === "food" ? "food" : "inedible", part.name);
    return way === null ? null : [aRow({ what: "left over", name: part.name, way, lot })];
  },
  kept: (names) => {
    const { cells, scenario } = names;
    const item = scenario.items.find(({ name }) => name === same(cells.name, [name]));
    if (item !== undefined && cells.lot === "") return endRows("kept", item, names);
    const [part, lot] = [names.part("name"), names.lot()];
    return part === null || lot === null ? null : [aRow({ what: "kept", name: part.name, lot })];
  },
  binned: (names) => {
    const item = names.item();
    return item === null ? null : endRows("binned", item, names);
  },
  "storage loss": (names) => {
    const item = names.item();
    return item === null ? null : [aRow({ what: "storage loss", name: item.name })];
  },
};

function endRows(
  what: "kept" | "binned",
  item: { name: string; measure: string },
  names: Names,
): Row[] | null {
  const service = names.service();
  if (service === null) return null;
  const common = { what, name: item.name, service };
  return [...(item.measure === "whole" ? [aRow({ ...common, measure: "count" })] : []), aRow(common)];
}

function addedCut(names: Names): readonly Row[] | null {
  const [item, service] = [names.item(), names.service()];
  if (item === null) return null;
  const way = names.find(
    "way",
    `breakdown of ${item.name}`,
    item.breakdowns.map(({ name }) => name),
  );
  if (way === null || service === null) return null;
  return withPart(cutRows(item.name, way, service, names.scenario), names);
}

function addedStep(names: Names): readonly Row[] | null {
  const { scenario } = names;
  const [part, service, lot] = [names.part("name"), names.service(), names.lot()];
  if (part === null) return null;
  const known = scenario.steps.filter(({ from }) => from.includes(part.name)).map(({ name }) => name);
  const way = names.find("way", `step that takes ${part.name}`, known);
  if (way === null || service === null || lot === null) return null;
  return withPart(stepRows(way, { part: part.name, origin: lot }, service, scenario), names);
}

/** The group, where it gives the part that the row names. */
function withPart(group: readonly Row[], names: Names): readonly Row[] | null {
  const gives = group
    .filter(({ what }) => what === "cut gave" || what === "worked gave")
    .map(({ part }) => part);
  const { what } = names.cells;
  if (!what.toLowerCase().endsWith("gave")) return group;
  return names.find("part", "part it gives", gives) === null ? null : group;
}

function dishOf(names: Names) {
  const found = names.find(
    "name",
    "dish",
    names.scenario.dishes.map(({ name }) => name),
  );
  return names.scenario.dishes.find(({ name }) => name === found) ?? null;
}

/** Only into a line that takes the part; the line need not be named where there is one such line. */
function intoDish(names: Names): readonly Row[] | null {
  const [dish, part, service, lot] = [dishOf(names), names.part("part"), names.service(), names.lot()];
  if (dish === null || part === null || service === null || lot === null) return null;
  const lines = dish.lines.flatMap(({ from }, index) =>
    from.some((source) => source.part === part.name) ? [lineName(dish.name, index, names.scenario)] : [],
  );
  const only = lines.length === 1 && names.cells.way === "" ? lines[0] : undefined;
  const way = only ?? names.find("way", `line of ${dish.name} that takes ${part.name}`, lines);
  if (way === null) return null;
  const row = aRow({ what: "into dish", service, name: dish.name, way, part: part.name, lot });
  return [row, ...cookingRows(dish.name, service)];
}
