import path from 'node:path';

/** Where the kit's own alloy cards lie: data/alloys, seen alike from lib/ and from dist/. */
export const ALLOY_FOLDER = path.join(__dirname, '../../data/alloys');
