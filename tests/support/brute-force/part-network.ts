import { type Chosen, isFlow, pieceOf, type Question } from "./choices.js";
import { sum } from "./item-plans.js";
import { isLossless, type Lot, outlastsPlan, usableAt } from "./lots.js";
import { FlowNetwork } from "./min-cost-flow.js";
import { hasShare, isExact, sharesKept } from "./recipe.js";
import { gramsAPortion } from "./weighing.js";
import { perGram, wholeGrams } from "./whole.js";

/** The network of lots by service, recipe lines and destinations. */
export class PartNetwork {
  private readonly flow: FlowNetwork;
  private readonly nodes = new Map<string, number>();
  private readonly sink: number;

  constructor(private readonly question: Question) {
    const { lots, needs, scenario } = question;
    const parts = lots.length * (scenario.services.length + 3);
    const lines = needs.reduce((sum, { groups }) => sum + 1 + groups.length, 0);
    this.flow = new FlowNetwork(1 + parts + lines + scenario.destinations.length);
    this.sink = this.node("sink");
  }

  /** Recipe lines; false when what was chosen already breaks one. */
  addLines(chosen: readonly Chosen[]): boolean {
    return this.question.needs.every((need, index) => {
      const exact = isExact(need);
      let known = 0;
      let open = false;
      const amounts = need.groups.map((group, at) => {
        const tried = chosen.filter(
          ({ choice }) => (choice.kind === "use" || choice.kind === "group") && choice.group === group,
        );
        const usedLots = new Set(tried.flatMap(({ choice }) => (choice.kind === "use" ? [choice.lot] : [])));
        const whole = tried.find(({ choice }) => choice.kind === "group");
        const amount = tried.reduce((sum, { grams }) => sum + grams, 0) * group.rate;
        known += amount;
        for (const { choice, grams } of tried) {
          if (choice.kind === "use")
            this.flow.addBalance(this.lotNode(choice.lot, need.cooking.service), -grams);
        }
        const free = group.lots.filter((lot) => !usedLots.has(lot));
        if (free.length === 0) return { group, amount, open: false };
        const groupNode = this.node(`group ${index} ${at}`);
        for (const lot of free)
          this.flow.addArc(this.lotNode(lot, need.cooking.service), groupNode, 0, Infinity, 0);
        if (whole !== undefined) {
          this.flow.addBalance(groupNode, -whole.grams);
          return { group, amount, open: false };
        }
        open = true;
        // The share is of a known whole: a line with shares and a range has no open part.
        const [least, most] = hasShare(group)
          ? [group.source.leastShare.times(need.most).ceil(), group.source.mostShare.times(need.most).floor()]
          : [0, Infinity];
        this.flow.addArc(
          groupNode,
          this.node(`line ${index}`),
          Math.max(0, Number(least) - amount),
          Number(most) - amount,
          0,
        );
        return { group, amount, open: true };
      });
      const shares = amounts.every(
        ({ group, amount, open: free }) => free || sharesKept(amount, group, exact ? need.most : known),
      );
      if (!shares || known > need.most + 1e-9) return false;
      if (!open) return known >= need.least - 1e-9;
      this.flow.addArc(
        this.node(`line ${index}`),
        this.sink,
        Math.max(0, need.least - known),
        need.most - known,
        0,
      );
      return true;
    });
  }

  addLots(chosen: readonly Chosen[]): void {
    const { lots, draws, scenario, prices } = this.question;
    for (const { choice, grams } of chosen) {
      if (choice.kind !== "draw" || grams === 0) continue;
      this.flow.addBalance(this.lotNode(choice.draw.from, choice.draw.service), -grams);
      for (const { lot, fraction } of choice.draw.outputs)
        this.flow.addBalance(this.lotNode(lot, choice.draw.service), Math.round(fraction.toNumber() * grams));
    }
    for (const draw of draws) {
      if (!isFlow(draw, this.question)) continue;
      for (const { lot } of draw.outputs) {
        if (usableAt(lot, draw.service, scenario))
          this.flow.addArc(
            this.lotNode(draw.from, draw.service),
            this.lotNode(lot, draw.service),
            0,
            Infinity,
            0,
          );
      }
    }
    for (const lot of lots) {
      this.flow.addBalance(this.lotNode(lot, lot.first), lot.supply);
      const ends = this.node(`end ${lot.index}`);
      for (let service = lot.first; service < scenario.services.length; service++) {
        const node = this.lotNode(lot, service);
        if (service > lot.first) this.flow.addArc(this.lotNode(lot, service - 1), node, 0, Infinity, 0);
      }
      this.flow.addArc(this.lotNode(lot, scenario.services.length - 1), ends, 0, Infinity, 0);
      const left = this.node(`left ${lot.index}`);
      this.flow.addArc(ends, left, 0, this.mostLeftOver(lot, chosen), 0);
      const food = lot.part.class === "food";
      this.flow.addArc(left, this.sink, 0, Infinity, food ? prices.waste : 0);
      if (food) this.addGifts(left);
      this.addKeeping(lot, ends, chosen);
    }
    for (const destination of scenario.destinations) {
      if (destination.end !== "given away") continue;
      const gift = this.node(`gift ${destination.name}`);
      if (destination.limit === null) this.flow.addArc(gift, this.sink, 0, Infinity, 0);
      else {
        const given = this.question.menu.cookings.flatMap((cooking) =>
          cooking.given
            .filter(({ destination: to, portions }) => to === destination.name && portions > 0)
            .map(({ portions }) => portions * gramsAPortion(cooking, chosen, this.question)),
        );
        this.flow.addArc(
          gift,
          this.sink,
          0,
          Math.floor(wholeGrams(destination.limit) - sum(given) + 1e-6),
          0,
        );
      }
    }
  }

