export { type Complain, pastOf } from "./past.js";
export { restOf, wholeOf, withCovers } from "./rest.js";
