import { kitVersion } from '../record';
import { hasTag, type Notebook } from './notebookFile';

/** What to do about a cell's failure, where its message shows the cause. */
export function remedyOf(message: string, notebook: Notebook): string | undefined {
  if (/^Cannot find module 'temperbook'/.test(message))
    return "Install the kit in the notebook's folder: npm install temperbook";
  if (NOT_OF_THE_KIT.test(message))
    return `This notebook was written for another version of the kit than the one here (${kitVersion()}): take this version's notebook of the same name, or install the version it was written for`;
  const [, missing] = /^Cannot find name '(\w+)'/.exec(message) ?? [];
  const hasParameters = notebook.cells.some((cell) => hasTag(cell, 'parameters'));
  if (missing !== undefined && hasParameters)
    return `Where ${missing} is a value to be set, the cell tagged "parameters" should set it: let ${missing} = …`;
  return undefined;
}

/** What the compiler says of a name that the kit, or one of its groups, does not have. */
const NOT_OF_THE_KIT =
  /Module '"temperbook"' has no exported member|does not exist on type 'typeof import\("[^"]*\/dist\/\w+/;
