import { usesOf } from "../insight/index.js";
import { isIsoDate, parseWeight } from "../kitchen/index.js";
import { loadScenario, loadWithOffcut } from "../kitchen-files/index.js";
import { usesPage, usesText } from "../pages/index.js";
import { grams, toGrams } from "../quantity/index.js";
import { isWording, problemLines } from "../reading/index.js";
import { writePages } from "./answering.js";
import { EXIT, type ExitCode } from "./exit-code.js";
import type { Terminal } from "./terminal.js";
import { wrapped } from "./wrapped.js";
import { folderObstacle } from "./write-folder.js";

export interface UsesCommandOptions {
  readonly part: string;
  readonly weight: string;
  readonly useBy?: string;
  readonly json?: boolean;
  readonly out?: string;
}

/** Stands in where the weight cannot be read, so that what else is wrong is told too. */
const ANY_WEIGHT = grams("1");

/** `uses FILE --part P --weight W`: what the scenario's dishes can make of an offcut before it must be used. */
export async function usesCommand(
  file: string,
  { part, weight: written, useBy, json, out }: UsesCommandOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  const obstacle = out === undefined ? null : folderObstacle(out);
  if (obstacle !== null) terminal.complain(obstacle);
  const weight = parseWeight(written, null);
  if (isWording(weight)) terminal.complain(`--weight: ${weight.what}. ${weight.remedy}`);
  const isDate = useBy === undefined || isIsoDate(useBy);
  if (!isDate) terminal.complain(`--use-by: \`${useBy}\` is no day. Write it as 2026-10-02`);
  const plain = await loadScenario(file);
  for (const line of problemLines(plain.problems)) terminal.complain(line);
  if (plain.scenario === null) return EXIT.wrongInput;
  const { scenario, stock, problems } = await loadWithOffcut(file, {
    part,
    weight: isWording(weight) ? ANY_WEIGHT : weight,
    ...(useBy === undefined || !isDate ? {} : { useBy }),
  });
  for (const { what, remedy } of problems) terminal.complain(`${part}: ${what}. ${remedy}`);
  if (scenario === null || isWording(weight) || !isDate || obstacle !== null) return EXIT.wrongInput;
  const uses = usesOf(stock, scenario);
  if (json === true) terminal.print(JSON.stringify(usesJson(uses, scenario.services), null, 2));
  else print(usesText(uses, scenario), terminal);
  if (out === undefined) return EXIT.plan;
  writePages(out, [usesPage(uses, scenario)], json === true ? terminal.complain : terminal.print);
  return EXIT.plan;
}

function print(text: ReturnType<typeof usesText>, { print: say, heading, columns }: Terminal): void {
  const block = (words: string) => {
    for (const line of wrapped(words, columns, "  ", "    ")) say(line);
  };
  say(heading(text.headline));
  if (text.allergens !== "") block(`Allergens: ${text.allergens}`);
  if (text.none !== "") block(text.none);
  for (const { name, when, takes, makes, cost, steps, needs, critical, allergens } of text.dishes) {
    say("");
    say(`${name}, ${when}`);
    block(`Takes ${takes}; ${makes}; all else at least ${cost} a portion`);
    if (steps !== "") block(`First: ${steps}`);
    if (needs !== "") block(`Needs beside: ${needs}`);
    if (critical !== "") block(`Critical: ${critical}`);
    block(`Allergens: ${allergens === "" ? "none known" : allergens}`);
  }
  for (const [head, lines] of [
    ["Or else", text.resorts],
    ["Beware", text.cautions],
  ] as const) {
    if (lines.length === 0) continue;
    say("");
    say(head);
    for (const line of lines) block(line);
  }
}

/** Weights in grams and money in currency units, as decimal strings. */
function usesJson(uses: ReturnType<typeof usesOf>, services: readonly { readonly name: string }[]) {
  return {
    ...uses,
    weight: toGrams(uses.weight).toFixed(),
    dishes: uses.dishes.map((use) => ({
      ...use,
      services: use.services.map((at) => services[at]?.name ?? ""),
      takes: use.takes.toFixed(3),
      leaves: use.leaves.toFixed(3),
      costPerPortion: use.costPerPortion.toFixed(4),
      needs: use.needs.map((need) =>
        need.kind === "part"
          ? { ...need, grams: need.grams.toFixed(3) }
          : { ...need, amount: need.amount && { ...need.amount, value: need.amount.value.toFixed() } },
      ),
    })),
    resorts: uses.resorts.map((resort) => ({ ...resort, grams: resort.grams.toFixed(3) })),
  };
}
