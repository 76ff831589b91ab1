/** An LP dive and a search of large neighbourhoods, guided by the tags of the model: good plans for large menus. */
export {
  type Found,
  leastOfMatrix,
  objectiveAt,
  type Problem,
  problemOf,
  wholesToSearch,
} from "./problem.js";
export { type Exchange, type SearchOptions, search } from "./search.js";
export type { Effort, Improved, Relaxation, Solver } from "./solver.js";
