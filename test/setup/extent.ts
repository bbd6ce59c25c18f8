/** Tests that take long have a short form for `npm test`; `npm run test:full` runs all of each. */
export const inFull = process.env.TEST_EXTENT === 'full';
