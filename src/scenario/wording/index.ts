import { ingredients } from "./ingredients.js";
import { menu } from "./menu.js";

/** What is wrong in a scenario's content, and what to write instead: all the words. */
export const words = { ...ingredients, ...menu };
