export { type DishUse, type LastResort, type Need, type Uses, usesOf } from "./uses.js";
