import { wordings } from "../reading/index.js";

export const words = wordings("keeping", {
  weighInFilled: () => ({
    what: "it holds weights or reasons of the plan that was kept before, which stays as it is",
    remedy:
      "Learn from them and move the file away, or empty its columns `actual` and `reason`; then keep the new plan",
  }),
  anotherKept: () => ({
    what: "another plan was kept meanwhile, which stays as it is",
    remedy: "Plan the rest of that one anew",
  }),
});
