import type { Scenario } from "../kitchen/index.js";
import type { FilledRow } from "../weigh-in/index.js";
import { type DocumentOptions, documentPage } from "./document.js";
import type { Page } from "./render.js";
import { type Section, sectionsOf } from "./weigh-in-sheet.js";
import { writingFor } from "./writing.js";

export interface WeighInFormOptions extends DocumentOptions {
  /** Where the form is sent to; where what happened is read; where its yield tests are learnt. */
  readonly action: string;
  readonly happened: string;
  readonly learn: string;
  /** The file it is kept in. */
  readonly file: string;
  /** Said first: that it is saved, learnt, or not. */
  readonly said: string;
  readonly isWrong: boolean;
  /** What keeps the weighings from closing, or the file from being read. */
  readonly problems: readonly string[];
  /** By the key of the row. */
  readonly errors: ReadonlyMap<string, string>;
  readonly initials: string;
  /** What was written and has no row, in words. */
  readonly strays: readonly string[];
}

type FormRow = {
  readonly label: string;
  readonly planned: string;
  readonly unit: string;
  readonly id: string;
  readonly key: string;
  readonly actual: string;
  readonly was: string;
  readonly reason: string;
  readonly wasReason: string;
  readonly error: string;
  readonly mode: string;
};

/** The weigh-in to fill in on a screen. `before` is what the file holds, where something else was typed. */
export function weighInFormPage(
  scenario: Scenario,
  rows: readonly FilledRow[],
  before: ReadonlyMap<string, FilledRow>,
  options: WeighInFormOptions,
): Page {
  const { action, happened, learn, file, said, isWrong, problems, errors, initials, strays, ...layout } =
    options;
  const writing = writingFor(scenario);
  const byRow = new Map(rows.map((filled) => [filled.row, filled]));
  let count = 0;
  const sections: Section<FormRow>[] = sectionsOf(
    rows.map(({ row }) => row),
    { scenario, writing },
    (row, { name, planned, unit }) => {
      const filled = byRow.get(row);
      const key = filled?.key ?? "";
      const was = before.get(key) ?? filled;
      return {
        label: name,
        planned,
        unit,
        id: `row-${++count}`,
        key,
        actual: filled?.actual ?? "",
        was: was?.actual ?? "",
        reason: filled?.reason ?? "",
        wasReason: was?.reason ?? "",
        error: errors.get(key) ?? "",
        mode: row.measure === "count" ? "numeric" : "decimal",
      };
    },
  );
  const isClosed = problems.length === 0 && rows.some(({ actual }) => actual !== "");
  return documentPage(
    "weigh-in-form",
    "Weigh in",
    {
      action,
      file,
      said,
      wrong: isWrong ? "yes" : "",
      problems: problems.map((text) => text),
      closed: isClosed ? [{ happened, learn }] : [],
      initials,
      strays: strays.map((text) => text),
      sections,
    },
    layout,
  );
}
