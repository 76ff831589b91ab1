import type { Decimal, Money, Weight } from "../quantity/index.js";
import type { PriceBreak, Supplier } from "./buying.js";
import type { CostingName } from "./costing.js";
import type { Destination } from "./destinations.js";
import type { Limits, Service } from "./services.js";

/**
 * The nouns of a scenario, resolved: every name refers to something that exists, every figure is exact, and
 * every yield is filled in. Services are numbered by their order; days count from the first service's date,
 * which is day 0.
 */
export interface Scenario {
  readonly name: string;
  /** BCP 47 tag: how numbers and money are written. */
  readonly locale: string;
  /** ISO 4217 code. */
  readonly currency: string;
  readonly aim: Aim;
  /** What a kilogram of waste counts for in the balanced aim. */
  readonly wastePrice: Money;
  /** What an hour of cutting and of further steps counts for beside net spend; 0 where hands are paid anyway. */
  readonly wage: Money;
  readonly costing: CostingName;
  /** Whether every price and ceiling carries tax; they are compared alike. */
  readonly pricesIncludeTax: boolean;
  /** The smallest weight the kitchen's scale shows; what goes into dishes moves in these steps. */
  readonly scaleStep: Weight;
  readonly wasteCounts: WasteCounts;
  /** The kitchen feeds people who fall ill easily: raw egg and raw sprouts are blocked. */
  readonly vulnerableDiners: boolean;
  /** Whose rules of dates and temperatures bind. */
  readonly rules: RulesOf;
  /** Which allergens the kitchen must tell its guests of. */
  readonly allergenList: AllergenChoice;
  /** Date of the first service, ISO 8601. */
  readonly firstDate: string;
  readonly services: readonly Service[];
  readonly items: readonly Item[];
  /** Those that ask for a least order or charge a delivery; left out where there are none. */
  readonly suppliers?: readonly Supplier[];
  readonly parts: readonly Part[];
  readonly steps: readonly Step[];
  readonly dishes: readonly Dish[];
  readonly destinations: readonly Destination[];
  readonly partsOnHand: readonly PartOnHand[];
  readonly limits: Limits;
}

/** At what part of its weight each counts as waste in the aim, beside food wasted and food lost, which count whole. */
export interface WasteCounts {
  readonly avoidablePeel: Decimal;
  readonly unusedUsable: Decimal;
  readonly givenAway: Decimal;
}

export type Aim = "waste" | "cost" | "balanced";
export type PartClass = "food" | "inedible" | "never";
/** How raw an item is on the board, from what may touch ready-to-eat food to what may touch nothing else. */
export type Handling = "plant" | "egg" | "fish" | "meat" | "poultry";

/** Whose rules of dates and temperatures a kitchen keeps; the figures are in safety/. */
export const RULES_OF = ["us", "uk", "eu", "france", "australia"] as const;
export type RulesOf = (typeof RULES_OF)[number];
/** The lists of allergens in law: nine in the US, fourteen in the EU and UK, or both together. */
export const ALLERGEN_CHOICES = ["us nine", "eu and uk fourteen", "both"] as const;
export type AllergenChoice = (typeof ALLERGEN_CHOICES)[number];

export interface Item {
  readonly name: string;
  /**
   * What its parts are named after: itself, or the item it is another form of. Several items of a scenario may be
   * forms of one; dishes take the part from any of them.
   */
  readonly of: string;
  readonly form: string;
  readonly grade: string | null;
  readonly supplier: string | null;
  readonly handling: Handling;
  /** Whether the yield tables hold it as food. */
  readonly inTables: boolean;
  readonly allergens: readonly string[];
  /** Allergens it may hold without being made of them, as its label says. */
  readonly mayContain: readonly string[];
  /** Whole items are cut by the unit; loose ones by weight, their unit being one kilogram. */
  readonly measure: "whole" | "loose";
  /** Name of one unit: head, bunch, bird, egg, kg. */
  readonly unitName: string;
  readonly unitWeight: Weight;
  /** Of the unit weight, as parts of it; left out where weights are known. */
  readonly unitSpread?: Spread;
  readonly orderUnit: OrderUnit;
  /** Null where buying is off. */
  readonly buying: Buying | null;
  /** Where the rest of a plan is planned: how it is bought, though nothing says that it can be before the first service. */
  readonly inShops?: Buying;
  readonly onHand: readonly ItemOnHand[];
  /** Days a whole unit keeps, the day it arrives being day 1; null when it outlasts any plan. */
  readonly keepsDays: number | null;
  readonly carry: Carry | null;
  readonly breakdowns: readonly Breakdown[];
  /** What to do before cutting: wash, soak, bring to room temperature. */
  readonly treatment: string | null;
  readonly rejectIf: string | null;
  readonly substitute: string | null;
}

