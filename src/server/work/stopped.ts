/** Work that was ended before it was done: nobody wanted its answer any more. */
export class Stopped extends Error {}
