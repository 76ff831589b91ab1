import { addCeilings } from "./ceilings.js";
import { sum } from "./item-plans.js";
import { LinearProgram, type Term } from "./linear-program.js";
import { type Draw, type Lot, outlastsPlan, ownStock, usableAt } from "./lots.js";
import type { MenuCooking } from "./menus.js";
import type { Question } from "./question.js";
import { type Group, hasShare, isExact, type LineNeed } from "./recipe.js";
import { beforeWorking, isPeelOfCuts, isUsable } from "./waste.js";
import { perGram, wholeGrams } from "./whole.js";
import { addWork } from "./work.js";

/** So much of a lot as goes into a line; `unit` grams for each of the variable. */
export interface Use {
  readonly lot: Lot;
  readonly need: LineNeed;
  readonly group: Group;
  readonly variable: number;
  readonly unit: number;
}

export interface End {
  readonly lot: Lot;
  readonly variable: number;
}

/** Where the parts of a menu and its cuts go: into lines, steps, keeping, stock, to those it is given, or away. */
export class PartProgram {
  readonly program = new LinearProgram();
  readonly uses: Use[] = [];
  readonly draws: { readonly draw: Draw; readonly variable: number; readonly unit: number }[] = [];
  readonly keeps: End[] = [];
  readonly gifts: (End & { readonly destination: string })[] = [];
  private readonly stocks: End[] = [];
  readonly wastes: End[] = [];

  constructor(private readonly question: Question) {
    this.addLines();
    this.addDraws();
    for (const lot of question.lots) this.addLot(lot);
    this.addKeepLimits();
    addWork(this, question);
    this.addGiftLimits();
    this.addStores();
    this.addHands();
    addCeilings(this, question);
  }

  leastCost(): number | null {
    return this.program.leastCost();
  }

  private addLines(): void {
    const { needs, prices, scenario } = this.question;
    const gift = scenario.wasteCounts.givenAway.toNumber();
    for (const need of needs) {
      const { cooking, least, most } = need;
      const given = sum(cooking.given.map(({ portions }) => portions));
      const wasted = ((cooking.wasted + gift * given) / cooking.portions) * prices.waste;
      const rated: Term[] = [];
      for (const group of need.groups) {
        for (const lot of group.lots) {
          const unit = pieceOf(lot);
          const variable = this.program.amount(wasted * cooked(need) * unit, { whole: isPiece(lot) });
          this.uses.push({ lot, need, group, variable, unit });
          rated.push({ variable, times: unit * group.rate });
        }
      }
      this.program.row(rated, least, isExact(need) ? least : most);
      for (const group of need.groups.filter(hasShare)) {
        const own = this.usesOf((use) => use.group === group, group.rate);
        const less = (share: number): Term[] =>
          rated.map((term) => ({ ...term, times: -share * term.times }));
        const { leastShare, mostShare } = group.source;
        this.program.row([...own, ...less(leastShare.toNumber())], 0, Infinity);
        this.program.row([...own, ...less(mostShare.toNumber())], -Infinity, 0);
      }
    }
  }

  private addDraws(): void {
    const { draws, drawn, scenario } = this.question;
    for (const draw of draws) {
      const unit = pieceOf(draw.from);
      const inTime = draw.outputs.some(({ lot }) => usableAt(lot, draw.service, scenario));
      const known = drawn === null ? null : (drawn.get(draw) ?? 0) / unit;
      const variable = this.program.amount(0, {
        whole: isPiece(draw.from),
        most: known ?? (inTime ? Infinity : 0),
        least: known ?? 0,
      });
      this.draws.push({ draw, variable, unit });
    }
    for (const step of scenario.steps) {
      if (step.capacity === null) continue;
      for (const service of scenario.services.keys()) {
        const taken = this.drawsOf((draw) => draw.step === step && draw.service === service);
        this.program.row(taken, -Infinity, wholeGrams(step.capacity));
      }
    }
  }

