/** What a person may say of a file that it does not say itself. */
export interface ImportOptions {
  /** One of DRAWING_UNITS. */
  readonly units?: string;
  /** N of a page or paper drawing at 1 : N. */
  readonly ratio?: number;
  /** Page of a document, from 1. */
  readonly page?: number;
  readonly password?: string;
  /** Layers to take; all that are not hidden where absent. */
  readonly layers?: readonly string[];
}
