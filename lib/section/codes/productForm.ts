import { TemperbookError } from '../../quantity';

/**
 * How the metal was made, as EN 1999-1-1 table 3.2 tells its rows apart. 'profile' says only that it is an
 * extrusion: it takes the weakest row of any extruded form. A drawn tube has rows of its own.
 */
export type ProductForm =
  | 'sheet'
  | 'open profile'
  | 'hollow profile'
  | 'extruded tube'
  | 'rod'
  | 'drawn tube'
  | 'profile';

/** The forms behind each code of the table. */
const FORMS_OF_CODE = {
  'EP-open': ['open profile'],
  'EP-hollow': ['hollow profile'],
  EP: ['open profile', 'hollow profile'],
  ET: ['extruded tube'],
  'ER-B': ['rod'],
  DT: ['drawn tube'],
  sheet: ['sheet'],
} as const satisfies Record<string, readonly ProductForm[]>;

/** Form codes as the table prints them. */
export type FormCode = keyof typeof FORMS_OF_CODE;

const EXTRUDED: readonly ProductForm[] = ['open profile', 'hollow profile', 'extruded tube', 'rod'];
/** Every form a caller may name. */
export const PRODUCT_FORMS: readonly ProductForm[] = ['sheet', ...EXTRUDED, 'drawn tube', 'profile'];

/** Whether a row printed for these codes ('EP/ET/ER-B') holds for a form. */
export function rowHoldsForm(codes: string, form: ProductForm): boolean {
  const forms = codes.split('/').flatMap((code): readonly ProductForm[] => FORMS_OF_CODE[code as FormCode]);
  return form === 'profile' ? forms.some((f) => EXTRUDED.includes(f)) : forms.includes(form);
}

/** @throws TemperbookError for a form the table does not know. */
export function requireForm(form: ProductForm): ProductForm {
  if (PRODUCT_FORMS.includes(form)) return form;
  throw new TemperbookError('The codes know no such form of metal', {
    found: String(form),
    expected: `one of ${PRODUCT_FORMS.join(', ')}`,
    remedy: "Ask the supplier how it was made; 'profile' is the careful answer for any extrusion",
  });
}