/** How far a figure may be off: two standard deviations, each as a factor that its holder explains. */
export interface Spread {
  /** From one unit to the next: over many units it averages out. */
  readonly ofUnits: Decimal;
  /** Of the figure itself, in this kitchen and delivery: the same for every unit, so it never averages out. */
  readonly ofFigure: Decimal;
}

export interface OrderUnit {
  /** "head", "case of 6", "5 kg bag". */
  readonly name: string;
  /** Units of the item in one order unit; for a loose item, kilograms. */
  readonly size: Decimal;
  readonly weight: Weight;
}

export interface Buying {
  /** For one order unit, as the scenario's tax switch says. */
  readonly price: Money;
  /** Lower prices of more order units, fewest first; left out where there are none. */
  readonly breaks?: readonly PriceBreak[];
  readonly taxRate: Decimal | null;
  readonly least: number;
  readonly most: number | null;
  /** Indexes of the services before which it can arrive. */
  readonly deliveries: readonly number[];
  readonly orderBy: string | null;
}

export interface ItemOnHand {
  readonly units: Decimal;
  readonly weight: Weight;
  readonly value: Money;
  /** Last day it may be cut; null when it outlasts the plan. */
  readonly lastDay: number | null;
  /** Where what is not used goes though it would keep; left out where it stays in stock. */
  readonly destination?: string;
}

/** Permission to carry weight past the plan, into a named use. */
export interface Carry {
  readonly use: string;
  readonly limit: Weight;
  /** What a kilogram kept is credited with in the aim; never more than it cost. */
  readonly valuePerKilogram: Money;
}

export interface Breakdown {
  readonly name: string;
  readonly yields: readonly Yield[];
  /** Part of the AP weight that leaves as juice, drip or crumbs. Yields and loss add up to one. */
  readonly loss: Decimal;
  /** Of the yields: each share p has a standard deviation of this times sqrt(p (1 - p)); left out where none is known. */
  readonly yieldSpread?: Spread;
  /** Hands-on minutes for one unit. */
  readonly minutes: Decimal | null;
  readonly how: string | null;
  readonly source: string;
  /** The kitchen's own tests in the yields; left out where there are none. */
  readonly ownTests?: OwnTests;
}

/** How the kitchen's own yield tests count in the yields of a breakdown. */
export interface OwnTests {
  readonly tests: number;
  /** ISO date of the last. */
  readonly upTo: string;
  /** Percent that they count for, of the part where it is least and where it is most. */
  readonly leastCount: number;
  readonly mostCount: number;
}

export interface Yield {
  readonly part: string;
  /** Part of the source's weight: 0.39 being 39 %. */
  readonly fraction: Decimal;
}

export interface Part {
  /** Full name, unique in the scenario: "squash ring". */
  readonly name: string;
  /** What the items it is cut from are forms of (`Item.of`); null for a blend such as a stock. */
  readonly item: string | null;
  readonly class: PartClass;
  /** Inedible, and more or less of it by how thriftily the knife goes: peel, trim, ends; not bones, heads or shells. */
  readonly isPeel: boolean;
  /** Whether the yield tables hold it as food. */
  readonly inTables: boolean;
  /** The kitchen's own word that it is food, where no table says so. */
  readonly foodBy: string | null;
  readonly allergens: readonly string[];
  /** Days it keeps chilled, the day it was cut being day 1; null when it outlasts any plan. */
  readonly keepsDays: number | null;
  readonly state: "raw" | "cooked" | "frozen";
  /** Weight of one piece, for parts that move whole (rings, yolks, breasts). */
  readonly pieceWeight: Weight | null;
  /** Market value or credit of a kilogram, for the costing methods that need one. */
  readonly marketValue: Money | null;
  readonly carry: Carry | null;
  readonly container: string | null;
}

