/** Plan to plain objects of text, and those to HTML pages through the templates of the same names. */
export { type PageAsset, pageAssets } from "./assets.js";
export { type DocumentOptions, documentPage } from "./document.js";
export { type OutcomeWords, outcomeWords } from "./outcome-words.js";
export { type Page, type PageOptions, renderPages } from "./render.js";
export { orderWords } from "./risk.js";
export { fill } from "./template.js";
export { counted, listed, type Writing, writingFor } from "./writing.js";
