import { composeTradeoff, tradeoffCurve, usesOf, worthOf } from "../insight/index.js";
import { isIsoDate, parseWeight } from "../kitchen/index.js";
import { loadScenario, loadWithOffcut } from "../kitchen-files/index.js";
import { pageOf, tradeoffDocument, usesDocument, worthDocument } from "../pages/index.js";
import { askedLine, planningWith } from "../planning/index.js";
import { grams, toGrams } from "../quantity/index.js";
import { isWording, problemLines } from "../reading/index.js";
import { answering, writePages } from "./answering.js";
import { printDocument } from "./print-document.js";
import { EXIT, type ExitCode, type Terminal } from "./terminal.js";
import { folderObstacle } from "./write-folder.js";

export interface TradeoffCommandOptions {
  readonly plans: number;
  readonly seconds: number;
  readonly json?: boolean;
  readonly out?: string;
}

/** `tradeoff FILE`: prints the plans that no other beats on waste and spend, or as JSON, and writes their page where asked. */
export function tradeoffCommand(
  file: string,
  options: TradeoffCommandOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  return answering({ file, ...options }, terminal, async (scenario, engines) => {
    const { plans, seconds, json, out } = options;
    const began = performance.now();
    const result = await tradeoffCurve(scenario, planningWith(engines), {
      plans,
      seconds,
      onProgress: (asked) => terminal.progress(askedLine(asked, began, seconds)),
    });
    terminal.progress(null);
    const tradeoff = composeTradeoff(scenario, result);
    const document = tradeoffDocument(tradeoff, scenario);
    if (json === true) terminal.print(JSON.stringify(tradeoff, null, 2));
    else printDocument(document, terminal);
    if (tradeoff.outcome === "no answer") return EXIT.noAnswer;
    if (out !== undefined)
      writePages(out, [pageOf(document)], json === true ? terminal.complain : terminal.print);
    return tradeoff.outcome === "curve" ? EXIT.plan : EXIT.noPlan;
  });
}

export interface WorthCommandOptions {
  readonly seconds: number;
  readonly json?: boolean;
  readonly out?: string;
}

/** `worth FILE`: prints what each dish, item and part is worth, or as JSON, and writes their page where asked. */
export function worthCommand(
  file: string,
  options: WorthCommandOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  return answering({ file, ...options }, terminal, async (scenario, engines) => {
    const { seconds, json, out } = options;
    const began = performance.now();
    const worth = await worthOf(scenario, planningWith(engines), {
      seconds,
      onProgress: (asked) => terminal.progress(askedLine(asked, began, seconds)),
    });
    terminal.progress(null);
    const document = worthDocument(worth, scenario);
    if (json === true) terminal.print(JSON.stringify(worth, null, 2));
    else printDocument(document, terminal);
    if (worth.outcome === "no answer") return EXIT.noAnswer;
    if (out !== undefined)
      writePages(out, [pageOf(document)], json === true ? terminal.complain : terminal.print);
    return worth.outcome === "worth" ? EXIT.plan : EXIT.noPlan;
  });
}

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
  const document = usesDocument(uses, scenario);
  if (json === true) terminal.print(JSON.stringify(usesJson(uses, scenario.services), null, 2));
  else printDocument(document, terminal);
  if (out === undefined) return EXIT.plan;
  writePages(out, [pageOf(document)], json === true ? terminal.complain : terminal.print);
  return EXIT.plan;
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
