/** What was thrown, in its own words: anything can be thrown, and only an Error has a message. */
export const messageOf = (thrown: unknown) => (thrown instanceof Error ? thrown.message : String(thrown));
