import type { Scenario } from "../kitchen/index.js";
import { Decimal, grams, money, unitNamed, weightIn } from "../quantity/index.js";
import {
  type CsvRow,
  didYouMean,
  inFileOrder,
  type Position,
  type Problem,
  readCsv,
  type Separator,
  type Source,
  type Wording,
} from "../reading/index.js";
import type { Note, Reading, Sheet } from "./reconciliation.js";
import {
  countedIn,
  isWeightUnit,
  type Measure,
  OF_PLAN,
  ONE_COUNTED,
  type Row,
  rowKey,
  WHATS,
} from "./row.js";
import { addedRows } from "./unplanned-rows.js";
import { fileWords } from "./words.js";
import { cellsKey, type NameCells, nameCells, WEIGH_IN_COLUMNS } from "./write.js";

const MOST_WEIGHT = grams("10000000");
const MOST_COST = money("10000000");
const MOST_COUNT = 100_000_000n;

/**
 * Reads a filled weigh-in against the rows there were to weigh. A row left blank is not weighed; one that was not
 * planned is added where the scenario knows what it speaks of. Every problem is reported by file, line and column. One
 * that says it is of another plan than the one with this hash is not read; of one of an earlier version, which does
 * not say, the numbers planned tell.
 */
export function readWeighIn(
  source: Source,
  planned: readonly Row[],
  scenario: Scenario,
  plan: string,
): { sheet: Sheet; problems: Problem[] } {
  const table = readCsv(source, WEIGH_IN_COLUMNS);
  const problems: Problem[] = [...table.problems];
  const rows = new Map(planned.map((row) => [rowKey(row), row]));
  const byCells = new Map(planned.map((row) => [cellsKey(nameCells(row, scenario), row.measure), row]));
  const readings = new Map<Row, Reading>();
  const notes = new Map<Row, Note>();
  const places = new Map<Row, Position>();
  const named = table.rows.filter((line) => line.cell("what").text.toLowerCase() === OF_PLAN);
  const ofPlan = named[0]?.cell("name").text.toLowerCase() ?? null;
  const other = named.find((line) => line.cell("name").text.toLowerCase() !== plan);
  if (other !== undefined) problems.push({ ...other.cell("name").position, ...fileWords.ofAnotherPlan() });
  for (const line of other === undefined ? table.rows : []) {
    if (named.includes(line)) continue;
    const report = (column: string, wording: Wording) => {
      problems.push({ ...line.cell(column).position, ...wording });
    };
    const cells = cellsOf(line);
    const measure = measureOf(line, scenario, report);
    if (measure === null) continue;
    const isBlank = line.cell("actual").text === "";
    let row = byCells.get(cellsKey(cells, measure));
    if (row !== undefined && ofPlan === null && isPlannedOtherwise(line, row)) {
      problems.push({ ...line.cell("planned").position, ...fileWords.ofAnotherPlan() });
      break;
    }
    if (row === undefined && isBlank) continue;
    if (row === undefined) {
      const added = addedRows(cells, measure, scenario, report);
      if (added === null) continue;
      for (const each of added.group) {
        if (rows.has(rowKey(each))) continue;
        rows.set(rowKey(each), each);
        byCells.set(cellsKey(nameCells(each, scenario), each.measure), each);
      }
      row = rows.get(rowKey(added.row));
      if (row === undefined) continue;
    }
    const before = places.get(row);
    if (before !== undefined) {
      report("what", fileWords.twice(before.line));
      continue;
    }
    places.set(row, line.cell("actual").position);
    notes.set(row, noteOf(line));
    if (isBlank) continue;
    const value = figureIn(line, row, { scenario, separator: table.separator }, report);
    if (value !== null) readings.set(row, { value, place: line.cell("actual").position });
  }
  const sheet = { file: source.file, ofPlan, rows: [...rows.values()], readings, notes, places };
  return { sheet, problems: problems.sort(inFileOrder) };
}

