import type { ReadTestCard, TestCardFile } from "../../kitchen/index.js";
import { coinOf, Decimal, toCoins, ZERO } from "../../quantity/index.js";
import { inFileOrder, type Path, type Problem, type Wording } from "../../reading/index.js";
import {
  type CardTest,
  type CardUnit,
  type CookingCardTest,
  inCoins,
  priceIn,
  shownStep,
  type TestCard,
  unitOf,
  usualStep,
  weightsOfTest,
} from "./card.js";
import { type ByProduct, creditsOf, gapOf } from "./test-sums.js";
import { hiddenBy, smallText, words } from "./words.js";

type CookingFile = NonNullable<TestCardFile["cooking_loss_test"]>;
type ByProductsFile = NonNullable<NonNullable<TestCardFile["butchers_test"]>["by_products"]>;

/** A checked card, and everything wrong with the file; null where something is. */
export interface CheckedTestCard {
  readonly card: TestCard | null;
  readonly problems: readonly Problem[];
}

/**
 * Checks a test card as read: that its weights close as nearly as the scale shows, by half its step for each weighing,
 * and that by-products are worth less than the whole.
 */
export function checkTestCard(read: ReadTestCard): CheckedTestCard {
  if (read.value === null) return { card: null, problems: read.problems };
  const check = new CardCheck(read, read.value);
  const card = check.card();
  const problems = [...read.problems, ...check.problems].sort(inFileOrder);
  return { card: problems.length === 0 ? card : null, problems };
}

/** A whole and what it must be the sum of. */
interface Closing {
  readonly what: string;
  readonly whole: string;
  readonly weight: Decimal;
  readonly lossKey: string;
  readonly loss: Decimal;
  readonly others: readonly Decimal[];
}

class CardCheck {
  readonly problems: Problem[] = [];
  /** Said once: the later test has the credits of the earlier. */
  private creditsTooHigh = false;
  private readonly unit: CardUnit;
  private readonly scaleStep: Decimal;

  constructor(
    private readonly read: ReadTestCard,
    private readonly file: TestCardFile,
  ) {
    this.unit = unitOf(file.ap_price);
    this.scaleStep = file.scale_step ?? usualStep(this.unit);
  }

  card(): TestCard {
    const { file, unit } = this;
    if (file.butchers_test === undefined && file.cooking_loss_test === undefined) {
      const isWritten = this.read.isLeftOut(["butchers_test"]) || this.read.isLeftOut(["cooking_loss_test"]);
      if (!isWritten) this.problems.push({ ...this.read.positionOf([]), ...words.noTest() });
    }
    const apPrice = priceIn(file.ap_price, unit);
    if (this.apCost().isZero() && !this.isApUnknown()) this.at(["ap_price"], words.noPrice());
    if (file.new_price?.amount.isZero()) this.at(["new_price"], words.noPrice());
    const butchers = file.butchers_test === undefined ? null : this.butchers(file.butchers_test);
    const cooking =
      file.cooking_loss_test === undefined ? null : this.cooking(file.cooking_loss_test, butchers);
    return {
      item: file.item,
      grade: file.grade ?? null,
      supplier: file.supplier ?? null,
      date: file.date ?? null,
      testedBy: file.tested_by ?? null,
      currency: file.currency,
      locale: file.locale ?? "en-GB",
      scaleStep: shownStep(this.scaleStep, unit, [
        file.ap_weight,
        ...[butchers, cooking].flatMap(weightsOfTest),
      ]),
      unit,
      apWeight: file.ap_weight,
      apPrice,
      newPrice: file.new_price === undefined ? null : priceIn(file.new_price, unit),
      butchers,
      cooking,
    };
  }

  private butchers(test: NonNullable<TestCardFile["butchers_test"]>): CardTest {
    const path = ["butchers_test"];
    const loss = test.cutting_loss ?? ZERO;
    const products = test.by_products ?? {};
    const cuttingDifference = this.close(path, {
      ...this.asPurchased(loss),
      what: "by-products, cutting loss and usable weight",
      others: [...weightsOf(products), test.usable_weight],
    });
    const byProducts = this.byProducts(products);
    this.credits(path, byProducts);
    this.portion([...path, "portion"], test.portion, test.usable_weight);
    return {
      product: test.usable ?? "usable",
      productWeight: test.usable_weight,
      byProducts,
      cuttingLoss: loss,
      cuttingDifference,
      portionWeight: test.portion ?? null,
    };
  }

  private cooking(test: CookingFile, earlier: CardTest | null): CookingCardTest {
    const path = ["cooking_loss_test"];
    const before = this.beforeCooking(test, earlier, path);
    const carvingLoss = test.carving_loss ?? ZERO;
    const carvingDifference = this.close(path, {
      what: "what was carved off, carving loss and served weight",
      whole: "cooked weight",
      weight: test.cooked_weight,
      lossKey: "carving_loss",
      loss: carvingLoss,
      others: [...weightsOf(test.carved ?? {}), test.served_weight],
    });
    const carved = this.byProducts(test.carved ?? {});
    this.credits(path, [...before.byProducts, ...carved]);
    this.portion([...path, "portion"], test.portion, test.served_weight);
    return {
      method: test.method ?? null,
      product: test.served ?? "served",
      productWeight: test.served_weight,
      byProducts: before.byProducts,
      cuttingLoss: before.loss,
      cuttingDifference: before.difference,
      rawWeight: before.raw,
      cookedWeight: test.cooked_weight,
      carved,
      carvingLoss,
      carvingDifference,
      portionWeight: test.portion ?? null,
    };
  }

