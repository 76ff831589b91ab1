/** What lies in a kitchen's folder, read and joined: scenarios, test cards, its own yield tests, kept plans and weigh-ins. */
export {
  fillIn,
  happenedAt,
  isPlanKept,
  type Lesson,
  learnFrom,
  readKeptPlan,
  weighInAt,
} from "./after-service.js";
export {
  type KitchenYields,
  kitchenYields,
  loadKitchenYields,
  type OwnTestsFile,
  readOwnTests,
  recordTests,
} from "./kitchen-yields.js";
export {
  type Loaded,
  loadScenario,
  loadScenarioText,
  loadTestCard,
  loadWithOffcut,
  problemsOf,
} from "./load.js";