/** Whether a weigh-in holds any figure or reason, or cannot be read and so might. */
export function holdsFigures(source: Source): boolean {
  const { rows, problems } = readCsv(source, WEIGH_IN_COLUMNS);
  return (
    problems.length > 0 || rows.some((line) => line.cell("actual").text + line.cell("reason").text !== "")
  );
}

/** Whether another number was planned when the row was written. Weights may have been rounded otherwise. */
function isPlannedOtherwise(line: CsvRow, { measure, planned }: Row): boolean {
  const { text } = line.cell("planned");
  return measure === "count" && /^\d+$/.test(text) && BigInt(text) * ONE_COUNTED !== planned;
}

function cellsOf(line: CsvRow): NameCells {
  const text = (column: string) => line.cell(column).text;
  return {
    what: text("what"),
    service: text("service"),
    name: text("name"),
    way: text("way"),
    part: text("part"),
    lot: text("lot"),
  };
}

function noteOf(line: CsvRow): Note {
  const text = (column: string) => line.cell(column).text;
  return { reason: text("reason"), by: text("by"), time: text("time") };
}

type Report = (column: string, wording: Wording) => void;

function measureOf(line: CsvRow, { currency }: Scenario, report: Report): Measure | null {
  const what = line.cell("what").text;
  if (!WHATS.some((known) => known === what.toLowerCase())) {
    report("what", fileWords.unknownWhat(what, didYouMean(what, WHATS), WHATS));
    return null;
  }
  const unit = line.cell("unit").text;
  if (unit === "") {
    report("unit", fileWords.noUnit(currency));
    return null;
  }
  if (unit.toUpperCase() === currency.toUpperCase()) return "cost";
  return isWeightUnit(unit) ? "weight" : "count";
}

/** A file, as far as it says how its figures are written. */
interface Written {
  readonly scenario: Scenario;
  readonly separator: Separator;
}

/** The figure in the row's measure; null, with the problem, where it is none. */
function figureIn(line: CsvRow, row: Row, { scenario, separator }: Written, report: Report): bigint | null {
  const { text: written } = line.cell("actual");
  const unit = line.cell("unit").text;
  const text = withPoint(written, separator);
  if (text === null) {
    report("actual", fileWords.pointOrThousands(written));
    return null;
  }
  if (row.measure === "weight") {
    const named = unitNamed(unit, null);
    const isPlain = /^\d+(\.\d+)?$/.test(text);
    const weight = isPlain && named.kind === "unit" ? weightIn(named.unit, new Decimal(text)) : null;
    if (weight === null || weight > MOST_WEIGHT) report("actual", fileWords.noWeight(written, unit));
    return weight !== null && weight <= MOST_WEIGHT ? weight : null;
  }
  if (row.measure === "cost") {
    const cost = /^\d+(\.\d{1,4})?$/.test(text) ? money(text) : null;
    if (cost === null || cost > MOST_COST) report("actual", fileWords.noCost(written, unit));
    return cost !== null && cost <= MOST_COST ? cost : null;
  }
  const wanted = countedIn(row, scenario);
  const isUnit = [wanted, `${wanted}s`].some((each) => each.toLowerCase() === unit.toLowerCase());
  if (!isUnit) {
    report("unit", fileWords.otherUnit(unit, wanted));
    return null;
  }
  const isCount = (row.what === "in the house" ? /^\d{1,6}(\.\d{1,3})?$/ : /^\d{1,6}$/).test(text);
  const count = isCount ? BigInt(new Decimal(text).times(ONE_COUNTED.toString()).toFixed(0)) : null;
  if (count === null || count > MOST_COUNT) report("actual", fileWords.noCount(written, wanted));
  return count !== null && count <= MOST_COUNT ? count : null;
}

/**
 * The figure with a point. A table between whose cells no commas stand comes from a spreadsheet that may have commas
 * for decimals: there `6,60` is 6.60, and `1.142`, which may be either, is null.
 */
function withPoint(text: string, separator: Separator): string | null {
  if (separator === ",") return text;
  if (/^\d{1,3}(\.\d{3})+$/.test(text)) return null;
  return text.replace(/^(\d+),(\d+)$/, "$1.$2");
}
