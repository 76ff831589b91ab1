/** The pages over HTTP: a folder's scenarios, planned when asked, each with its pages and its JSON. */
export { type RunningServer, type ServerOptions, startServer } from "./server.js";
