import type { Decimal, Weight } from "../quantity/index.js";
import type { Scenario } from "./scenario.js";

export interface Limits {
  /** Most weight of whole items, parts and dishes chilled after any service. */
  readonly chilled: Weight | null;
  /** Most weight of frozen parts after any service; left out where there is no limit. */
  readonly frozen?: Weight;
  /** Most hands-on minutes before each service, where the service does not state its own. */
  readonly handsMinutes: number | null;
  /** Vessels there are for each service. */
  readonly vessels: readonly VesselLimit[];
}

export interface VesselLimit {
  /** As batches name it: tray, pot. */
  readonly vessel: string;
  /** Most batches cooked in it for any one service; half a batch takes a whole one. */
  readonly most: number;
}

export interface Service {
  readonly name: string;
  readonly date: string;
  readonly day: number;
  readonly sitting: string;
  /** Minutes after midnight at which the first plate goes out; null where the scenario does not say. */
  readonly at: number | null;
  /** People at work before it, for the order of work. */
  readonly cooks: number;
  readonly covers: number;
  readonly courses: readonly Course[];
  /** Nobody is counted in two of these. */
  readonly diets: readonly DietCovers[];
  /** Where the rest of a plan is planned: portions cooked before that wait for it, beside those of its courses. */
  readonly waiting?: readonly WaitingPortions[];
  /** The part of a course's portions that may be cooked over and above them, 0.05 being 5 %. */
  readonly overage: Decimal;
  readonly handsMinutes: number | null;
}

export interface Course {
  readonly name: string;
  /** Portions eaten: covers x take-up, whole, rounded up. */
  readonly portions: number;
  readonly takeUp: Decimal;
  /** How many different dishes the course may show, where the scenario limits it. */
  readonly leastDishes: number | null;
  readonly mostDishes: number | null;
}

/** People who need a dish that is fit for all of these diets at once. */
export interface DietCovers {
  readonly diets: readonly string[];
  readonly covers: number;
}

export interface WaitingPortions {
  readonly dish: string;
  readonly course: string | null;
  /** What they are fit for. */
  readonly diets: readonly string[];
  readonly portions: number;
}

/** The service by its place in the plan, as the kitchen calls it. */
export function serviceName({ services }: Pick<Scenario, "services">, service: number): string {
  return services[service]?.name ?? `service ${service + 1}`;
}

/** What people need, in words: "vegetarian and gluten free". */
export function dietText({ diets }: DietCovers): string {
  return diets.join(" and ");
}

/** Whether a dish is fit for people who need all of their diets at once. */
export function isFitFor({ diets }: DietCovers, dish: { readonly diets: readonly string[] }): boolean {
  return diets.every((diet) => dish.diets.includes(diet));
}
