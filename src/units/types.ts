/** Soft unit types: plain numbers to the machine; to the compiler a metre is not a square metre. */
export type Metres = number & { readonly __unit?: 'm' };
export type SquareMetres = number & { readonly __unit?: 'm²' };
export type Litres = number & { readonly __unit?: 'L' };
export type Kilograms = number & { readonly __unit?: 'kg' };
export type Grams = number & { readonly __unit?: 'g' };
export type Micrometres = number & { readonly __unit?: 'µm' };
export type Millimetres = number & { readonly __unit?: 'mm' };
export type Radians = number & { readonly __unit?: 'rad' };

/** A point in a sheet's own coordinates: pixels of a photo (y down), metres of a blank grid (y up). */
export interface SheetPoint {
  readonly x: number;
  readonly y: number;
  readonly __frame?: 'sheet';
}

/** A point on the ground in metres, y up. */
export interface GroundPoint {
  readonly x: Metres;
  readonly y: Metres;
  readonly __frame?: 'ground';
}
