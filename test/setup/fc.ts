import fc from 'fast-check';
import { inFull } from './extent';

/** The properties' cases: in the short form the same every time, so that what fails fails again; in the full form new ones. */
if (!inFull) fc.configureGlobal({ seed: 1_961_271 });

export { fc };
