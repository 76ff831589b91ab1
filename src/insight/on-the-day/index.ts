export { buyableBefore } from "./buyable.js";
export { type ChangesFrom, changesFrom, type GoingChange } from "./changes.js";
export { type Complain, pastOf } from "./past.js";
export { restOf, wholeOf, withCovers } from "./rest.js";