  /** All that comes into a lot before a service goes out before it or waits; after the last, it ends somewhere. */
  private addLot(lot: Lot): void {
    const { services } = this.question.scenario;
    let waiting: Term[] = [];
    for (let service = lot.first; service < services.length; service++) {
      const made = this.madeOf(lot, (at) => at === service);
      const out = [
        ...this.usesOf((use) => use.lot === lot && use.need.cooking.service === service),
        ...this.drawsOf((draw) => draw.from === lot && draw.service === service),
      ];
      const left = this.program.amount(0);
      const held = service === lot.first ? lot.supply : 0;
      this.program.row(
        [...negative([...made, ...waiting]), ...out, { variable: left, times: 1 }],
        held,
        held,
      );
      waiting = [{ variable: left, times: 1 }];
    }
    const ends = this.endsOf(lot).map((variable) => ({ variable, times: 1 }));
    this.program.row([...ends, ...negative(waiting)], 0, 0);
  }

  private endsOf(lot: Lot): number[] {
    const { scenario, prices, peelThrown } = this.question;
    const counts = scenario.wasteCounts;
    const ends: number[] = [];
    const lasting = outlastsPlan(lot, scenario);
    const { carry } = lot.part;
    if (carry !== null && lasting) {
      const variable = this.program.amount(-prices.credit * perGram(carry.valuePerKilogram));
      this.keeps.push({ lot, variable });
      ends.push(variable);
    }
    const stock = ownStock(lot, scenario);
    const stated = stock?.destination;
    if (stock !== null && lasting && stated === undefined && lot.part.class !== "never") {
      const variable = this.program.amount(0);
      this.stocks.push({ lot, variable });
      ends.push(variable);
      if (!this.isShortOfRoom(lot)) return ends;
    }
    const isFood = lot.part.class === "food";
    for (const { name, end, takes } of scenario.destinations) {
      if (!isFood || end !== "given away" || !takes.food || (stated ?? name) !== name) continue;
      const variable = this.program.amount(counts.givenAway.toNumber() * prices.waste);
      this.gifts.push({ lot, variable, destination: name });
      ends.push(variable);
    }
    if (scenario.destinations.some(({ name, end }) => end === "given away" && name === stated)) return ends;
    const family = lot.part.item;
    const peel = isPeelOfCuts(lot, scenario) && family !== null && peelThrown.has(family);
    const thrown =
      (peel ? counts.avoidablePeel.toNumber() : 0) +
      (isUsable(lot.part.name, scenario) ? counts.unusedUsable.toNumber() : 0);
    const variable = this.program.amount((isFood ? 1 : thrown) * prices.waste);
    this.wastes.push({ lot, variable });
    return [...ends, variable];
  }

  /** Whether food that keeps may yet have to go, as there is a limit to what its store holds. */
  private isShortOfRoom({ part }: Lot): boolean {
    const { chilled, frozen } = this.question.scenario.limits;
    return part.class === "food" && (part.state === "frozen" ? frozen !== undefined : chilled !== null);
  }

  private addKeepLimits(): void {
    for (const { name, carry } of this.question.scenario.parts) {
      if (carry === null) continue;
      const kept = this.keeps.filter(({ lot }) => lot.part.name === name);
      this.program.row(kept.map(once), -Infinity, wholeGrams(carry.limit));
    }
  }

  private addGiftLimits(): void {
    const { scenario, draws } = this.question;
    for (const { name, end, limit } of scenario.destinations) {
      if (end !== "given away" || limit === null) continue;
      const given = this.gifts
        .filter(({ destination }) => destination === name)
        .map(({ lot, variable }) => ({ variable, times: beforeWorking(lot, draws, scenario) }));
      const spare = this.portions(({ given: all, portions }) =>
        sum(all.map((gift) => (gift.destination === name ? gift.portions / portions : 0))),
      );
      this.program.row([...given, ...spare], -Infinity, wholeGrams(limit));
    }
  }

