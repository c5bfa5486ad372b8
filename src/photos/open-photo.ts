/**
 * The pixels of a photo, upright.
 * @throws when it is damaged
 */
export async function openPhoto(blob: Blob): Promise<ImageBitmap> {
  return createImageBitmap(blob.type === 'image/heic' ? await decodeHeic(blob) : blob);
}

/** No browser but one decodes HEIC by itself. */
async function decodeHeic(blob: Blob): Promise<ImageData> {
  const { default: libheif } = await import('libheif-js/libheif-wasm/libheif-bundle.mjs');
  const { HeifDecoder } = await libheif();
  const [image] = new HeifDecoder().decode(new Uint8Array(await blob.arrayBuffer()));
  if (!image) throw new Error('no picture in the file');
  const into = new ImageData(image.get_width(), image.get_height());
  const data = await new Promise<ImageData | null>((resolve) => image.display(into, resolve));
  if (!data) throw new Error('the picture is damaged');
  return data;
}
