import {
  DEFAULT_COSTING,
  type ReadScenario,
  type Scenario,
  type ScenarioFile,
  type WasteCounts,
} from "../kitchen/index.js";
import { grams, money, NO_MONEY, ONE, ZERO } from "../quantity/index.js";
import { inFileOrder, type Problem } from "../reading/index.js";
import type { YieldTables } from "../yields/index.js";
import { checkScenario } from "./checks.js";
import { Resolving } from "./context.js";
import { resolveDestinations } from "./destinations.js";
import { resolveDishes } from "./dishes.js";
import { resolveItems, resolveSuppliers } from "./items.js";
import { checkPartNames, resolveParts, resolvePartsOnHand } from "./parts.js";
import { resolveServices } from "./services.js";
import { resolveSteps } from "./steps.js";

interface Resolved {
  /** Null where there is any problem. */
  readonly scenario: Scenario | null;
  /** What could be read of it all the same, for what else is wrong with it; null where that is nothing. */
  readonly drafted: Scenario | null;
  /** Every problem of the file, of form and of content, in its order. */
  readonly problems: readonly Problem[];
}

/** Joins a scenario file with the yield tables: every name is looked up and every yield and default filled in. */
export function resolveScenario(read: ReadScenario, tables: YieldTables): Resolved {
  if (read.value === null) return { scenario: null, drafted: null, problems: read.problems };
  const context = new Resolving(read, read.value, tables);
  const services = resolveServices(context);
  const drafts = resolveItems(context, services);
  const items = drafts.map(({ item }) => item);
  const facts = drafts.flatMap((draft) => draft.facts);
  const held = Object.keys(read.value.parts ?? {}).filter(
    (name) => read.value?.parts?.[name]?.on_hand?.length,
  );
  const known = new Set(facts.map(({ part }) => part));
  const had = new Set([...facts.filter(({ inUse }) => inUse).map(({ part }) => part), ...held]);
  const steps = resolveSteps(context, known, had);
  checkPartNames(context, known, had);
  const parts = resolveParts(context, drafts, steps);
  const partsOnHand = resolvePartsOnHand(context, { known, parts }, services);
  const dishes = resolveDishes(context, services, { known, parts });
  const destinations = resolveDestinations(context);
  const suppliers = resolveSuppliers(context);
  checkScenario(context, { services, items, steps, parts, dishes });
  const problems = context.problems.sort(inFileOrder);
  const drafted: Scenario = {
    ...headOf(read.value),
    firstDate: services[0]?.date ?? "",
    services,
    items,
    ...(suppliers.length === 0 ? {} : { suppliers }),
    parts: [...parts.values()],
    steps: steps.map(({ step }) => step),
    dishes,
    destinations,
    partsOnHand,
  };
  return { scenario: problems.length === 0 ? drafted : null, drafted, problems };
}

/** Avoidable peel counts whole unless the file says otherwise; the others only where it says so. */
function wasteCountsOf({
  waste_counts: stated,
  count_avoidable_peel: peelCounts,
}: ScenarioFile): WasteCounts {
  return {
    avoidablePeel: stated?.avoidable_peel ?? (peelCounts === false ? ZERO : ONE),
    unusedUsable: stated?.unused_usable ?? ZERO,
    givenAway: stated?.given_away ?? ZERO,
  };
}

function headOf(file: ScenarioFile) {
  return {
    name: file.scenario,
    locale: file.locale ?? "en-GB",
    currency: file.currency,
    aim: file.aim ?? "waste",
    wastePrice: file.waste_price === undefined ? NO_MONEY : money(file.waste_price),
    wage: NO_MONEY,
    costing: file.costing ?? DEFAULT_COSTING,
    pricesIncludeTax: file.prices_include_tax ?? false,
    scaleStep: file.scale_step ?? grams("1"),
    wasteCounts: wasteCountsOf(file),
    vulnerableDiners: file.vulnerable_diners ?? false,
    rules: file.rules ?? "us",
    allergenList: file.allergen_list ?? "both",
    limits: {
      chilled: file.limits?.chilled ?? null,
      ...(file.limits?.frozen === undefined ? {} : { frozen: file.limits.frozen }),
      handsMinutes: file.limits?.hands ?? null,
      vessels: Object.entries(file.limits?.vessels ?? {}).map(([vessel, most]) => ({ vessel, most })),
    },
  };
}