  /** What was cut off before cooking, and what went in: of the butcher's test where there is one. */
  private beforeCooking(test: CookingFile, earlier: CardTest | null, path: Path) {
    const loss = test.cutting_loss ?? ZERO;
    const products = test.trimmed ?? {};
    if (earlier !== null || this.read.isLeftOut(["butchers_test"])) {
      for (const key of ["trimmed", "cutting_loss"] as const)
        if (test[key] !== undefined) this.atKey([...path, key], words.carriedOn(key));
      const usable = earlier?.productWeight ?? test.raw_weight ?? this.file.ap_weight;
      if (test.raw_weight !== undefined && !test.raw_weight.equals(usable))
        this.at([...path, "raw_weight"], words.otherRawWeight(this.text(test.raw_weight), this.text(usable)));
      return {
        byProducts: earlier?.byProducts ?? [],
        loss: earlier?.cuttingLoss ?? ZERO,
        difference: earlier?.cuttingDifference ?? ZERO,
        raw: usable,
      };
    }
    const nothingOff = loss.isZero() && Object.keys(products).length === 0;
    const raw = test.raw_weight ?? (nothingOff ? this.file.ap_weight : null);
    const byProducts = this.byProducts(products);
    if (raw === null) {
      this.atKey(path, words.rawWeightMissing());
      return { byProducts, loss, difference: ZERO, raw: this.file.ap_weight };
    }
    const difference = this.close(path, {
      ...this.asPurchased(loss),
      what: "what was trimmed, cutting loss and raw weight",
      others: [...weightsOf(products), raw],
    });
    return { byProducts, loss, difference, raw };
  }

  private byProducts(entries: ByProductsFile): ByProduct[] {
    return Object.entries(entries).map(([name, entry]) => {
      const value = Decimal.isDecimal(entry) ? undefined : entry.value;
      return {
        name,
        weight: weightOf(entry),
        price: value === undefined ? ZERO : priceIn(value, this.unit),
      };
    });
  }

  private asPurchased(loss: Decimal) {
    return { whole: "AP weight", weight: this.file.ap_weight, lossKey: "cutting_loss", loss };
  }

  /** By what the pieces miss the whole; a problem where half a step for each weighing does not explain it. */
  private close(path: Path, { what, whole, weight, lossKey, loss, others }: Closing): Decimal {
    const gap = gapOf(weight, [loss, ...others]);
    const weighings = 1 + others.length + (loss.isZero() ? 0 : 1);
    const hidden = this.scaleStep.times(weighings).div(2);
    const apUnknown = whole === "AP weight" && this.read.isLeftOut(["ap_weight"]);
    if (gap.abs().lte(hidden) || apUnknown || this.read.isLeftOut(path)) return gap;
    this.atKey(
      path,
      words.doesNotClose(
        what,
        whole,
        this.text(weight.minus(gap)),
        this.text(gap),
        `${lossKey}: ${this.text(loss.plus(gap))}`,
        hiddenBy(weighings, this.text(this.scaleStep), this.text(hidden)),
      ),
    );
    return gap;
  }

  /** In coins, as they are printed, and exactly: neither may leave the product less than a coin to bear. */
  private credits(path: Path, byProducts: readonly ByProduct[]): void {
    const { unit, file } = this;
    const coin = coinOf(file.currency);
    const exactCost = file.ap_weight.times(priceIn(file.ap_price, unit));
    const exactOver = Decimal.sum(ZERO, ...creditsOf(byProducts)).minus(exactCost);
    const printed = byProducts.map(({ weight, price }) => inCoins(weight, price, unit, file.currency));
    const over = Decimal.max(
      toCoins(exactOver.div(unit.grams), coin),
      Decimal.sum(ZERO, ...printed).minus(this.apCost()),
    );
    if (over.isNegative() || this.isApUnknown() || this.apCost().isZero() || this.creditsTooHigh) return;
    this.creditsTooHigh = true;
    this.atKey(path, words.creditsAboveCost(over.isZero() ? null : over.toFixed(coin.decimalPlaces())));
  }

  /** To the coin. */
  private apCost(): Decimal {
    const { ap_weight, ap_price, currency } = this.file;
    return inCoins(ap_weight, priceIn(ap_price, this.unit), this.unit, currency);
  }

  private isApUnknown(): boolean {
    return ["ap_weight", "ap_price"].some((key) => this.read.isLeftOut([key]));
  }

  private portion(path: Path, portion: Decimal | undefined, weight: Decimal): void {
    if (portion?.greaterThan(weight))
      this.at(path, words.portionTooLarge(this.text(portion), this.text(weight)));
  }

  private text(weight: Decimal): string {
    return smallText(weight, this.unit);
  }

  private at(path: Path, text: Wording): void {
    this.problems.push({ ...this.read.positionOf(path), ...text });
  }

  private atKey(path: Path, text: Wording): void {
    this.problems.push({ ...this.read.keyPositionOf(path), ...text });
  }
}

function weightOf(entry: ByProductsFile[string]): Decimal {
  return Decimal.isDecimal(entry) ? entry : entry.weight;
}

function weightsOf(entries: ByProductsFile): Decimal[] {
  return Object.values(entries).map(weightOf);
}
