/**
 * The library that reads PDF, loaded when the first document is opened. In a browser it works in a thread of its own;
 * scripts in a document are never run, fonts and files outside it never asked for.
 */
export async function openPdf(bytes: Uint8Array, password?: string) {
  const pdfjs = await import('pdfjs-dist/legacy/build/pdf.mjs');
  const { GlobalWorkerOptions: given } = pdfjs;
  const inBrowser = typeof navigator !== 'undefined' && !globalThis.process?.versions?.node;
  if (inBrowser && !given.workerSrc && !given.workerPort) {
    const { default: url } = await import('pdfjs-dist/legacy/build/pdf.worker.min.mjs?url');
    if (typeof window !== 'undefined') given.workerSrc = url;
    // On a thread that is not the page's the library cannot start one by itself, and would take this one over.
    else given.workerPort = new Worker(url, { type: 'module' });
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
