import type { ReadTestCard, TestCardFile } from "../../kitchen/index.js";
import { Decimal, grams, ZERO } from "../../quantity/index.js";
import { inFileOrder, type Path, type Problem, type Wording } from "../../reading/index.js";
import { type ByProduct, creditsOf } from "../card-figures.js";
import {
  type CardTest,
  type CardUnit,
  type CookingCardTest,
  priceIn,
  type TestCard,
  unitOf,
} from "./card.js";
import * as words from "./words.js";

type ByProductsFile = NonNullable<NonNullable<TestCardFile["butchers_test"]>["by_products"]>;

/** A settled card, and everything wrong with the file; null where something is. */
export interface SettledTestCard {
  readonly card: TestCard | null;
  readonly problems: readonly Problem[];
}

/** Beyond these decimals stands only what the division by a pound's grams leaves over. */
const EXACT_PLACES = 30;

/** Checks a test card as read: that its weights close to the gram, and that by-products are worth less than the whole. */
export function settleTestCard(read: ReadTestCard): SettledTestCard {
  if (read.value === null) return { card: null, problems: read.problems };
  const settling = new Settling(read, read.value);
  const card = settling.card();
  const problems = [...read.problems, ...settling.problems].sort(inFileOrder);
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

class Settling {
  readonly problems: Problem[] = [];
  /** Said once: the later test has the credits of the earlier. */
  private creditsTooHigh = false;
  private readonly unit: CardUnit;

  constructor(
    private readonly read: ReadTestCard,
    private readonly file: TestCardFile,
  ) {
    this.unit = unitOf(file.ap_price);
  }

  card(): TestCard {
    const { file, unit } = this;
    if (file.butchers_test === undefined && file.cooking_loss_test === undefined) {
      const isWritten = this.read.isLeftOut(["butchers_test"]) || this.read.isLeftOut(["cooking_loss_test"]);
      if (!isWritten) this.problems.push({ ...this.read.positionOf([]), ...words.noTest() });
    }
    const apPrice = priceIn(file.ap_price, unit);
    if (apPrice.isZero()) this.at(["ap_price"], words.noPrice());
    const butchers = file.butchers_test === undefined ? null : this.butchers(file.butchers_test);
    const cooking = file.cooking_loss_test === undefined ? null : this.cooking(file.cooking_loss_test);
    return {
      item: file.item,
      grade: file.grade ?? null,
      supplier: file.supplier ?? null,
      date: file.date ?? null,
      testedBy: file.tested_by ?? null,
      currency: file.currency,
      locale: file.locale ?? "en-GB",
      scaleStep: file.scale_step ?? grams(unit.name === "kg" ? "1" : unit.grams.div(64)),
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
    this.close(path, {
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
      portionWeight: test.portion ?? null,
    };
  }

  private cooking(test: NonNullable<TestCardFile["cooking_loss_test"]>): CookingCardTest {
    const path = ["cooking_loss_test"];
    const before = this.beforeCooking(test, path);
    const carvingLoss = test.carving_loss ?? ZERO;
    this.close(path, {
      what: "what was carved off, carving loss and served weight",
      whole: "cooked weight",
      weight: test.cooked_weight,
      lossKey: "carving_loss",
      loss: carvingLoss,
      others: [...weightsOf(test.carved ?? {}), test.served_weight],
    });
    const byProducts = this.byProducts(before.products);
    const carved = this.byProducts(test.carved ?? {});
    this.credits(path, [...byProducts, ...carved]);
    this.portion([...path, "portion"], test.portion, test.served_weight);
    return {
      method: test.method ?? null,
      product: test.served ?? "served",
      productWeight: test.served_weight,
      byProducts,
      cuttingLoss: before.loss,
      rawWeight: before.raw,
      cookedWeight: test.cooked_weight,
      carved,
      carvingLoss,
      portionWeight: test.portion ?? null,
    };
  }

  /** What was cut off before cooking, and what went in: of the butcher's test where there is one. */
  private beforeCooking(test: NonNullable<TestCardFile["cooking_loss_test"]>, path: Path) {
    const earlier = this.file.butchers_test;
    const loss = test.cutting_loss ?? ZERO;
    const products = test.trimmed ?? {};
    if (earlier !== undefined || this.read.isLeftOut(["butchers_test"])) {
      for (const key of ["trimmed", "cutting_loss"] as const)
        if (test[key] !== undefined) this.atKey([...path, key], words.carriedOn(key));
      const usable = earlier?.usable_weight ?? test.raw_weight ?? this.file.ap_weight;
      if (test.raw_weight !== undefined && !test.raw_weight.equals(usable))
        this.at([...path, "raw_weight"], words.otherRawWeight(this.text(test.raw_weight), this.text(usable)));
      return { products: earlier?.by_products ?? {}, loss: earlier?.cutting_loss ?? ZERO, raw: usable };
    }
    const nothingOff = loss.isZero() && Object.keys(products).length === 0;
    const raw = test.raw_weight ?? (nothingOff ? this.file.ap_weight : null);
    if (raw === null) this.atKey(path, words.rawWeightMissing());
    else
      this.close(path, {
        ...this.asPurchased(loss),
        what: "what was trimmed, cutting loss and raw weight",
        others: [...weightsOf(products), raw],
      });
    return { products, loss, raw: raw ?? this.file.ap_weight };
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

  private close(path: Path, { what, whole, weight, lossKey, loss, others }: Closing): void {
    const sum = Decimal.sum(loss, ...others);
    const gap = weight.minus(sum);
    const apUnknown = whole === "AP weight" && this.read.isLeftOut(["ap_weight"]);
    if (gap.isZero() || apUnknown || this.read.isLeftOut(path)) return;
    this.atKey(
      path,
      words.doesNotClose(
        what,
        whole,
        this.text(sum),
        this.text(gap),
        `${lossKey}: ${this.text(loss.plus(gap))}`,
      ),
    );
  }

  private credits(path: Path, byProducts: readonly ByProduct[]): void {
    const { unit } = this;
    const cost = this.file.ap_weight.div(unit.grams).times(priceIn(this.file.ap_price, unit));
    const credits = Decimal.sum(ZERO, ...creditsOf(byProducts)).div(unit.grams);
    const over = credits.minus(cost).toDecimalPlaces(EXACT_PLACES);
    const unknown = ["ap_weight", "ap_price"].some((key) => this.read.isLeftOut([key]));
    if (over.isNegative() || unknown || cost.isZero() || this.creditsTooHigh) return;
    this.creditsTooHigh = true;
    this.atKey(path, words.creditsAboveCost(over));
  }

  private portion(path: Path, portion: Decimal | undefined, weight: Decimal): void {
    if (portion?.greaterThan(weight))
      this.at(path, words.portionTooLarge(this.text(portion), this.text(weight)));
  }

  private text(weight: Decimal): string {
    return words.smallText(weight, this.unit);
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
