import type { Plan } from "../contract/index.js";
import type { Dish, Service } from "../kitchen/index.js";
import {
  type Allergen,
  allergenSources,
  allergensOfDish,
  DEFERENCE,
  guestAllergens,
  mayContain,
  namedAllergens,
} from "../safety/index.js";
import { allergenWords } from "./allergen-words.js";
import type { PageMaker } from "./page.js";
import type { View } from "./view.js";
import { capital, listed } from "./writing.js";

type Allergens = {
  readonly services: readonly ServiceTable[];
  readonly heads: readonly string[];
  readonly vulnerable: string;
  readonly sources: string;
  readonly deference: string;
};

type ServiceTable = {
  readonly service: string;
  readonly date: string;
  readonly rows: readonly {
    readonly dish: string;
    readonly about: string;
    readonly cells: readonly { readonly mark: string; readonly said: string }[];
    /** All of it in words, where a screen is too narrow for columns. */
    readonly words: string;
    readonly none: string;
  }[];
};

/** As a narrow column's head says it. */
const SHORT: Readonly<Record<Allergen, string>> = { "cereals containing gluten": "gluten" };

const HOLDS = { mark: "●", said: "holds it" };
const MAY_HOLD = { mark: "may", said: "may hold it" };
const WITHOUT = { mark: "", said: "none known" };

/** Every dish eaten at each service by allergen, for whoever answers the guests. */
export const allergensPage: PageMaker = {
  slug: "allergens",
  title: "Dishes by allergen",
  data: allergensData,
};

export function allergensData(view: View): Allergens {
  const { plan, scenario, writing } = view;
  const heads = namedAllergens(scenario.allergenList);
  return {
    heads: heads.map((allergen) => capital(SHORT[allergen] ?? allergen)),
    services: scenario.services
      .map((service) => ({
        service: service.name,
        date: writing.date(service.date),
        rows: eatenAt(service, plan).flatMap(({ cooking, from }) => {
          const dish = scenario.dishes.find(({ name }) => name === cooking);
          return dish === undefined ? [] : [rowOf(dish, from, heads, view)];
        }),
      }))
      .filter(({ rows }) => rows.length > 0),
    vulnerable: scenario.vulnerableDiners ? "yes" : "",
    sources: allergenSources(scenario.allergenList).join("; "),
    deference: DEFERENCE,
  };
}

/** Dishes eaten at a service, and the service they were cooked for where that is another. */
function eatenAt({ name }: Service, { dishes }: Plan): { cooking: string; from: string }[] {
  return dishes.flatMap(({ dish, service, served }) =>
    served.some((each) => each.service === name && each.portions > 0)
      ? [{ cooking: dish, from: service === name ? "" : service }]
      : [],
  );
}

function rowOf(
  dish: Dish,
  from: string,
  heads: readonly Allergen[],
  { scenario }: View,
): ServiceTable["rows"][number] {
  const made = allergensOfDish(scenario, dish);
  const may = mayContain(scenario, dish);
  const also = guestAllergens(made, scenario.allergenList).besides;
  const mayAlso = guestAllergens(may, scenario.allergenList).besides;
  const about = [
    from === "" ? "" : `left from ${from}`,
    also.length === 0 ? "" : `also ${listed(also)}`,
    mayAlso.length === 0 ? "" : `may also hold ${listed(mayAlso)}`,
    dish.shares.length === 0 ? "" : `shares ${listed(dish.shares)}`,
    dish.diets.length === 0 ? "" : `fit for ${listed(dish.diets)}`,
  ];
  return {
    dish: capital(dish.name),
    about: about.filter((text) => text !== "").join("; "),
    cells: heads.map((allergen) => {
      if (made.allergens.includes(allergen)) return HOLDS;
      return may.allergens.includes(allergen) ? MAY_HOLD : WITHOUT;
    }),
    words: allergenWords(dish, scenario),
    none: [made, may].every(({ allergens, others }) => allergens.length + others.length === 0) ? "yes" : "",
  };
}
