import { addDays, type Part } from "../kitchen/index.js";
import { NO_WEIGHT, total, type Weight } from "../quantity/index.js";
import { itemsOfPart, lastUseDay } from "../safety/index.js";
import { allergenWords, partAllergenWords } from "./allergen-words.js";
import { destinationWords, type Lot, type LotUse, lotsOf, lotUses } from "./lots.js";
import type { PageMaker } from "./page.js";
import type { View } from "./view.js";
import { capital, counted } from "./writing.js";

type Labels = { readonly labels: readonly Label[] };

type Label = {
  readonly number: string;
  readonly name: string;
  readonly state: string;
  readonly weight: string;
  readonly allergens: string;
  readonly made: string;
  readonly useBy: string;
  readonly forWhat: string;
  readonly container: string;
  readonly vessel: string;
};

/** A label for every container of food that waits for its dish, and for what is left of a dish. */
export const labelsPage: PageMaker = { slug: "labels", title: "Container labels", data: labelsData };

export function labelsData(view: View): Labels {
  return { labels: [...lotsOf(view).flatMap((lot) => lotLabels(lot, view)), ...leftoverLabels(view)] };
}

/** A container for each use of a lot that keeps it as food: together they are the whole of it that is stored. */
function lotLabels(lot: Lot, view: View): Label[] {
  const { scenario, writing } = view;
  const part = scenario.parts.find(({ name }) => name === lot.part);
  const uses = joined(lotUses(lot.part, lot.cutFor, view)).filter(
    (use) => use.weight !== NO_WEIGHT && isKeptAsFood(use, view),
  );
  if (part === undefined) return [];
  return uses.map((use, index) => ({
    number: String(lot.label),
    name: capital(lot.part),
    state: part.state,
    weight: writing.weight(use.weight),
    allergens: capital(partAllergenWords(part.name, scenario)),
    made: madeOn(lot, view),
    useBy: useBy(part, lot, view),
    forWhat: useWords(use, view),
    container: `${index + 1} of ${uses.length}`,
    vessel: part.container ?? "",
  }));
}

/** Uses of one lot by one dish or step at one service go in one container. */
function joined(uses: readonly LotUse[]): LotUse[] {
  const keyOf = ({ kind, to, service }: LotUse): string => JSON.stringify([kind, to, service]);
  const groups = new Map<string, LotUse[]>();
  for (const use of uses) groups.set(keyOf(use), [...(groups.get(keyOf(use)) ?? []), use]);
  return [...groups.values()].flatMap((group) => {
    const [first] = group;
    if (first === undefined) return [];
    const pieces = group.every((use) => use.pieces !== null)
      ? group.reduce((sum, use) => sum + (use.pieces ?? 0), 0)
      : null;
    return [{ ...first, weight: total(group.map(({ weight }) => weight)), pieces }];
  });
}

function isKeptAsFood({ kind, to }: LotUse, { scenario }: View): boolean {
  if (kind !== "rest" || to === "closingStock") return true;
  return scenario.destinations.some(({ name, end }) => name === to && end === "given away");
}

function useWords({ kind, to, service, pieces }: LotUse, { scenario, writing }: View): string {
  const day = scenario.services.find(({ name }) => name === service)?.date;
  const when = day === undefined ? "" : `, ${service}, ${writing.shortDate(day)}`;
  const where = kind === "rest" ? capital(destinationWords(to)) : `${capital(to)}${when}`;
  return pieces === null ? where : `${where}: ${counted(writing, pieces, "piece")}`;
}

function madeOn({ cutFor }: Lot, { scenario, writing }: View): string {
  const day = scenario.services.find(({ name }) => name === cutFor)?.date;
  return day === undefined ? "" : writing.shortDate(day);
}

/** The day a lot must be used by: the earlier of its quality life and its legal date; "" where it outlasts any plan. */
function useBy(part: Part, { cutFor }: Lot, { plan, scenario, writing }: View): string {
  const service = scenario.services.find(({ name }) => name === cutFor);
  const [item = null] = itemsOfPart(part, scenario);
  if (service !== undefined) {
    const last = lastUseDay(part, item, service.day, scenario.rules);
    return last === null ? "" : writing.shortDate(addDays(scenario.firstDate, last));
  }
  const said = [...plan.goings, ...plan.leftovers].find(
    (each) => each.part === part.name && each.cutFor === null && each.useBy !== null,
  )?.useBy;
  return said === undefined || said === null ? "" : writing.shortDate(said);
}

/** What is cooked for one service and eaten at a later one. */
function leftoverLabels(view: View): Label[] {
  const { plan, scenario, writing } = view;
  return plan.dishes.flatMap((cooking) => {
    const dish = scenario.dishes.find(({ name }) => name === cooking.dish);
    const later = cooking.served.filter(({ service }) => service !== cooking.service);
    if (dish === undefined) return [];
    return later.map(({ service, portions }, index) => {
      const each = cooking.weight;
      const day = scenario.services.find(({ name }) => name === service)?.date;
      const made = scenario.services.find(({ name }) => name === cooking.service)?.date;
      return {
        number: "",
        name: capital(cooking.dish),
        state: "cooked dish",
        weight: `${counted(writing, portions, "portion")}, ${writing.weight(share(each, portions, cooking.portions))}`,
        allergens: allergenWords(dish, scenario),
        made: made === undefined ? "" : writing.shortDate(made),
        useBy: cooking.useBy === null ? "" : writing.shortDate(cooking.useBy),
        forWhat: day === undefined ? service : `${service}, ${writing.shortDate(day)}`,
        container: `${index + 1} of ${later.length}`,
        vessel: "",
      };
    });
  });
}

function share(weight: Weight, portions: number, of: number): Weight {
  return ((weight * BigInt(portions)) / BigInt(of)) as Weight;
}
