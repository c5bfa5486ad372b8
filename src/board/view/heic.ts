import libheif from 'libheif-js/libheif-wasm/libheif-bundle.mjs';

/** Pixels of a HEIC photo, upright. Throws when it is damaged. */
export async function decodeHeic(blob: Blob): Promise<ImageData> {
  const { HeifDecoder } = await libheif();
  const [image] = new HeifDecoder().decode(new Uint8Array(await blob.arrayBuffer()));
  if (!image) throw new Error('no picture in the file');
  const pixels = new ImageData(image.get_width(), image.get_height());
  return new Promise((resolve, reject) => {
    image.display(pixels, (data) => (data ? resolve(pixels) : reject(new Error('the picture is damaged'))));
  });
}
