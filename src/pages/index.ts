/** Plan to plain objects of text, and those to HTML pages through the templates of the same names. */
export { type PageAsset, pageAssets } from "./assets.js";
export {
  type Block,
  type Cell,
  type Document,
  type DocumentOptions,
  pageOf,
} from "./document.js";
export { formChoiceDocument } from "./form-choice.js";
export {
  type ItemYieldsOptions,
  itemCautions,
  itemToPrint,
  itemYieldsPage,
  type YieldsIndexOptions,
  yieldsIndexPage,
} from "./item-yields.js";
export { type Ends, endsAsPrinted } from "./movements.js";
export { type OutcomeWords, outcomeWords, roundingWords } from "./outcome-words.js";
export { type Page, type PageOptions, renderHappened, renderPages } from "./render.js";
export { replanPage, replanText } from "./replan.js";
export { cautiousWords, chanceText, NOT_ENOUGH, orderWords } from "./risk.js";
export { safetyCasePage } from "./safety-case.js";
export { fill } from "./template.js";
export { TESTS, type TestCardData, testCardData, testCardPage } from "./test-card.js";
export { testFormPage } from "./test-form.js";
export { tradeoffDocument } from "./tradeoff.js";
export { usesDocument } from "./uses.js";
export { wasteAccountsPage } from "./waste-account.js";
export { wasteCompared, wasteFigures, wasteText } from "./waste-figures.js";
export { type WeighInFormOptions, weighInFormPage } from "./weigh-in-form.js";
export { worthDocument } from "./worth.js";
export { amountOf, capital, coins, counted, listed, type Writing, writingFor } from "./writing.js";
export { type YieldTestErrors, type YieldTestOptions, yieldTestPage } from "./yield-test.js";
