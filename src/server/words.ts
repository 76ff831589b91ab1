import { wordings } from "../reading/index.js";

export const words = wordings("server", {
  stumbled: () => ({
    what: "the program stumbles over this file, which is our fault",
    remedy: "Undo what was written last, and tell us what it was",
  }),
  gone: () => ({ what: "this file is not there any more", remedy: "Load the page again" }),
  /** The file may be as good as any: whoever reads gave way, over it or over another. */
  notRead: (reason: string) => ({
    what: `this file was not read: ${reason}`,
    remedy: "Load the page again",
  }),
});
