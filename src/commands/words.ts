import { wordings } from "../reading/index.js";

export const words = wordings("commands", {
  namedTwice: () => ({
    what: "the file, or the plan kept beside it, is named twice, and would be counted twice",
    remedy: "Name each file once",
  }),
});
