/** What is wrong in a scenario's content, and what to write instead: all the words. */
export { weightText } from "./figures.js";
export * from "./ingredients.js";
export * from "./menu.js";