  leastCost(chosen: readonly Chosen[]): number | null {
    let inside = 0;
    for (const node of this.nodes.values()) inside += this.flow.balanceOf(node);
    this.flow.addBalance(this.sink, -inside);
    const cost = this.flow.leastCost();
    if (cost === null) return null;
    return chosen.reduce(
      (sum, { choice, grams }) => (choice.kind === "keep" ? sum - grams * this.creditOf(choice.lot) : sum),
      cost,
    );
  }

  private addGifts(left: number): void {
    for (const { name, end, takes } of this.question.scenario.destinations) {
      if (end === "given away" && takes.food)
        this.flow.addArc(left, this.node(`gift ${name}`), 0, Infinity, 0);
    }
  }

  private addKeeping(lot: Lot, ends: number, chosen: readonly Chosen[]): void {
    const { carry } = lot.part;
    if (carry === null || !outlastsPlan(lot, this.question.scenario)) return;
    const tried = chosen.find(({ choice }) => choice.kind === "keep" && choice.lot === lot);
    if (tried !== undefined) {
      this.flow.addBalance(ends, -tried.grams);
      return;
    }
    const shelf = `shelf ${lot.part.name}`;
    const isNew = !this.nodes.has(shelf);
    this.flow.addArc(ends, this.node(shelf), 0, Infinity, -this.creditOf(lot));
    if (isNew) this.flow.addArc(this.node(shelf), this.sink, 0, wholeGrams(carry.limit), 0);
  }

  private creditOf({ part }: Lot): number {
    return part.carry === null ? 0 : this.question.prices.credit * perGram(part.carry.valuePerKilogram);
  }

  /**
   * Nobody peels a stem to be rid of it: the main output of a step that loses weight, sheds a by-product or takes
   * up water is wasted or given away only as far as it came some other way, or as whole pieces had to be taken.
   */
  private mostLeftOver(lot: Lot, chosen: readonly Chosen[]): number {
    if (lot.part.class !== "food") return Infinity;
    const worked = this.question.draws.filter(
      ({ step, outputs }) => !isLossless(step) && outputs[0]?.lot === lot,
    );
    if (worked.length === 0) return Infinity;
    if (this.question.draws.some((draw) => isFlow(draw, this.question) && draw.outputs[0]?.lot === lot))
      throw new RangeError(`the referee does not know what made ${lot.part.name}`);
    let most = lot.supply;
    for (const { choice, grams } of chosen) {
      if (choice.kind !== "draw") continue;
      choice.draw.outputs.forEach((output, index) => {
        if (output.lot === lot && (index > 0 || isLossless(choice.draw.step)))
          most += output.fraction.toNumber() * grams;
      });
    }
    const pieces = new Map(
      worked
        .filter(({ from }) => from.part.pieceWeight !== null)
        .map(({ step, from, outputs }) => [
          `${step.name} of ${from.index}`,
          pieceOf(from) * (outputs[0]?.fraction.toNumber() ?? 0),
        ]),
    );
    return Math.round(most + sum([...pieces.values()]));
  }

  private lotNode(lot: Lot, service: number): number {
    return this.node(`lot ${lot.index} ${service}`);
  }

  private node(name: string): number {
    const found = this.nodes.get(name);
    if (found !== undefined) return found;
    const fresh = this.nodes.size;
    this.nodes.set(name, fresh);
    return fresh;
  }
}