/** A further breakdown of a part: peel, pick, dice down, freeze, or a pot of stock. */
export interface Step {
  readonly name: string;
  /** The parts it takes, gram for gram alike. */
  readonly from: readonly string[];
  /** Per kilogram taken. Yields and loss add up to one plus the water. */
  readonly yields: readonly Yield[];
  readonly loss: Decimal;
  /** Kilograms of water taken up per kilogram; it goes into the first yield. */
  readonly water: Decimal;
  /** Of what it gives, as of a breakdown, shares being of the weight and the water together. */
  readonly yieldSpread?: Spread;
  /** Most weight taken before any one service: what the pot holds. */
  readonly capacity: Weight | null;
  readonly minutesPerKilogram: Decimal | null;
  readonly how: string | null;
  readonly source: string;
}

export interface PartOnHand {
  readonly part: string;
  readonly weight: Weight;
  readonly value: Money;
  readonly useBy: string | null;
  readonly lastDay: number | null;
  /** Where what is not used goes though it would keep; left out where it stays in stock. */
  readonly destination?: string;
  /**
   * Where the rest of a plan is planned: the day it was cut, or came into the house as that part, before the rest's
   * first.
   */
  readonly since?:
    | { readonly how: "cut"; readonly day: number }
    | { readonly how: "on hand"; readonly day: number; readonly part: string };
}

export interface Dish {
  readonly name: string;
  readonly course: string | null;
  /** Indexes of the services that offer it, in order. */
  readonly services: readonly number[];
  /** Portions at each service that offers it; null where the course's covers alone decide. */
  readonly portions: { readonly least: number; readonly most: number } | null;
  /** Whether it may be left out even where it states a least number of portions. */
  readonly optional: boolean;
  readonly batch: Batch | null;
  readonly ceiling: Money | null;
  readonly diets: readonly string[];
  readonly allergens: readonly string[];
  /** Allergens it may hold without being made of them. */
  readonly mayContain: readonly string[];
  /** Equipment it shares with other dishes and takes their allergens from: a fryer, a grill. */
  readonly shares: readonly string[];
  readonly lines: readonly RecipeLine[];
  readonly staples: readonly StapleLine[];
  /** Days what is left may still be offered, the day it was cooked being day 1; null: never again. */
  readonly keepsDays: number | null;
  readonly minutesPerBatch: Decimal | null;
  readonly rawEgg: boolean;
  readonly method: readonly string[];
  /** What the dish declares is done to parts that are food only after it: "boiled 10 minutes and water discarded". */
  readonly treatments: readonly string[];
  readonly cooking: CookingCard;
}

export interface CookingCard {
  readonly equipment: string | null;
  readonly time: string | null;
  readonly coreTemperature: string | null;
  readonly portioning: string | null;
}

export interface Batch {
  readonly portions: number;
  readonly halves: boolean;
  readonly vessel: string;
}

export interface RecipeLine {
  readonly name: string;
  /** Per portion, as stated: raw or cooked weight. */
  readonly least: Weight;
  readonly most: Weight;
  readonly stated: "raw" | "cooked";
  /** Cooked weight over raw weight; 1 for a line stated raw. */
  readonly cookingYield: Decimal;
  readonly from: readonly LineSource[];
}

export interface LineSource {
  readonly part: string;
  /** Grams of the line that one gram of the part stands for, before cooking. */
  readonly rate: Decimal;
  readonly leastShare: Decimal;
  readonly mostShare: Decimal;
}

export interface StapleLine {
  readonly name: string;
  /** Exact cost a portion; it is rounded once, on the whole cooking. */
  readonly costPerPortion: Decimal;
  /** Amount a portion and price for that unit, where the scenario states them instead of a flat cost. */
  readonly amount: { readonly value: Decimal; readonly unit: "g" | "mL" | "each" } | null;
  /** Price of one kg, L or each. */
  readonly price: Decimal | null;
  readonly allergens: readonly string[];
}
