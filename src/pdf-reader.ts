/**
 * The library that reads PDF, loaded when the first document is opened. In a browser it works in a thread of its own;
 * scripts in a document are never run, fonts and files outside it never asked for.
 */
export async function openPdf(bytes: Uint8Array, password?: string) {
  const pdfjs = await import('pdfjs-dist/legacy/build/pdf.mjs');
  // In a browser, on its main thread or another; elsewhere the library finds its own way.
  if (
    typeof navigator !== 'undefined' &&
    !globalThis.process?.versions?.node &&
    !pdfjs.GlobalWorkerOptions.workerSrc
  ) {
    const worker = await import('pdfjs-dist/legacy/build/pdf.worker.min.mjs?url');
    pdfjs.GlobalWorkerOptions.workerSrc = worker.default;
  }
  return pdfjs.getDocument({
    // The reader takes the bytes for itself.
    data: new Uint8Array(bytes),
    ...(password === undefined ? {} : { password }),
    isEvalSupported: false,
    enableXfa: false,
    useSystemFonts: false,
    useWorkerFetch: false,
    verbosity: 0,
  });
}
