/** The part of the HEIC decoder that is used. */
declare module 'libheif-js/libheif-wasm/libheif-bundle.mjs' {
  interface HeifImage {
    get_width(): number;
    get_height(): number;
    display(into: ImageData, done: (data: ImageData | null) => void): void;
  }
  interface Libheif {
    HeifDecoder: new () => { decode(bytes: Uint8Array): HeifImage[] };
  }
  const load: () => Promise<Libheif> | Libheif;
  // biome-ignore lint/style/noDefaultExport: that is how the library hands itself over
  export default load;
}