  /** What must still be there after each service, cold or frozen: whole items, parts, and dishes that wait. */
  private addStores(): void {
    const { scenario, plans } = this.question;
    const { chilled, frozen } = scenario.limits;
    for (const after of scenario.services.keys()) {
      if (frozen !== undefined)
        this.program.row(this.partsHeld("frozen", after), -Infinity, wholeGrams(frozen));
      if (chilled === null) continue;
      const whole = sum(plans.map(({ stock }) => stock[after] ?? 0));
      const dishes = this.portions(({ service, eaten, portions }) =>
        service > after
          ? 0
          : sum(eaten.filter((at) => at.service > after).map((at) => at.portions / portions)),
      );
      const cold = [...this.partsHeld("cold", after), ...dishes];
      this.program.row(cold, -Infinity, wholeGrams(chilled) - whole);
    }
  }

  /** Of each lot what is used, worked and kept later, less what is made of it later. */
  private partsHeld(store: "cold" | "frozen", after: number): Term[] {
    const { lots } = this.question;
    return lots
      .filter(({ first, part }) => first <= after && (part.state === "frozen") === (store === "frozen"))
      .map((lot) => {
        const held = this.program.amount(0);
        const gone = [
          ...this.usesOf((use) => use.lot === lot && use.need.cooking.service > after),
          ...this.drawsOf((draw) => draw.from === lot && draw.service > after),
          ...[...this.keeps, ...this.stocks].filter((end) => end.lot === lot).map(once),
        ];
        const made = this.madeOf(lot, (service) => service > after);
        this.program.row([{ variable: held, times: 1 }, ...negative(gone), ...made], 0, Infinity);
        return { variable: held, times: 1 };
      });
  }

  /** What steps before certain services give of a lot. */
  madeOf(lot: Lot, at: (service: number) => boolean, by: (draw: Draw) => boolean = () => true): Term[] {
    return this.draws.flatMap(({ draw, variable, unit }) =>
      draw.outputs
        .filter((output) => output.lot === lot && at(draw.service) && by(draw))
        .map(({ fraction }) => ({ variable, times: fraction.toNumber() * unit })),
    );
  }

  private addHands(): void {
    const { scenario, plans, menu } = this.question;
    scenario.services.forEach(({ handsMinutes }, index) => {
      const limit = handsMinutes ?? scenario.limits.handsMinutes;
      if (limit === null) return;
      const fixed = [
        ...plans.map(({ work }) => work[index] ?? 0),
        ...menu.cookings.map(({ dish, service, portions }) =>
          service === index
            ? ((dish.minutesPerBatch?.toNumber() ?? 0) * 1000 * portions) / (dish.batch?.portions ?? 1)
            : 0,
        ),
      ];
      const steps = this.draws
        .filter(({ draw }) => draw.service === index)
        .map(({ draw, variable, unit }) => ({
          variable,
          times: (draw.step.minutesPerKilogram?.toNumber() ?? 0) * unit,
        }));
      this.program.row(steps, -Infinity, limit * 1000 - sum(fixed));
    });
  }

  /** Grams of portions as they weigh in the ledger: a share of all that goes into each cooking. */
  private portions(shareOf: (cooking: MenuCooking) => number): Term[] {
    return this.uses.flatMap(({ need, variable, unit }) => {
      const share = shareOf(need.cooking);
      return share === 0 ? [] : [{ variable, times: unit * cooked(need) * share }];
    });
  }

  usesOf(fits: (use: Use) => boolean, times = 1): Term[] {
    return this.uses.filter(fits).map(({ variable, unit }) => ({ variable, times: unit * times }));
  }

  drawsOf(fits: (draw: Draw) => boolean): Term[] {
    return this.draws
      .filter(({ draw }) => fits(draw))
      .map(({ variable, unit }) => ({ variable, times: unit }));
  }
}

/** Grams in the dish of a gram that goes in raw. */
function cooked({ line }: LineNeed): number {
  return line.cookingYield.toNumber();
}

export function once({ variable }: End): Term {
  return { variable, times: 1 };
}

export function negative(terms: readonly Term[]): Term[] {
  return terms.map(({ variable, times }) => ({ variable, times: -times }));
}

export function isPiece({ part }: Lot): boolean {
  return part.pieceWeight !== null;
}

export function pieceOf({ part }: Lot): number {
  return part.pieceWeight === null ? 1 : wholeGrams(part.pieceWeight);
}
