import { type Path, type Problem, type ReadValue, type Written, writtenAt } from "../../reading/index.js";
import { daysBetween } from "../days.js";
import type { ScenarioFile } from "./schema.js";
import { words } from "./wording.js";

/** Ten years, the days of leap years in it. */
const MOST_DAYS = 3653;

/** Days more than ten years from the first service. */
export function farDates(
  file: ScenarioFile,
  written: Written | undefined,
  read: ReadValue<ScenarioFile>,
): Problem[] {
  const first = file.services[0]?.date;
  if (first === undefined) return [];
  return datesOf(file).flatMap(({ path, date }) => {
    if (date === undefined || Math.abs(daysBetween(first, date)) <= MOST_DAYS) return [];
    return [{ ...read.positionOf(asWritten(path, written)), ...words.farAway(date, first) }];
  });
}

interface Dated {
  readonly path: Path;
  readonly date: string | undefined;
}

function datesOf({ services, items, parts = {} }: ScenarioFile): Dated[] {
  const held = (path: Path, entries: readonly { readonly use_by?: string | undefined }[] = []) =>
    entries.map((entry, index) => ({ path: [...path, "on_hand", index, "use_by"], date: entry.use_by }));
  return [
    ...services.map(({ date }, index) => ({ path: ["services", index, "date"], date })),
    ...Object.entries(items).flatMap(([name, { deliveries = [], on_hand }]) => [
      ...deliveries.map((date, index) => ({ path: ["items", name, "deliveries", index], date })),
      ...held(["items", name], on_hand),
    ]),
    ...Object.entries(parts).flatMap(([name, { on_hand }]) => held(["parts", name], on_hand)),
  ];
}

/** Without the index of a list of one that is written without brackets. */
function asWritten(path: Path, written: Written | undefined): Path {
  return path.filter(
    (step, index) => typeof step !== "number" || Array.isArray(writtenAt(written, path.slice(0, index))),
  );
}
