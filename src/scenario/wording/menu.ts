import type { Service } from "../../kitchen/index.js";
import { type Decimal, grams, type Weight } from "../../quantity/index.js";
import { wordings } from "../../reading/index.js";
import { gramsText, listText, meantOr, percentText } from "./figures.js";

export type Dated = Pick<Service, "name" | "date">;

export const menu = wordings("scenario", {
  noServices: () => ({
    what: "the scenario has no service",
    remedy: "Add one, such as `- {name: Friday dinner, date: 2026-10-02, covers: 60}`",
  }),
  serviceTwice: (name: string, line: number) => ({
    what: `a service called \`${name}\` stands on line ${line} already`,
    remedy: "Give each service a name of its own",
  }),
  serviceOutOfOrder: (service: Dated, before: Dated) => ({
    what: `\`${service.name}\` on ${service.date} stands after \`${before.name}\` on ${before.date} and is served before it`,
    remedy: "Write the services in the order they are served",
  }),
  serviceBeforeByClock: (name: string, before: string) => ({
    what: `\`${name}\` stands after \`${before}\` and is served earlier that day`,
    remedy: "Write the services in the order they are served",
  }),
  noCovers: (name: string) => ({
    what: `\`${name}\` has courses, and how many people are expected is not stated`,
    remedy: "Add `covers:`, such as `covers: 60`",
  }),
  zeroCovers: (name: string) => ({
    what: `nobody is expected at \`${name}\``,
    remedy: "Write how many people are expected, or leave the service out",
  }),
  dietAboveCovers: (diet: string, needed: number, covers: number) => ({
    what: `${needed} covers need ${diet}, and only ${covers} are expected`,
    remedy: `Write at most ${covers}`,
  }),
  dietsAboveCovers: (needed: number, covers: number) => ({
    what: `${needed} covers need a diet, and only ${covers} are expected`,
    remedy:
      "Count each of them once: people who need two diets stand under both at once, such as `vegetarian and gluten free: 4`, and under neither alone",
  }),
  dietTwice: (diet: string) => ({
    what: `${diet} stands here twice`,
    remedy: "Write it once",
  }),
  dietsTwice: (diets: string, line: number) => ({
    what: `covers that need ${diets} stand on line ${line} already`,
    remedy: "Add these to them, and leave this entry out",
  }),
  dietsJoinedInDish: (name: string, diets: readonly string[]) => ({
    what: `\`${name}\` is stated as one diet, and ${listText(diets)} are diets too`,
    remedy: `Write \`[${diets.join(", ")}]\``,
  }),
  unknownService: (name: string, meant: string | null, names: readonly string[]) => ({
    what: `there is no service \`${name}\``,
    remedy: meantOr(meant, `Write one of: ${listText(names)}`),
  }),
  noDishes: () => ({
    what: "the scenario has no dish",
    remedy: "Add one under `dishes:`",
  }),
  noLines: (dish: string) => ({
    what: `\`${dish}\` takes no part of any item`,
    remedy: "Add `lines:`, such as `lines: [{amount: 170 g, from: marrow dice}]`",
  }),
  dishWithoutCourse: (dish: string) => ({
    what: `how many portions of \`${dish}\` are wanted is not stated`,
    remedy: "Add `course:`, such as `course: main`, or `portions:`, such as `portions: 24`",
  }),
  offeredNowhere: (dish: string) => ({
    what: `\`${dish}\` is offered at no service`,
    remedy: "Name a service, or leave the key out",
  }),
  unknownCourse: (course: string, meant: string | null, courses: readonly string[]) => ({
    what: `no service has a course \`${course}\``,
    remedy: meantOr(
      meant,
      courses.length === 0
        ? "Add it to a service, such as `courses: {main: 100 %}`, or state `portions:`"
        : `Write one of: ${listText(courses)}`,
    ),
  }),
  courseNotAtService: (course: string, service: Dated, dish: string) => ({
    what: `\`${dish}\` is a ${course}, and \`${service.name}\` has no such course`,
    remedy: `Take \`${service.name}\` out, add the course to it, or state \`portions:\``,
  }),
  courseWithoutDish: (course: string, service: string) => ({
    what: `no dish is offered for ${course} at \`${service}\``,
    remedy: `Add a dish with \`course: ${course}\`, or leave the course out`,
  }),
  dietWithoutDish: (diets: readonly string[], service: string, meant: string | null) => ({
    what: `no dish offered at \`${service}\` is fit for ${diets.join(" and ")}${diets.length > 1 ? " at once" : ""}`,
    remedy: meantOr(meant, `Add \`diets: [${diets.join(", ")}]\` to the dishes that are`),
  }),
  unusedVessel: (vessel: string, meant: string | null, known: readonly string[]) => ({
    what: `no dish is cooked in batches in a vessel \`${vessel}\``,
    remedy: meantOr(
      meant,
      known.length === 0
        ? "Add `batch: {portions: 12, vessel: tray}` to the dishes that are"
        : `Write one of ${listText(known)}`,
    ),
  }),
  noPortions: (dish: string) => ({
    what: `\`${dish}\` is wanted in no portion`,
    remedy: "Write how many, such as `24` or `20 to 40`, or leave the dish out",
  }),
  emptyBatch: () => ({
    what: "a batch of no portions",
    remedy: "Write how many portions a batch makes",
  }),
  oddBatch: (portions: number) => ({
    what: `half a batch of ${portions} is no whole number of portions`,
    remedy: `Write an even number, such as \`${portions + 1}\`, or \`halves: no\``,
  }),
  lessThanTheScaleShows: (portions: number, all: Weight, step: Weight) => ({
    what: `${portions === 1 ? "1 portion takes" : `${portions} portions take`} ${gramsText(all)} of it in all, and the scale shows ${gramsText(step)}`,
    remedy: `Write a larger amount, or \`scale_step: ${finerStep(all)}\`, or list it under \`staples:\``,
  }),
  noAmount: () => ({
    what: "`amount` is missing",
    remedy: "Write the weight of one portion, such as `amount: 170 g`",
  }),
  noSources: () => ({
    what: "the line is taken from nothing",
    remedy: "Write the part it is taken from, such as `from: marrow dice`",
  }),
  lineOutOfReach: (parts: readonly string[]) => ({
    what: `no breakdown or step in use gives ${listText(parts)}`,
    remedy: "Add the breakdown to `cut:`, or take the line from another part",
  }),
  inedibleInDish: (part: string) => ({
    what: `\`${part}\` is inedible, and a dish takes food`,
    remedy: `Take another part; if this one is eaten here, add \`${part}: {class: food}\` under \`parts:\``,
  }),
  zeroRate: (part: string) => ({
    what: `at a rate of zero, no amount of \`${part}\` would do`,
    remedy: "Write how many grams of the line one gram of it stands for, such as `1.0`",
  }),
  sharesAbove: (least: Decimal) => ({
    what: `the least shares add up to ${percentText(least)}`,
    remedy: "Write shares whose least add up to 100 % or less",
  }),
  sharesBelow: (most: Decimal) => ({
    what: `the greatest shares add up to ${percentText(most)}, so the line can never be full`,
    remedy: "Write shares whose greatest add up to 100 % or more",
  }),
  noPieceWeight: (part: string | null) => ({
    what:
      part === null
        ? "the pieces of these parts do not weigh the same"
        : `\`${part}\` is not counted in pieces`,
    remedy:
      part === null ? "Write a weight, or take the line from one part" : "Write a weight, such as `170 g`",
  }),
  yieldOnRaw: () => ({
    what: "a cooking yield is stated, and the amount is raw",
    remedy: "Write the amount as cooked, such as `120 g cooked`, or leave the yield out",
  }),
  zeroCookingYield: () => ({
    what: "nothing would be left after cooking",
    remedy: "Write cooked weight as a percent of raw, such as `75 %`",
  }),
  noCookingYield: (part: string, method: string | null) => ({
    what: `the amount is cooked, and what ${part === "" ? "it" : `\`${part}\``} loses ${
      method === null ? "in cooking" : `when ${method}`
    } is not known`,
    remedy: "Add `cooking: {yield: 75 %}`, or write the raw amount",
  }),
  stapleTwice: (name: string) => ({
    what: `\`${name}\` has a flat cost and an amount or price as well`,
    remedy: "Keep `cost`, or `amount` and `price`",
  }),
  stapleHalf: (name: string, amountMissing: boolean) => ({
    what: `\`${name}\` has no ${amountMissing ? "amount" : "price"}`,
    remedy: amountMissing
      ? "Add `amount:`, such as `amount: 15 g`, or write a flat cost a portion"
      : "Add `price:`, such as `price: 4.00 / kg`, or write a flat cost a portion",
  }),
  stapleUnits: (name: string, unit: keyof typeof PRICE_FOR, meant: string | null) => ({
    what: `the price of \`${name}\` is for another measure than its amount`,
    remedy: meantOr(meant, `Write the price for ${PRICE_FOR[unit]}, or the amount as the price is`),
  }),
  noWastePrice: () => ({
    what: "the balanced aim needs to know what waste counts for",
    remedy: "Add `waste_price:`, such as `waste_price: 4.00 / kg`",
  }),
  inedibleGivenAway: (name: string) => ({
    what: `\`${name}\` is given away, and inedible parts are not given to people`,
    remedy: "Write `takes: [food, portions]`, or another kind",
  }),
  animalFeedBlocked: (name: string) => ({
    what: `\`${name}\` feeds animals, which is blocked until the kitchen states that its local rules allow it`,
    remedy: "Add `local_rules_allow:` with the rule or notice that does, or leave it out",
  }),
  unknownDestination: (name: string, known: readonly string[]) => ({
    what: `there is no destination \`${name}\``,
    remedy: `Write the name of one under \`destinations:\`${known.length === 0 ? "" : `: ${known.map((each) => `\`${each}\``).join(", ")}`}, or add it there`,
  }),
  refuseNotOpen: (name: string) => ({
    what: `what no destination takes without limit has nowhere to go, and \`${name}\` does not take all of it`,
    remedy: "Leave out its `limit` and `takes`, or give it another name so that a refuse is added",
  }),
});

/** A step of a scale that there are, which shows the weight. */
function finerStep(all: Weight): string {
  return ["1", "0.1", "0.01"].find((step) => grams(step) <= all)?.concat(" g") ?? "0.001 g";
}

const PRICE_FOR = {
  g: "a weight, such as `4.00 / kg`",
  mL: "a volume, such as `4.00 / L`",
  each: "a count, such as `0.20 / each`",
};
