/** An LP dive and a search of large neighbourhoods, guided by the tags of the model: good plans for large menus. */
export {
  type Effort,
  type Found,
  type Improved,
  integerCount,
  leastOfMatrix,
  objectiveAt,
  type Problem,
  problemOf,
  type Relaxation,
  type Solver,
} from "./problem.js";
export { type Exchange, type SearchOptions, search } from "./search.js";
